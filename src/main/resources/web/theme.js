// What every page's scripts need first: their texts, and what has to be known before the page is drawn, so that it
// does not flash nor move: the chosen theme, and whether there will be large keys.
function say(key, value) {
  "use strict";
  // the browser knows the same rules for counts as the tool: Unicode's CLDR
  var form = /^[0-9]+$/.test(String(value)) ? "." + new Intl.PluralRules(document.documentElement.lang).select(Number(value)) : "";
  if (form && window.texts[key + form]) key += form;
  return (window.texts[key] || key).replace("{0}", value === undefined ? "" : value);
}
(function () {
  "use strict";
  try {
    var theme = localStorage.getItem("theme");
    if (theme === "light" || theme === "dark") document.documentElement.dataset.theme = theme;
  } catch (e) { /* storage may be switched off; the system's theme applies then */ }
  // the room for large keys at the lower edge of the Mat
  var finger = matchMedia("(pointer: coarse)").matches || matchMedia("(max-width: 720px)").matches;
  document.documentElement.classList.toggle("touch", finger && matchMedia("(min-height: 600px)").matches);
})();
