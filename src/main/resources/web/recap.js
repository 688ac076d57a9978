// Saves a card as a picture: the drawing is painted in the browser, so that its letters are those of this computer.
(function () {
  "use strict";
  document.querySelectorAll("[data-card]").forEach(function (button) {
    button.addEventListener("click", function () {
      var size = button.dataset.card.split("x").map(Number);
      fetch(button.dataset.address).then(function (response) { return response.text(); }).then(function (svg) {
        var picture = new Image();
        picture.onload = function () {
          var canvas = document.createElement("canvas");
          canvas.width = size[0]; canvas.height = size[1];
          canvas.getContext("2d").drawImage(picture, 0, 0, size[0], size[1]);
          var link = document.createElement("a");
          link.href = canvas.toDataURL("image/png");
          link.download = "card-" + button.dataset.card + ".png";
          link.click();
        };
        picture.src = "data:image/svg+xml;charset=utf-8," + encodeURIComponent(svg);
      });
    });
  });
})();
