// What every page's scripts need first: their texts, and the chosen theme before the page is drawn, so that it
// does not flash.
function say(key, value) {
  "use strict";
  if (String(value) === "1" && window.texts[key + ".one"]) key += ".one";
  return (window.texts[key] || key).replace("{0}", value === undefined ? "" : value);
}
(function () {
  "use strict";
  try {
    var theme = localStorage.getItem("theme");
    if (theme === "light" || theme === "dark") document.documentElement.dataset.theme = theme;
  } catch (e) { /* storage may be switched off; the system's theme applies then */ }
})();
