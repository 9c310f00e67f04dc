/**
 * The script behind a figure's static image: it draws the figure again with Plotly.js, where that is at hand.
 *
 * It looks for `window.Plotly`; in Jupyter it loads the project's own copy once, from the server that serves the
 * notebook; elsewhere, and where that fails, the image stays.
 */
export function interactiveScript(id: string, json: string): string {
  // "<" would let a text in the data end the script element.
  const safe = json
    .replaceAll("<", "\\u003c")
    .replaceAll("\u2028", "\\u2028")
    .replaceAll("\u2029", "\\u2029");
  return `(function () {
  var spec = ${safe};
  function draw(Plotly) {
    document.querySelectorAll('figure[data-figure="${id}"] > img').forEach(function (image) {
      var place = document.createElement("div");
      place.setAttribute("role", "img");
      place.setAttribute("aria-label", image.alt);
      image.replaceWith(place);
      Plotly.newPlot(place, spec.data, spec.layout, { responsive: true, displaylogo: false });
    });
  }
  if (window.Plotly) return draw(window.Plotly);
  var lab = document.getElementById("jupyter-config-data");
  var base = document.body.getAttribute("data-base-url") || (lab && JSON.parse(lab.textContent).baseUrl);
  if (!base) return;
  window.barRackPlotly = window.barRackPlotly || new Promise(function (resolve, reject) {
    var script = document.createElement("script");
    script.src = base + "files/node_modules/plotly.js-dist/plotly.js";
    script.onload = function () { resolve(window.Plotly); };
    script.onerror = function () { reject(new Error("plotly.js is not at " + script.src + "; the figures stay static.")); };
    document.head.appendChild(script);
  });
  window.barRackPlotly.then(draw, function (reason) { console.info(reason.message); });
})();`;
}
