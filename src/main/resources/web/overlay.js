// Follows a hunt: every entry brings the overlay's new content; after a dropped connection it is fetched anew.
(function () {
  "use strict";
  var main = document.getElementById("overlay");
  var asked = false, again = false;
  function fetchNow() {
    if (asked) { again = true; return; }
    asked = true;
    fetch("/recap/" + main.dataset.hunt + "/overlay/now?" + main.dataset.query).then(function (response) {
      return response.ok ? response.text() : null;
    }).then(function (html) {
      if (html !== null && html !== main.innerHTML) {
        main.innerHTML = html;
        main.classList.remove("fresh");
        void main.offsetWidth;
        main.classList.add("fresh");
      }
    }).catch(function () { setTimeout(fetchNow, 500); }).finally(function () {
      asked = false;
      if (again) { again = false; fetchNow(); }
    });
  }
  var source = new EventSource("/mat/" + main.dataset.hunt + "/live");
  source.addEventListener("changed", fetchNow);
  source.addEventListener("open", fetchNow);
})();
