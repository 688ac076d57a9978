// Applies the chosen theme before the page is drawn, so that it does not flash.
(function () {
  "use strict";
  try {
    var theme = localStorage.getItem("theme");
    if (theme === "light" || theme === "dark") document.documentElement.dataset.theme = theme;
  } catch (e) { /* storage may be switched off; the system's theme applies then */ }
})();
