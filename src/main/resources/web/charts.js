// Draws the charts of the Odds page and of a coin's prices from the data in the page. Without this file the tables say the same.
(function () {
  "use strict";
  var holder = document.getElementById("odds-data");
  var prices = document.getElementById("value-data");
  if ((!holder && !prices) || !window.echarts) return;
  var data = holder ? JSON.parse(holder.textContent) : { series: [] };
  var style = getComputedStyle(document.documentElement);
  function colour(name) { return style.getPropertyValue(name).trim(); }
  var ink = colour("--ink"), soft = colour("--soft"), line = colour("--line"), copper = colour("--copper"), felt = colour("--felt");
  var still = matchMedia("(prefers-reduced-motion: reduce)").matches;

  function written(value) {
    return typeof value === "number" ? value.toLocaleString(document.documentElement.lang, { maximumFractionDigits: 2 }) : value;
  }

  // The page holds a chart's room open where there is something to draw.
  function draw(id, option) {
    var place = document.getElementById(id);
    if (!place) return;
    var chart = window.echarts.init(place, null, { renderer: "canvas" });
    option.animation = !still;
    option.aria = { enabled: true };
    option.textStyle = { color: ink, fontFamily: "inherit" };
    option.tooltip = { trigger: "axis", renderMode: "richText", valueFormatter: written };
    chart.setOption(option);
    addEventListener("resize", function () { chart.resize(); });
  }

  function axis(more) {
    var label = more.type === "category" ? { color: soft } : { color: soft, formatter: written };
    return Object.assign({ axisLine: { lineStyle: { color: soft } }, axisLabel: label, splitLine: { lineStyle: { color: line } } }, more);
  }

  if (prices) {
    var cells = JSON.parse(prices.textContent);
    var grades = cells.map(function (c) { return c[0]; }).filter(function (g, i, all) { return all.indexOf(g) === i; });
    var kinds = cells.map(function (c) { return c[1]; }).filter(function (k, i, all) { return all.indexOf(k) === i; });
    var symbols = { "": "circle", BN: "circle", RB: "diamond", RD: "triangle" };
    if (grades.length > 1) {
      draw("chart-values", {
        grid: { left: 60, right: 12, top: 32, bottom: 30 },
        legend: { textStyle: { color: ink } },
        xAxis: axis({ type: "category", name: say("chart-grade"), data: grades.map(String) }),
        yAxis: axis({ type: "log", name: say("chart-value") }),
        series: kinds.map(function (kind) {
          return {
            name: kind === "" ? say("any-colour") : kind, type: "line", symbol: symbols[kind], symbolSize: 8, connectNulls: true,
            data: grades.map(function (g) {
              var cell = cells.filter(function (c) { return c[0] === g && c[1] === kind; })[0];
              return cell ? { value: cell[2], symbolSize: cell[5] ? 12 : 5 } : null;
            })
          };
        })
      });
    }
    if (!holder) return;
  }

  if (data.series.length > 1) {
    draw("chart-series", {
      grid: { left: 45, right: 12, top: 32, bottom: 60 },
      xAxis: axis({ type: "category", data: data.series.map(function (p) { return p[0]; }), axisLabel: { color: soft, rotate: 60 } }),
      yAxis: axis({ type: "value", name: data.target, minInterval: 1 }),
      series: [
        { name: say("chart-least"), type: "line", stack: "band", data: data.series.map(function (p) { return p[2]; }), lineStyle: { opacity: 0 }, symbol: "none", silent: true },
        { name: say("chart-width"), type: "line", stack: "band", data: data.series.map(function (p) { return p[3] - p[2]; }), lineStyle: { opacity: 0 }, areaStyle: { color: felt, opacity: 0.18 }, symbol: "none", silent: true },
        { name: say("chart-found"), type: "scatter", data: data.series.map(function (p) { return p[1]; }), itemStyle: { color: copper }, symbolSize: 8 }
      ]
    });
  }
  data.albums.forEach(function (curve, i) {
    if (curve.length === 0 || curve[curve.length - 1] === 0) return;
    draw("chart-album-" + i, {
      grid: { left: 45, right: 12, top: 30, bottom: 40 },
      xAxis: axis({ type: "category", name: say("chart-boxes"), nameLocation: "middle", nameGap: 25, data: curve.map(function (v, k) { return String(10 * (k + 1)); }) }),
      yAxis: axis({ type: "value", name: say("chart-filled"), min: 0 }),
      series: [{ name: say("chart-expected"), type: "line", data: curve.map(function (v) { return Math.round(10 * v) / 10; }), lineStyle: { color: copper }, itemStyle: { color: copper }, symbol: "none" }]
    });
  });
  if (data.sources.length > 0) {
    var rows = data.sources.slice().reverse();
    draw("chart-sources", {
      grid: { left: 12, right: 20, top: 10, bottom: 30, containLabel: true },
      xAxis: axis({ type: "value", min: 0 }),
      yAxis: axis({ type: "category", data: rows.map(function (r) { return r[0]; }), axisLabel: { color: ink, width: 190, overflow: "truncate" } }),
      series: [
        { name: say("chart-from"), type: "bar", stack: "s", data: rows.map(function (r) { return r[4]; }), itemStyle: { color: "transparent" }, silent: true, barWidth: 10 },
        { name: say("chart-ninety"), type: "bar", stack: "s", data: rows.map(function (r) { return r[5] - r[4]; }), itemStyle: { color: felt, opacity: 0.35 }, barWidth: 10 },
        { name: say("chart-mean"), type: "scatter", data: rows.map(function (r) { return r[1]; }), itemStyle: { color: copper }, symbolSize: 12 }
      ]
    });
  }
})();
