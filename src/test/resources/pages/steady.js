// Tells what moved on a page: SteadyPagesTest puts it into every page before the page's own scripts.
(function () {
  "use strict";
  if (!window.PerformanceObserver || location.protocol === "about:") return;
  var MOVABLE = "body *:not(svg *, script, option, optgroup)";
  var sum = 0, shifted = [], places = new Map();
  var raw = { fetch: window.fetch, set: window.setTimeout, clear: window.clearTimeout };

  function add(entries) {
    entries.forEach(function (entry) {
      sum += entry.value;
      entry.sources.forEach(function (source) {
        shifted.push(name(source.node) + " " + box(source.previousRect) + " to " + box(source.currentRect));
      });
    });
  }
  var observer = new PerformanceObserver(function (list) { add(list.getEntries()); });
  observer.observe({ type: "layout-shift", buffered: true });

  // Answers on their way, and those that wait a moment before they are asked for.
  var work = new Set();
  window.fetch = function () {
    var mine = {};
    work.add(mine);
    // what follows on the answer is done before it counts as there
    return raw.fetch.apply(window, arguments).finally(function () { raw.set.call(window, function () { work.delete(mine); }, 20); });
  };
  window.setTimeout = function (act, wait) {
    var mine = raw.set.call(window, function () { work.delete(mine); if (typeof act === "function") act(); }, wait);
    if (!(wait > 1000)) work.add(mine);
    return mine;
  };
  window.clearTimeout = function (mine) { work.delete(mine); raw.clear.call(window, mine); };

  function name(node) {
    if (!node) return "?";
    if (node.nodeType !== 1) node = node.parentElement || node;
    var words = (node.textContent || "").trim().replace(/\s+/g, " ").slice(0, 24);
    return String(node.nodeName).toLowerCase() + (node.id ? "#" + node.id : "") + (node.className && node.className.replace ? "." + node.className.trim().replace(/\s+/g, ".") : "")
      + (words ? " '" + words + "'" : "");
  }
  function box(rect) { return Math.round(rect.x) + "," + Math.round(rect.y) + " " + Math.round(rect.width) + "x" + Math.round(rect.height); }
  function frame() { return new Promise(function (done) { requestAnimationFrame(done); }); }

  async function answered() {
    var until = performance.now() + 2000;
    while (work.size > 0 && performance.now() < until) await new Promise(function (done) { raw.set.call(window, done, 5); });
  }
  async function settled() {
    if (document.readyState !== "complete") await new Promise(function (done) { window.addEventListener("load", done); });
    await document.fonts.ready;
    await answered();
    await frame();
    await frame();
    await new Promise(function (done) { raw.set.call(window, done, 0); });
    add(observer.takeRecords());
  }

  // Where everything stands, of the page and of the window: what sticks to the window may travel on the page.
  function look() {
    places = new Map();
    document.querySelectorAll(MOVABLE).forEach(function (node) {
      var rect = node.getBoundingClientRect();
      if ((rect.width > 0 || rect.height > 0) && node.checkVisibility({ visibilityProperty: true })) places.set(node, { x: rect.left, y: rect.top, sx: scrollX, sy: scrollY });
    });
  }
  function travelled() {
    var found = [];
    places.forEach(function (was, node) {
      var rect = node.getBoundingClientRect();
      if (!node.checkVisibility({ visibilityProperty: true }) || (rect.width === 0 && rect.height === 0)) return;
      var dx = rect.left - was.x, dy = rect.top - was.y;
      var right = Math.abs(dx) < Math.abs(dx + scrollX - was.sx) ? dx : dx + scrollX - was.sx;
      var down = Math.abs(dy) < Math.abs(dy + scrollY - was.sy) ? dy : dy + scrollY - was.sy;
      if (Math.abs(right) > 0.5 || Math.abs(down) > 0.5) found.push(name(node) + " by " + right.toFixed(1) + "," + down.toFixed(1));
    });
    return found;
  }
  function unscroll() {
    document.querySelectorAll("*").forEach(function (node) {
      if (node !== document.scrollingElement && (node.scrollTop || node.scrollLeft)) { node.scrollTop = 0; node.scrollLeft = 0; }
    });
    scrollTo({ top: 0, left: 0, behavior: "instant" });
  }
  document.addEventListener("readystatechange", function () {
    // read to its end and dressed, but no script that waits for this has run
    if (document.readyState !== "interactive") return;
    var sheets = Array.from(document.querySelectorAll("link[rel=stylesheet]")).filter(function (one) { return !one.sheet; });
    if (sheets.length === 0) look();
    else sheets[0].addEventListener("load", look);
  });

  window.steady = {
    // What moved since the last call, as a text.
    moved: async function () {
      await settled();
      unscroll();
      var found = travelled();
      var text = (sum >= 0.005 ? "layout-shift " + sum.toFixed(3) + ": " + shifted.slice(0, 3).join("; ") : "")
        + (found.length > 0 ? (sum >= 0.005 ? " | " : "") + found.length + " elements, " + found.slice(0, 3).join("; ") : "");
      sum = 0;
      shifted = [];
      look();
      return text;
    },
    // Types into fields, ticks boxes and chooses in lists, one of each kind. Folds are open before it counts.
    use: async function () {
      var closed = document.querySelectorAll("details:not([open])");
      closed.forEach(function (fold) { fold.open = true; });
      if (closed.length > 0) { await settled(); sum = 0; shifted = []; }
      unscroll();
      look();
      var kinds = new Set();
      for (var field of Array.from(document.querySelectorAll("main input, main textarea, main select"))) {
        var rect = field.getBoundingClientRect();
        var kind = [field.nodeName, field.type, field.name || field.id, field.form && field.form.getAttribute("action")].join(" ").replace(/[0-9]+/g, "#");
        if (rect.width === 0 || field.disabled || field.readOnly || kinds.has(kind)) continue;
        kinds.add(kind);
        if (/^(checkbox|radio)$/.test(field.type)) field.click();
        else if (field.nodeName === "SELECT" && field.options.length > 1) {
          field.selectedIndex = (field.selectedIndex + 1) % field.options.length;
          field.dispatchEvent(new Event("input", { bubbles: true }));
          field.dispatchEvent(new Event("change", { bubbles: true }));
        } else if (field.nodeName === "TEXTAREA" || /^(text|number|search)$/.test(field.type)) {
          field.focus();
          var text = field.type === "number" || /numeric|decimal/.test(field.inputMode) ? "12" : "44d x";
          for (var key of text) {
            field.dispatchEvent(new KeyboardEvent("keydown", { key: key, bubbles: true, cancelable: true }));
            document.execCommand("insertText", false, key);
            field.dispatchEvent(new KeyboardEvent("keyup", { key: key, bubbles: true }));
            if (work.size > 0) await frame();
          }
        }
        await answered();
      }
      if (document.activeElement) document.activeElement.blur();
      return window.steady.moved();
    }
  };
})();
