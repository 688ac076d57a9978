// The Scope's pages: answers by keys, photographs taken in, points set on one, two laid over each other.
(function () {
  "use strict";

  function typing() {
    return /^(INPUT|TEXTAREA|SELECT)$/.test(document.activeElement.tagName)
      && !/^(checkbox|radio|range)$/.test(document.activeElement.type);
  }

  // Escape goes back to the Mat one came from.
  var mat = document.querySelector(".crumb a[href^='/mat/']");
  if (mat) {
    document.addEventListener("keydown", function (event) {
      // not while something is open, or typed and not kept
      var kept = !document.querySelector("dialog[open]")
        && Array.prototype.every.call(document.querySelectorAll("main input[type=text], main input:not([type]), main textarea"), function (field) {
          return field.value === field.defaultValue;
        });
      if (event.key === "Escape" && !event.defaultPrevented && !typing() && kept) mat.click();
    });
  }

  // Attribution: y, n, c and k.
  if (document.getElementById("attribution")) {
    document.addEventListener("keydown", function (event) {
      if (typing() || event.ctrlKey || event.altKey || event.metaKey) return;
      var target = event.key === "k" ? document.getElementById("keep") : document.getElementById("answer-" + event.key);
      if (target) { event.preventDefault(); target.click(); }
    });
  }

  // Photographs: dropped, pasted, or from a camera the browser knows (a microscope is one).
  var forms = Array.prototype.slice.call(document.querySelectorAll(".photo-form"));
  forms.forEach(function (form) {
    var input = form.querySelector("input[type=file]");
    form.addEventListener("dragover", function (event) { event.preventDefault(); form.classList.add("over"); });
    form.addEventListener("dragleave", function () { form.classList.remove("over"); });
    form.addEventListener("drop", function (event) {
      event.preventDefault();
      form.classList.remove("over");
      give(form, event.dataTransfer.files);
    });
    var camera = form.querySelector(".camera");
    if (navigator.mediaDevices && navigator.mediaDevices.getUserMedia) {
      camera.hidden = false;
      camera.addEventListener("click", function () { openCamera(form, camera); });
    }
    input.addEventListener("change", function () { input.closest("form").querySelector("button[type=submit]").focus(); });
  });
  function give(form, files) {
    if (!files || files.length === 0) return;
    form.querySelector("input[type=file]").files = files;
    form.requestSubmit();
  }
  if (forms.length > 0) {
    document.addEventListener("paste", function (event) {
      var files = event.clipboardData && event.clipboardData.files;
      if (files && files.length > 0) { event.preventDefault(); give(forms[forms.length - 1], files); }
    });
  }
  function openCamera(form, button) {
    navigator.mediaDevices.getUserMedia({ video: { width: { ideal: 1920 }, height: { ideal: 1080 } } }).then(function (stream) {
      var box = document.createElement("div");
      box.className = "camera-box";
      var video = document.createElement("video");
      video.autoplay = true; video.muted = true; video.playsInline = true; video.srcObject = stream;
      var take = document.createElement("button");
      take.type = "button"; take.textContent = say("take-picture");
      var stop = document.createElement("button");
      stop.type = "button"; stop.className = "quiet"; stop.textContent = say("stop-camera");
      function end() { stream.getTracks().forEach(function (track) { track.stop(); }); box.remove(); button.hidden = false; }
      take.addEventListener("click", function () {
        var canvas = document.createElement("canvas");
        canvas.width = video.videoWidth; canvas.height = video.videoHeight;
        canvas.getContext("2d").drawImage(video, 0, 0);
        canvas.toBlob(function (blob) {
          var carry = new DataTransfer();
          carry.items.add(new File([blob], "camera.jpg", { type: "image/jpeg" }));
          end();
          give(form, carry.files);
        }, "image/jpeg", 0.95);
      });
      stop.addEventListener("click", end);
      box.append(video, take, stop);
      form.after(box);
      button.hidden = true;
      take.focus();
    }).catch(function () {
      button.disabled = true;
      button.textContent = say("no-camera");
    });
  }

  // One photograph: points set by mouse, finger or keys.
  var bench = document.getElementById("bench-photo");
  if (bench) photoBench(bench);

  function photoBench(bench) {
    var canvas = document.getElementById("stage");
    var pen = canvas.getContext("2d");
    var form = document.getElementById("measure");
    var hint = document.getElementById("hint");
    var measured = document.getElementById("measured");
    var width = Number(bench.dataset.width), height = Number(bench.dataset.height);
    var outline = bench.dataset.outline;
    var drawing = "";
    var sets = { pairs: [], edge: [], punch: [], grey: [] };
    var order = [];
    var mode = "pairs";
    var view = { scale: 1, x: 0, y: 0 };
    var cross = { x: width / 2, y: height / 2, shown: false };
    var picture = new Image();
    picture.onload = function () { whole(); };
    picture.src = "/photos/" + bench.dataset.photo + ".jpg";

    var words = {
      pairs: [say("pair-first"), say("pair-second")],
      edge: [say("edge")],
      punch: [say("punch")],
      grey: [say("grey")]
    };
    function tell() {
      var text = words[mode][mode === "pairs" && sets.pairs.length % 2 === 1 ? 1 : 0];
      hint.textContent = text + " " + say("pairs-set", Math.floor(sets.pairs.length / 2));
    }
    function setMode(next) {
      mode = next;
      bench.querySelectorAll("[data-mode]").forEach(function (button) {
        button.setAttribute("aria-pressed", String(button.dataset.mode === mode));
      });
      tell();
    }
    function fit() {
      var box = canvas.getBoundingClientRect();
      var ratio = window.devicePixelRatio || 1;
      canvas.width = Math.max(1, Math.round(box.width * ratio));
      canvas.height = Math.max(1, Math.round(box.height * ratio));
    }
    function whole() {
      fit();
      view.scale = Math.min(canvas.width / width, canvas.height / height);
      view.x = (canvas.width - width * view.scale) / 2;
      view.y = (canvas.height - height * view.scale) / 2;
      draw();
    }
    function zoom(factor, cx, cy) {
      var px = cx === undefined ? canvas.width / 2 : cx, py = cy === undefined ? canvas.height / 2 : cy;
      var least = 0.5 * Math.min(canvas.width / width, canvas.height / height);
      var next = Math.max(least, Math.min(40, view.scale * factor));
      view.x = px - (px - view.x) * next / view.scale;
      view.y = py - (py - view.y) * next / view.scale;
      view.scale = next;
      draw();
    }
    function toPicture(x, y) { return { x: (x - view.x) / view.scale - 0.5, y: (y - view.y) / view.scale - 0.5 }; }
    function toStage(x, y) { return { x: (x + 0.5) * view.scale + view.x, y: (y + 0.5) * view.scale + view.y }; }
    function numbers(text) { return text.split(" ").map(Number); }

    function draw() {
      pen.setTransform(1, 0, 0, 1, 0, 0);
      pen.fillStyle = "#101314";
      pen.fillRect(0, 0, canvas.width, canvas.height);
      pen.imageSmoothingEnabled = view.scale < 4;
      pen.setTransform(view.scale, 0, 0, view.scale, view.x, view.y);
      if (picture.complete && picture.naturalWidth) pen.drawImage(picture, 0, 0);
      pen.setTransform(1, 0, 0, 1, 0, 0);
      var thin = Math.max(1.5, canvas.width / 700);
      if (outline) {
        var o = numbers(outline), c = toStage(o[0], o[1]);
        stroke("#ffd34d", thin, function () { pen.ellipse(c.x, c.y, o[2] * view.scale, o[3] * view.scale, o[4], 0, 2 * Math.PI); });
      }
      if (drawing) motion(drawing, thin);
      for (var i = 0; i + 1 < sets.pairs.length; i += 2) arrow(sets.pairs[i], sets.pairs[i + 1], "#7ef0ff", thin * 1.4);
      sets.pairs.forEach(function (p, n) { dot(p, n % 2 === 0 ? "#7ef0ff" : "#ff8ad8", thin); });
      sets.punch.forEach(function (p, n) { dot(p, n === 0 ? "#a9ff7e" : "#ff8ad8", thin); });
      if (sets.punch.length === 2) arrow(sets.punch[0], sets.punch[1], "#a9ff7e", thin * 1.4);
      sets.edge.forEach(function (p) { dot(p, "#ffd34d", thin); });
      sets.grey.forEach(function (p) { dot(p, "#ffffff", thin); });
      if (cross.shown) {
        var at = toStage(cross.x, cross.y);
        stroke("#ffffff", thin, function () {
          pen.moveTo(at.x - 16, at.y); pen.lineTo(at.x + 16, at.y); pen.moveTo(at.x, at.y - 16); pen.lineTo(at.x, at.y + 16);
        });
      }
    }
    // Every line has a dark one below it, so that it stands out on light and dark metal.
    function stroke(colour, wide, path) {
      [["rgba(0,0,0,.75)", wide * 2.6], [colour, wide]].forEach(function (one) {
        pen.strokeStyle = one[0]; pen.lineWidth = one[1];
        pen.beginPath(); path(); pen.stroke();
      });
    }
    function dot(p, colour, wide) {
      var at = toStage(p.x, p.y);
      stroke(colour, wide, function () { pen.arc(at.x, at.y, wide * 3, 0, 2 * Math.PI); });
    }
    function arrow(from, to, colour, wide) {
      var a = toStage(from.x, from.y), b = toStage(to.x, to.y), turn = Math.atan2(b.y - a.y, b.x - a.x);
      stroke(colour, wide, function () {
        pen.moveTo(a.x, a.y); pen.lineTo(b.x, b.y);
        pen.lineTo(b.x - 9 * Math.cos(turn - 0.5), b.y - 9 * Math.sin(turn - 0.5));
        pen.moveTo(b.x, b.y); pen.lineTo(b.x - 9 * Math.cos(turn + 0.5), b.y - 9 * Math.sin(turn + 0.5));
      });
    }
    // The fitted motion over the whole coin, drawn larger than life where it is small.
    function motion(text, wide) {
      var parts = text.split(" "), kind = parts[0], v = parts.slice(1).map(Number);
      if (!outline) return;
      var o = numbers(outline), largest = 0, arrows = [];
      for (var ring = 0.35; ring <= 0.9; ring += 0.275) {
        for (var k = 0; k < 12; k++) {
          var angle = 2 * Math.PI * k / 12, x = o[0] + ring * o[2] * Math.cos(angle), y = o[1] + ring * o[2] * Math.sin(angle);
          var to;
          if (kind === "shift") to = { x: x + v[4], y: y + v[5] };
          else if (kind === "spread") to = { x: o[0] + (x - o[0]) * (1 + v[3]), y: o[1] + (y - o[1]) * (1 + v[3]) };
          else to = { x: v[0] + Math.cos(v[2]) * (x - v[0]) - Math.sin(v[2]) * (y - v[1]), y: v[1] + Math.sin(v[2]) * (x - v[0]) + Math.cos(v[2]) * (y - v[1]) };
          largest = Math.max(largest, Math.hypot(to.x - x, to.y - y));
          arrows.push([{ x: x, y: y }, to]);
        }
      }
      var enlarge = largest > 0 ? Math.max(1, 0.12 * o[2] / largest) : 1;
      arrows.forEach(function (one) {
        arrow(one[0], { x: one[0].x + enlarge * (one[1].x - one[0].x), y: one[0].y + enlarge * (one[1].y - one[0].y) }, "rgba(255,150,60,.95)", wide);
      });
      if (kind === "pivot" || kind === "rotation") {
        var at = toStage(v[0], v[1]);
        stroke("#ff963c", wide * 1.5, function () { pen.arc(at.x, at.y, 9, 0, 2 * Math.PI); pen.moveTo(at.x - 14, at.y); pen.lineTo(at.x + 14, at.y); pen.moveTo(at.x, at.y - 14); pen.lineTo(at.x, at.y + 14); });
      }
    }

    function set(p) {
      var list = sets[mode];
      var most = { edge: 3, punch: 2, grey: 1 }[mode];
      if (most && list.length >= most) list.length = 0;
      list.push(p);
      order.push(mode);
      tell(); draw();
      if (mode === "pairs" ? list.length >= 6 && list.length % 2 === 0 : list.length === most) measure();
    }
    function undo() {
      while (order.length > 0) {
        var list = sets[order.pop()];
        if (list.length > 0) { list.pop(); break; }
      }
      tell(); draw(); measure();
    }
    function written(list) { return list.map(function (p) { return p.x.toFixed(2) + "," + p.y.toFixed(2); }).join(" "); }
    var asked = 0;
    function measure() {
      var data = new URLSearchParams(new FormData(form));
      data.set("outline", outline);
      Object.keys(sets).forEach(function (name) { data.set(name, written(sets[name])); });
      var mine = ++asked;
      fetch("/scope/photo/" + bench.dataset.photo + "/measure", { method: "POST", body: data }).then(function (response) {
        return response.text();
      }).then(function (html) {
        if (mine !== asked) return;
        measured.innerHTML = html;
        var result = document.getElementById("result");
        if (result && result.dataset.outline) outline = result.dataset.outline;
        drawing = result ? result.dataset.drawing : "";
        draw();
      }).catch(function () { measured.textContent = say("points-stay"); });
    }
    form.addEventListener("submit", function (event) { event.preventDefault(); measure(); });
    form.addEventListener("change", measure);

    var held = null;
    canvas.addEventListener("pointerdown", function (event) {
      canvas.setPointerCapture(event.pointerId);
      canvas.focus();
      held = { x: event.offsetX, y: event.offsetY, vx: view.x, vy: view.y, moved: false };
    });
    canvas.addEventListener("pointermove", function (event) {
      if (!held) return;
      var ratio = canvas.width / canvas.clientWidth;
      if (Math.hypot(event.offsetX - held.x, event.offsetY - held.y) > 5) held.moved = true;
      if (held.moved) { view.x = held.vx + (event.offsetX - held.x) * ratio; view.y = held.vy + (event.offsetY - held.y) * ratio; draw(); }
    });
    canvas.addEventListener("pointerup", function (event) {
      if (held && !held.moved) {
        var ratio = canvas.width / canvas.clientWidth;
        cross.shown = false;
        set(toPicture(event.offsetX * ratio, event.offsetY * ratio));
      }
      held = null;
    });
    canvas.addEventListener("wheel", function (event) {
      event.preventDefault();
      var ratio = canvas.width / canvas.clientWidth;
      zoom(event.deltaY < 0 ? 1.2 : 1 / 1.2, event.offsetX * ratio, event.offsetY * ratio);
    }, { passive: false });
    document.addEventListener("keydown", function (event) {
      if (typing() || event.ctrlKey || event.altKey || event.metaKey) return;
      var modes = { p: "pairs", o: "edge", m: "punch", g: "grey" };
      var step = (event.shiftKey ? 12 : 1) / Math.max(view.scale, 0.05);
      var moves = { ArrowLeft: [-1, 0], ArrowRight: [1, 0], ArrowUp: [0, -1], ArrowDown: [0, 1] };
      if (modes[event.key]) setMode(modes[event.key]);
      else if (event.key === "u" || event.key === "Backspace") undo();
      else if (event.key === "+" || event.key === "=") zoom(1.25);
      else if (event.key === "-") zoom(0.8);
      else if (event.key === "0") whole();
      else if (moves[event.key] && document.activeElement === canvas) {
        cross.shown = true;
        cross.x = Math.max(0, Math.min(width - 1, cross.x + moves[event.key][0] * step));
        cross.y = Math.max(0, Math.min(height - 1, cross.y + moves[event.key][1] * step));
        draw();
      } else if (event.key === "Enter" && document.activeElement === canvas) set({ x: cross.x, y: cross.y });
      else return;
      event.preventDefault();
    });
    bench.querySelectorAll("[data-mode]").forEach(function (button) {
      button.addEventListener("click", function () { setMode(button.dataset.mode); canvas.focus(); });
    });
    var deeds = { undo: undo, in: function () { zoom(1.25); }, out: function () { zoom(0.8); }, whole: whole };
    bench.querySelectorAll("[data-do]").forEach(function (button) {
      button.addEventListener("click", function () { deeds[button.dataset.do](); });
    });
    window.addEventListener("resize", whole);
    setMode("pairs");
    measure();
  }

  // Two photographs.
  var box = document.getElementById("overlay-box");
  if (box) overlay(box);

  function overlay(box) {
    var pane = document.getElementById("overlay");
    var one = document.getElementById("one"), two = document.getElementById("two");
    var wipe = document.getElementById("wipe"), blink = document.getElementById("blink");
    var view = { scale: 1, x: 0, y: 0 };
    var timer = 0;
    var still = matchMedia("(prefers-reduced-motion: reduce)").matches;
    function place() {
      [one, two].forEach(function (image) {
        image.style.transform = "translate(" + view.x + "px," + view.y + "px) scale(" + view.scale + ") translate(-50%,-50%)";
      });
    }
    function whole() {
      var half = box.dataset.mode === "side" ? 2 : 1;
      view.scale = Math.min(pane.clientWidth / half / (one.naturalWidth || 1), pane.clientHeight / (one.naturalHeight || 1));
      view.x = 0; view.y = 0;
      place();
    }
    function zoom(factor) { view.scale = Math.max(0.02, Math.min(40, view.scale * factor)); view.x *= factor; view.y *= factor; place(); }
    function beat() { box.classList.toggle("other"); timer = setTimeout(beat, Number(blink.value)); }
    function look(mode) {
      clearTimeout(timer);
      box.classList.remove("other");
      box.dataset.mode = mode;
      box.querySelectorAll("[data-look]").forEach(function (button) { button.setAttribute("aria-pressed", String(button.dataset.look === mode)); });
      // who asked for less motion turns the pictures by hand, with the space bar
      if (mode === "blink" && !still) timer = setTimeout(beat, Number(blink.value));
      whole();
    }
    function wiped() { box.style.setProperty("--wipe", wipe.value + "%"); }
    wipe.addEventListener("input", wiped);
    box.querySelectorAll("[data-look]").forEach(function (button) { button.addEventListener("click", function () { look(button.dataset.look); }); });
    var zooms = { in: function () { zoom(1.25); }, out: function () { zoom(0.8); }, whole: whole };
    box.querySelectorAll("[data-zoom]").forEach(function (button) { button.addEventListener("click", function () { zooms[button.dataset.zoom](); }); });
    var held = null;
    pane.addEventListener("pointerdown", function (event) { pane.setPointerCapture(event.pointerId); held = { x: event.clientX - view.x, y: event.clientY - view.y }; });
    pane.addEventListener("pointermove", function (event) { if (held) { view.x = event.clientX - held.x; view.y = event.clientY - held.y; place(); } });
    pane.addEventListener("pointerup", function () { held = null; });
    pane.addEventListener("wheel", function (event) { event.preventDefault(); zoom(event.deltaY < 0 ? 1.15 : 1 / 1.15); }, { passive: false });
    document.addEventListener("keydown", function (event) {
      if (typing() || event.ctrlKey || event.altKey || event.metaKey) return;
      var looks = { b: "blink", w: "wipe", d: "difference", s: "side" };
      var moves = { ArrowLeft: [40, 0], ArrowRight: [-40, 0], ArrowUp: [0, 40], ArrowDown: [0, -40] };
      if (looks[event.key]) look(looks[event.key]);
      else if (event.key === "+" || event.key === "=") zoom(1.25);
      else if (event.key === "-") zoom(0.8);
      else if (event.key === "0") whole();
      else if (event.key === " " && document.activeElement === pane) { look("blink"); clearTimeout(timer); box.classList.toggle("other"); }
      else if (moves[event.key] && document.activeElement === pane) { view.x += moves[event.key][0]; view.y += moves[event.key][1]; place(); }
      else return;
      event.preventDefault();
    });
    window.addEventListener("resize", whole);
    // nothing is shown before its place is known; the second one lies as the first does, and moves nothing
    function shown() { whole(); pane.classList.add("placed"); }
    wiped();
    look("wipe");
    if (one.complete) shown(); else one.addEventListener("load", shown);
  }
})();
