// The Mat's quick keys. Every page works without this file; it only saves key presses and keeps lines safe.
(function () {
  "use strict";

  var themeButton = document.getElementById("theme");
  if (themeButton) {
    themeButton.addEventListener("click", function () {
      var dark = document.documentElement.dataset.theme
        ? document.documentElement.dataset.theme === "dark"
        : matchMedia("(prefers-color-scheme: dark)").matches;
      var next = dark ? "light" : "dark";
      document.documentElement.dataset.theme = next;
      try { localStorage.setItem("theme", next); } catch (e) { /* the choice then lasts for this page only */ }
    });
  }

  // Help on the page one is looking at: ? anywhere but in a field that has text.
  var help = document.getElementById("help");
  if (help && window.HTMLDialogElement) {
    var dialog = null;
    var openHelp = function () {
      fetch(help.getAttribute("href"), { headers: { "X-Bench": "quick" } }).then(function (response) {
        return response.ok ? response.text() : null;
      }).then(function (html) {
        if (html === null) { location.href = help.href; return; }
        if (!dialog) {
          dialog = document.createElement("dialog");
          dialog.className = "help-dialog";
          dialog.setAttribute("aria-label", say("help"));
          document.body.appendChild(dialog);
          dialog.addEventListener("click", function (event) { if (event.target === dialog) dialog.close(); });
        }
        // beside the Mat the entry line stays in hand
        var beside = document.getElementById("line");
        dialog.classList.toggle("beside", Boolean(beside));
        dialog.innerHTML = html + '<form method="dialog"><button class="quiet"></button></form>';
        dialog.querySelector("form[method=dialog] button").textContent = say("close");
        if (beside) { if (!dialog.open) dialog.show(); beside.focus({ preventScroll: true }); } else dialog.showModal();
      }).catch(function () { location.href = help.href; });
    };
    help.addEventListener("click", function (event) { event.preventDefault(); openHelp(); });
    document.addEventListener("keydown", function (event) {
      if (event.key !== "?" || event.ctrlKey || event.altKey || event.metaKey) return;
      var field = event.target.closest && event.target.closest("input, textarea, select, [contenteditable]");
      if (field && (field.type === "checkbox" || field.type === "radio" ? false : field.value !== "" || field.tagName === "SELECT")) return;
      if (dialog && dialog.open) { if (dialog.classList.contains("beside")) { event.preventDefault(); dialog.close(); } return; }
      event.preventDefault();
      openHelp();
    });
  }

  // Finds decided in groups: arrows go from group to group, a letter decides the one in focus.
  var groups = Array.prototype.slice.call(document.querySelectorAll(".decide-group"));
  if (groups.length > 0) {
    groups[0].focus({ preventScroll: true });
    document.addEventListener("keydown", function (event) {
      // a key held down would go on into the next page
      if (event.repeat || event.ctrlKey || event.altKey || event.metaKey || document.querySelector("dialog[open]")) return;
      var at = groups.findIndex(function (group) { return group.contains(document.activeElement); });
      if (event.key === "ArrowDown" || event.key === "ArrowUp") {
        event.preventDefault();
        groups[Math.max(0, Math.min(groups.length - 1, at + (event.key === "ArrowDown" ? 1 : -1)))].focus();
        return;
      }
      var button = at >= 0 && groups[at].querySelector('button[data-key="' + CSS.escape(event.key) + '"]');
      if (button) { event.preventDefault(); button.click(); }
    });
  }
  document.addEventListener("keydown", function (event) {
    var plain = !event.repeat && !event.ctrlKey && !event.altKey && !event.metaKey && !document.querySelector("dialog[open]");
    var back = event.key === "u" && plain && document.querySelector("button[data-undo]");
    if (back && !document.activeElement.matches("input:not([type=checkbox]), textarea")) back.click();
  });

  // The size of an album's holes, kept for the next one; large coins get their fine lines.
  var zoom = document.getElementById("zoom");
  if (zoom) {
    var leaf = document.querySelector(".leaf");
    var size = function () {
      leaf.style.setProperty("--hole", zoom.value + "px");
      leaf.classList.toggle("large", zoom.value >= 110);
      leaf.querySelectorAll(".coin use").forEach(function (one) {
        var now = one.getAttribute("href");
        var then = zoom.value > 72 ? now.replace(".small.svg", ".svg") : now.replace(/(\.small)?\.svg/, ".small.svg");
        if (now !== then) one.setAttribute("href", then);
      });
    };
    try { zoom.value = localStorage.getItem("hole") || zoom.value; } catch (e) { /* the usual size then */ }
    zoom.closest(".zoom").hidden = false;
    if (zoom.value !== "64") size();
    zoom.addEventListener("input", function () {
      size();
      try { localStorage.setItem("hole", zoom.value); } catch (e) { /* for this page only */ }
    });
  }

  // Holes of an album: arrows go from one to the next, Space sets it, and a mouse may be drawn over several.
  var lookIn = document.getElementById("look-in");
  if (lookIn) {
    var ticks = Array.prototype.slice.call(lookIn.querySelectorAll(".holes input[type=checkbox]"));
    var told = document.getElementById("ticked-holes");
    var untouched = told ? told.textContent : "";
    var drawing = null;
    var pressed = false;
    var sum = function () {
      var set = ticks.filter(function (one) { return one.checked; }).length;
      if (told) told.textContent = set === 0 ? untouched : say("holes-ticked", set);
    };
    lookIn.addEventListener("change", function (event) { if (ticks.indexOf(event.target) >= 0) sum(); });
    // what a list means is said before it is sent
    var list = lookIn.querySelector("input[name=holes]");
    var meant = document.getElementById("holes-meant");
    var waiting = 0;
    if (list && meant) list.addEventListener("input", function () {
      var turn = ++waiting;
      setTimeout(function () {
        if (turn !== waiting) return;
        if (list.value.trim() === "") { meant.textContent = ""; return; }
        fetch(lookIn.action + "/meant?holes=" + encodeURIComponent(list.value)).then(function (answer) { return answer.ok ? answer.text() : ""; }).then(function (text) {
          if (turn === waiting) meant.textContent = text;
        }).catch(function () { meant.textContent = ""; });
      }, 250);
    });
    lookIn.addEventListener("keydown", function (event) {
      var at = ticks.indexOf(event.target);
      if (at < 0) return;
      var next = null;
      if (event.key === "ArrowRight") next = ticks[at + 1];
      else if (event.key === "ArrowLeft") next = ticks[at - 1];
      else if (event.key === "ArrowDown" || event.key === "ArrowUp") {
        var here = event.target.closest(".hole").getBoundingClientRect();
        var down = event.key === "ArrowDown";
        var best = Infinity;
        ticks.forEach(function (one) {
          var there = one.closest(".hole").getBoundingClientRect();
          var rows = down ? there.top - here.top : here.top - there.top;
          var far = rows * 1000 + Math.abs(there.left - here.left);
          if (rows > 4 && far < best) { best = far; next = one; }
        });
      } else if (event.key === "Enter") { event.preventDefault(); lookIn.querySelector("button[value=owned]").click(); return; }
      else return;
      event.preventDefault();
      if (next) next.focus();
    });
    lookIn.addEventListener("pointerdown", function (event) {
      var hole = event.target.closest(".hole.open");
      pressed = false;
      // a finger that is drawn over the page scrolls it: there a tap sets
      if (!hole || event.pointerType === "touch" || event.button !== 0 || event.target.closest("a, summary, button, input:not([type=checkbox])")) return;
      var box = hole.querySelector("input");
      drawing = !box.checked;
      pressed = true;
      box.checked = drawing;
      if (hole.releasePointerCapture && hole.hasPointerCapture && hole.hasPointerCapture(event.pointerId)) hole.releasePointerCapture(event.pointerId);
      sum();
    });
    lookIn.addEventListener("pointerover", function (event) {
      var hole = drawing !== null && event.buttons === 1 && event.target.closest(".hole.open");
      if (hole) { hole.querySelector("input").checked = drawing; sum(); }
    });
    ["pointerup", "pointercancel"].forEach(function (end) {
      document.addEventListener(end, function () { drawing = null; });
    });
    // the press has set it already
    lookIn.addEventListener("click", function (event) {
      if (pressed && event.detail > 0 && event.target.closest(".hole.open") && !event.target.closest("a")) event.preventDefault();
    });
  }

  var review = document.getElementById("review");
  if (review) reviewKeys(review);

  // The review of a narration: one row after the other by keyboard, the captions moving along.
  function reviewKeys(form) {
    var ticked = document.getElementById("ticked");
    function lines() { return Array.prototype.slice.call(form.querySelectorAll(".say")); }
    function go(from, by) {
      var all = lines();
      var next = all[all.indexOf(from) + by];
      if (next) { next.focus(); next.select(); }
    }
    function keep(input, yes) {
      input.closest(".said-row").querySelector("input[type=checkbox]").checked = yes;
      count();
    }
    function count() {
      var sum = 0;
      lines().forEach(function (input) {
        var on = input.closest(".said-row").querySelector("input[type=checkbox]").checked;
        var text = input.value.trim();
        if (!on || text === "" || text.indexOf("w ") === 0) return;
        var times = /^x([0-9]{1,4})( |$)/.exec(text);
        sum += times ? Number(times[1]) : 1;
      });
      ticked.textContent = String(sum);
    }
    function submit(what) { form.querySelector("button[value=" + what + "]").click(); }
    form.addEventListener("input", count);
    form.addEventListener("focusin", function (event) {
      var row = event.target.closest(".said-row");
      var cue = row && document.getElementById("cue-" + row.dataset.cue);
      form.querySelectorAll(".captions .now").forEach(function (one) { one.classList.remove("now"); });
      if (cue) {
        cue.classList.add("now");
        var list = cue.parentElement;
        list.scrollTop = cue.offsetTop - list.offsetTop - list.clientHeight / 3;
      }
    });
    form.addEventListener("keydown", function (event) {
      var input = event.target;
      var inRow = input.closest && input.closest(".said-row");
      if (event.key === "Enter" && event.ctrlKey) { event.preventDefault(); submit("accept"); return; }
      if (event.altKey && (event.key === "n" || event.key === "N")) { event.preventDefault(); submit("add"); return; }
      if (!inRow) return;
      var say = inRow.querySelector(".say");
      if (event.key === "Enter") { event.preventDefault(); keep(say, true); go(say, 1); }
      else if (event.altKey && (event.key === "x" || event.key === "X")) { event.preventDefault(); keep(say, false); go(say, 1); }
      else if (event.key === "ArrowDown") { event.preventDefault(); go(say, 1); }
      else if (event.key === "ArrowUp") { event.preventDefault(); go(say, -1); }
    });
    var wrong = form.querySelector(".said-row.wrong .say") || lines()[0];
    if (wrong) wrong.focus({ preventScroll: !form.querySelector(".said-row.wrong") });
  }

  var mat = document.getElementById("mat");
  if (!mat) return;
  var hunt = mat.dataset.hunt;
  var form = document.getElementById("entry");
  var line = document.getElementById("line");
  var preview = document.getElementById("preview");
  var held = document.getElementById("held");
  var board = document.getElementById("board");
  var instant = { "+": "+", "=": "+", "<": "<", ">": ">", "-": "-" };

  // Lines go to the server one after the other, in the order typed; a line leaves the queue when it is durable or held.
  var queue = [];
  var busy = false;
  // The last line of this page that is durable: undo never takes back what neither it nor the board has told.
  var own = 0;

  function send(text) {
    queue.push(text);
    keep();
    pump();
  }

  // Lines not yet acknowledged survive a crash of the browser.
  function keep() {
    try { localStorage.setItem("pending-" + hunt, JSON.stringify(queue)); } catch (e) { /* then only memory has them */ }
  }

  function pump() {
    if (busy || queue.length === 0) return;
    busy = true;
    var text = queue[0];
    fetch("/mat/" + hunt + "/line", {
      method: "POST",
      headers: { "Content-Type": "application/x-www-form-urlencoded", "X-Bench": "quick" },
      body: "line=" + encodeURIComponent(text) + "&asof=" + Math.max(shown, own)
    }).then(function (response) {
      return response.text().then(function (html) {
        queue.shift();
        keep();
        busy = false;
        var outcome = response.headers.get("X-Outcome");
        tell(outcome === "recorded" ? "recorded" : outcome === "choose" ? "asks" : "refused");
        if (outcome === "recorded") {
          own = Number(response.headers.get("X-Entry"));
          if (line.value === "") preview.innerHTML = "";
          refresh(Number(response.headers.get("X-Entry")));
        } else {
          giveBack(text, html, outcome);
        }
        pump();
      });
    }).catch(function () {
      busy = false;
      hold([text], say("no-answer"), say("again"), pump);
    });
  }

  // The board follows the record with one request in flight at most; it is fetched anew while it shows less than was heard of.
  var shown = Number(mat.dataset.entry);
  var heard = shown;
  var fetching = false;
  function refresh(entry) {
    heard = Math.max(heard, entry);
    if (fetching || heard <= shown) return;
    fetching = true;
    fetch("/mat/" + hunt + "/board").then(function (response) {
      if (!response.ok) throw new Error(String(response.status));
      return response.text().then(function (html) {
        shown = Number(response.headers.get("X-Entry"));
        var before = lastFind();
        board.innerHTML = html;
        if (lastFind() > before && board.querySelector(".last .alert.fills")) tell("fills");
        if (window.htmx) window.htmx.process(board);
      });
    }).catch(function () {
      heard = shown; // what was missed comes with the next entry
    }).finally(function () {
      fetching = false;
      refresh(heard);
    });
  }

  function lastFind() {
    var last = board.querySelector(".last[data-find]");
    return last ? Number(last.dataset.find) : 0;
  }

  // What became of a line, seen from the corner of an eye and, where it was asked for, heard.
  var tones = { recorded: [660], asks: [520, 520], refused: [220], fills: [660, 880, 1100] };
  var sounds = document.getElementById("sounds");
  var audio = null;
  function sounding() {
    var usual = mat.dataset.sounds;
    try { return (localStorage.getItem("sounds") || usual) === "on"; } catch (e) { return usual === "on"; }
  }
  function tell(what) {
    form.classList.remove("told-recorded", "told-asks", "told-refused", "told-fills");
    void form.offsetWidth; // the same flash once more
    form.classList.add("told-" + what);
    if (!sounding() || !window.AudioContext) return;
    audio = audio || new AudioContext();
    tones[what].forEach(function (pitch, at) {
      var tone = audio.createOscillator();
      var level = audio.createGain();
      var from = audio.currentTime + at * 0.11;
      tone.frequency.value = pitch;
      level.gain.setValueAtTime(0.12, from);
      level.gain.exponentialRampToValueAtTime(0.001, from + 0.1);
      tone.connect(level).connect(audio.destination);
      tone.start(from);
      tone.stop(from + 0.1);
    });
  }
  if (sounds) {
    sounds.hidden = false;
    sounds.setAttribute("aria-pressed", String(sounding()));
    sounds.addEventListener("click", function () {
      try { localStorage.setItem("sounds", sounding() ? "off" : "on"); } catch (e) { /* silent then */ }
      sounds.setAttribute("aria-pressed", String(sounding()));
      if (sounding()) tell("recorded");
      line.focus({ preventScroll: true });
    });
  }

  // A line that was not recorded comes back into the field when that is free, and is kept below it otherwise.
  function giveBack(text, html, outcome) {
    if (line.value === "") {
      turn++;
      again = false;
      line.value = text;
      preview.innerHTML = html;
      preview.scrollTop = 0;
      line.focus({ preventScroll: true });
      line.select(); // the next line typed takes its place
      if (outcome === "choose") {
        var first = preview.querySelector(".option");
        if (first) first.focus();
      }
    } else {
      var words = document.createElement("div");
      words.innerHTML = html;
      hold([text], say("not-recorded", words.textContent.trim()), say("put-back"), putBack);
    }
  }

  // Shows lines that are not in the journal, each with a button that sends it or puts it back into the field.
  function hold(texts, why, label, act) {
    held.hidden = false;
    held.textContent = "";
    var reason = document.createElement("p");
    reason.textContent = why;
    held.appendChild(reason);
    texts.forEach(function (text) {
      var row = document.createElement("p");
      var code = document.createElement("code");
      code.textContent = text;
      var button = document.createElement("button");
      button.type = "button";
      button.className = "small";
      button.textContent = label;
      button.addEventListener("click", function () {
        row.remove();
        if (!held.querySelector("code")) held.hidden = true;
        act(text);
        line.focus();
      });
      row.append(code, " ", button);
      held.appendChild(row);
    });
  }

  function putBack(text) {
    line.value = text;
    ask();
  }

  form.addEventListener("submit", function (event) {
    event.preventDefault();
    var picked = event.submitter && event.submitter.classList.contains("option") ? event.submitter.value : null;
    var text = picked === null ? line.value : picked;
    if (text.trim() === "") return;
    line.value = "";
    preview.innerHTML = "";
    send(text);
    line.focus();
  });

  line.addEventListener("keydown", function (event) {
    if (event.isComposing || event.ctrlKey && event.key !== "z" || event.altKey || event.metaKey && event.key !== "z") return;
    if ((event.ctrlKey || event.metaKey) && event.key === "z") {
      if (line.value === "") { event.preventDefault(); send(event.shiftKey ? ">" : "<"); }
      return;
    }
    if (line.value === "" && instant[event.key] && !event.repeat) {
      event.preventDefault();
      send(instant[event.key]);
    } else if ((event.key === "+" || event.key === "=") && !event.repeat && closes()) {
      event.preventDefault();
      thenNextRoll();
    } else if (line.value === "" && event.key === "*" && queue.length === 0 && document.getElementById("look-closer")) {
      event.preventDefault();
      document.getElementById("look-closer").click();
    }
  });

  // "+" behind a find enters it and opens the next roll: not inside quotes, where it is a letter like others.
  function closes() {
    var text = line.value;
    var quotes = (text.match(/["“”„]/g) || []).length;
    return /[0-9]/.test(text) && !/^\s*(!|note\b|watch\b|w\b)/i.test(text) && quotes % 2 === 0
      && line.selectionStart === text.length && line.selectionEnd === text.length;
  }
  function thenNextRoll() {
    var text = line.value.trim() + "+";
    line.value = "";
    preview.innerHTML = "";
    send(text);
  }

  // Digits pick an option while one of them has the focus; Escape goes back to the line.
  preview.addEventListener("keydown", function (event) {
    var options = preview.querySelectorAll(".option");
    var number = event.key === " " ? 0 : Number(event.key);
    if (number >= 1 && number <= options.length) {
      event.preventDefault();
      options[number - 1].click();
    }
  });

  // Whatever has the focus, the next key is typed into the line; Escape comes back to it from anywhere.
  document.addEventListener("keydown", function (event) {
    var at = document.activeElement;
    if (event.key === "Escape") {
      var open = document.querySelector("dialog.beside[open]");
      if (open) open.close();
      else if (at === line) { line.value = ""; preview.innerHTML = ""; }
      else {
        var edit = at.closest("details[open]");
        if (edit) edit.open = false;
      }
      line.focus({ preventScroll: true });
      return;
    }
    var plain = event.key.length === 1 && event.key !== " " && !event.ctrlKey && !event.altKey && !event.metaKey;
    if (event.defaultPrevented || !plain || /^(INPUT|TEXTAREA|SELECT)$/.test(at.tagName)) return;
    line.focus({ preventScroll: true });
    if (event.key === "/") { event.preventDefault(); return; }
    if (instant[event.key] && line.value === "" && !event.repeat) {
      event.preventDefault();
      send(instant[event.key]);
    }
  });

  document.addEventListener("click", function (event) {
    var button = event.target.closest("[data-line]");
    if (button) { send(button.dataset.line); line.focus({ preventScroll: true }); }
  });

  // The preview follows the typing with one request in flight at most.
  var asked = false;
  var again = false;
  // A preview asked for before an answer was shown must not take the answer, and the focus on it, away.
  var turn = 0;
  function ask() {
    if (asked) { again = true; return; }
    var text = line.value;
    if (text === "") { preview.innerHTML = ""; return; }
    preview.scrollTop = 0;
    asked = true;
    var mine = turn;
    fetch("/mat/" + hunt + "/preview?line=" + encodeURIComponent(text)).then(function (response) {
      return response.text();
    }).then(function (html) {
      if (line.value === text && mine === turn) preview.innerHTML = html;
    }).catch(function () { /* a missing preview harms nothing */ }).finally(function () {
      asked = false;
      if (again) { again = false; ask(); }
    });
  }
  line.addEventListener("input", ask);

  // Another page changed something, or this one did. A row being changed is not taken away.
  document.body.addEventListener("htmx:sseBeforeMessage", function (event) {
    event.preventDefault();
    if (!board.querySelector(".edit[open]")) refresh(Number(event.detail.data));
  });

  // Large keys where a finger is the pointer: at the lower edge, in reach of a thumb, always in the same place.
  var keypad = document.getElementById("keypad");
  var layers = {
    date: ["1", "2", "3", "d", "ca ", "⌫", "4", "5", "6", "s", "vf ...", "<", "7", "8", "9", "x2 ", "skip", "-", "abc", "0", ",", "␣", "*", "+"],
    grade: ["ag3", "g4", "vg8", "f12", "vf20", "⌫", "vf30", "xf40", "xf45", "au50", "123", "<", "au55", "ms60", "ms63", "ms65", "skip", "-", "bn", "rb", "rd", "␣", "*", "+"]
  };
  if (mat.dataset.digits === "calculator") {
    // 7 8 9 on top: the first row and the third change their digits
    for (var key = 0; key < 3; key++) {
      var top = layers.date[key];
      layers.date[key] = layers.date[12 + key];
      layers.date[12 + key] = top;
    }
  }
  var spoken = { "⌫": say("key-delete"), "<": say("key-undo"), "+": say("key-roll"), "abc": say("key-letters"), "x2 ": say("key-two"), "ca ": say("key-canada"),
    "vf ...": say("key-grades"), "123": say("key-digits"), "skip": say("key-skip"), "-": say("key-checked"), "*": say("key-scope"), "␣": say("key-space") };
  var caps = { "+": say("cap-roll"), "<": say("cap-undo"), "-": say("cap-checked"), "*": say("cap-scope"), "vf ...": say("cap-grades"), "skip": say("cap-skip"), "123": "123" };
  if (document.documentElement.classList.contains("touch")) {
    lay("date");
    keypad.hidden = false;
    line.inputMode = "none";
  }
  function lay(layer) {
    keypad.textContent = "";
    layers[layer].concat("Enter").forEach(function (key) {
      var button = document.createElement("button");
      button.type = "button";
      button.textContent = key === "Enter" ? say("cap-enter") : caps[key] || key.trim();
      if (spoken[key]) button.setAttribute("aria-label", spoken[key]);
      if (key === "Enter" || key === "+") button.className = "strong";
      if (key === "Enter") button.classList.add("wide");
      if (/^[0-9]$/.test(key)) button.classList.add("digit");
      button.addEventListener("click", function () { press(key); });
      keypad.appendChild(button);
    });
  }
  function press(key) {
    if (key === "Enter") { form.requestSubmit(); return; }
    if (key === "abc") { line.inputMode = line.inputMode === "none" ? "text" : "none"; line.blur(); line.focus(); return; }
    if (key === "vf ...") { lay("grade"); return; }
    if (key === "123") { lay("date"); return; }
    // what is selected is written over, a refused line above all; elsewhere the caret says where
    var from = line.selectionStart;
    var to = line.selectionEnd;
    var whole = from === 0 && to === line.value.length;
    if (key === "+" && !whole && closes()) { thenNextRoll(); return; }
    if (whole && /^(\+|<|-|skip)$/.test(key)) { line.value = ""; preview.innerHTML = ""; send(key); return; }
    if (key === "*") { var closer = document.getElementById("look-closer"); if (whole && closer) closer.click(); return; }
    if (key === "⌫") line.setRangeText("", from === to ? Math.max(0, from - 1) : from, to, "end");
    else if (/^[a-z]{1,2}[0-9]{1,2}$|^(bn|rb|rd)$/.test(key)) {
      var gap = whole || from === 0 || line.value.charAt(from - 1) === " " ? "" : " ";
      line.setRangeText(gap + key, from, to, "end");
      lay("date");
    } else line.setRangeText(key === "␣" ? " " : key, from, to, "end");
    ask();
  }

  // Keys pressed before this script was there stand in the field as letters; they mean what they would have meant.
  var early = line.value;
  if (early !== line.defaultValue) {
    var eye = document.getElementById("look-closer");
    if (instant[early]) { line.value = ""; send(instant[early]); }
    else if (early === "*" && eye) { line.value = ""; eye.click(); }
    else ask();
  }

  // Lines left over from a crash are shown, not sent: the hunter decides.
  try {
    var left = JSON.parse(localStorage.getItem("pending-" + hunt) || "[]");
    if (left.length > 0) {
      hold(left, say("left-over"), say("put-in"), putBack);
      localStorage.removeItem("pending-" + hunt);
    }
  } catch (e) { /* nothing was kept */ }
})();
