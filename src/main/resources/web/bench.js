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
        dialog.innerHTML = html + '<form method="dialog"><button class="quiet"></button></form>';
        dialog.querySelector("form[method=dialog] button").textContent = say("close");
        dialog.showModal();
      }).catch(function () { location.href = help.href; });
    };
    help.addEventListener("click", function (event) { event.preventDefault(); openHelp(); });
    document.addEventListener("keydown", function (event) {
      if (event.key !== "?" || event.ctrlKey || event.altKey || event.metaKey) return;
      var field = event.target.closest && event.target.closest("input, textarea, select, [contenteditable]");
      if (field && (field.type === "checkbox" || field.type === "radio" ? false : field.value !== "" || field.tagName === "SELECT")) return;
      if (dialog && dialog.open) return;
      event.preventDefault();
      openHelp();
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
        board.innerHTML = html;
        if (window.htmx) window.htmx.process(board);
      });
    }).catch(function () {
      heard = shown; // what was missed comes with the next entry
    }).finally(function () {
      fetching = false;
      refresh(heard);
    });
  }

  // A line that was not recorded comes back into the field when that is free, and is kept below it otherwise.
  function giveBack(text, html, outcome) {
    if (line.value === "") {
      turn++;
      again = false;
      line.value = text;
      preview.innerHTML = html;
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
    } else if (line.value === "" && event.key === "*" && queue.length === 0 && document.getElementById("look-closer")) {
      event.preventDefault();
      document.getElementById("look-closer").click();
    } else if (event.key === "Escape") {
      line.value = "";
      preview.innerHTML = "";
    }
  });

  // Digits pick an option while one of them has the focus; Escape goes back to the line.
  preview.addEventListener("keydown", function (event) {
    var options = preview.querySelectorAll(".option");
    var number = Number(event.key);
    if (number >= 1 && number <= options.length) {
      event.preventDefault();
      options[number - 1].click();
    } else if (event.key === "Escape") {
      event.preventDefault();
      line.focus();
    }
  });

  document.addEventListener("keydown", function (event) {
    var typing = /^(INPUT|TEXTAREA|SELECT)$/.test(document.activeElement.tagName);
    if (!typing && event.key === "/" ) { event.preventDefault(); line.focus(); }
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

  // Large keys where a finger is the pointer.
  var keypad = document.getElementById("keypad");
  var rows = ["1", "2", "3", "d", "x2 ", "4", "5", "6", "s", "⌫", "7", "8", "9", "p", "abc", "0", "+", "<", ",", "Enter"];
  var spoken = { "⌫": say("key-delete"), "<": say("key-undo"), "+": say("key-roll"), "abc": say("key-letters"), "x2 ": say("key-two") };
  if (matchMedia("(pointer: coarse)").matches || matchMedia("(max-width: 720px)").matches) {
    rows.forEach(function (key) {
      var button = document.createElement("button");
      button.type = "button";
      button.textContent = key === "+" ? say("cap-roll") : key === "<" ? say("cap-undo") : key.trim();
      if (spoken[key]) button.setAttribute("aria-label", spoken[key]);
      if (key === "Enter" || key === "+") button.className = "strong";
      button.addEventListener("click", function () { press(key); });
      keypad.appendChild(button);
    });
    keypad.hidden = false;
    line.inputMode = "none";
  }
  function press(key) {
    if (key === "⌫") line.value = line.value.slice(0, -1);
    else if (key === "Enter") { form.requestSubmit(); return; }
    else if (key === "abc") { line.inputMode = line.inputMode === "none" ? "text" : "none"; line.blur(); line.focus(); return; }
    else if ((key === "+" || key === "<") && line.value === "") { send(key); return; }
    else line.value += key;
    ask();
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
