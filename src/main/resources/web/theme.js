// What every page's scripts need first: their texts, and the chosen theme before the page is drawn, so that it
// does not flash.
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
})();
