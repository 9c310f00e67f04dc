import { createHash } from "node:crypto";
import type { Drawing, PlotlyLayout, PlotlyTrace } from "../drawing";
import { compactSvg } from "./compactSvg";
import { plotlyInNode } from "./plotlyInNode";

/** Kinds of series that Plotly draws in SVG; the others need a browser's canvas or graphics card. */
const drawableKinds = ["bar", "box", "contour", "histogram", "pie", "scatter", "scatterpolar", "violin"];

const defaultWidth = 760;
const defaultHeight = 430;

/**
 * Draws a figure as a self-contained SVG image, without a browser.
 *
 * Returns the text of the SVG. The same specification gives the same bytes on every run. The first call
 * loads Plotly.js, which takes about a second; later calls take a tenth of one.
 * Throws a `TypeError` where the specification is not one, or has a kind of series that needs a canvas.
 *
 * @example
 * await drawSvg({ data: [{ x: [1, 2], y: [3, 4] }], layout: {}, alt: "A rising line from 3 to 4" }) // => "<svg …"
 */
export async function drawSvg(spec: Drawing): Promise<string> {
  check(spec);
  const text = plainJson({ data: spec.data, layout: spec.layout });
  // The boundary where the specification becomes plain data again, as it was before it was written.
  const { data, layout } = JSON.parse(text) as { data: PlotlyTrace[]; layout: PlotlyLayout };
  const width = pixels(layout, "width", defaultWidth);
  const height = pixels(layout, "height", defaultHeight);
  const { plotly, document } = await plotlyInNode();
  const place = document.createElement("div");
  document.body.append(place);
  try {
    await plotly.newPlot(place, data, { ...layout, width, height, autosize: false }, { staticPlot: true });
    const idPrefix = `f${createHash("sha256").update(text).digest("hex").slice(0, 8)}-`;
    const background = typeof layout.paper_bgcolor === "string" ? layout.paper_bgcolor : "#fff";
    return compactSvg(place, { alt: spec.alt, width, height, background, idPrefix });
  } finally {
    plotly.purge(place);
    place.remove();
  }
}

function check({ data, layout, alt }: Drawing): void {
  if (!Array.isArray(data))
    throw new TypeError(`drawSvg: data is ${typeof data}; it must be a list of series.`);
  if (typeof layout !== "object" || layout === null) {
    throw new TypeError(
      `drawSvg: layout is ${String(layout)}; it must be an object of Plotly's layout attributes.`,
    );
  }
  if (typeof alt !== "string" || alt.trim() === "") {
    throw new TypeError("drawSvg: alt is empty; it must say in a sentence what the figure shows.");
  }
  checkPictures(layout);
  for (const [index, trace] of data.entries()) {
    const kind = trace.type ?? "scatter";
    if (typeof kind !== "string" || !drawableKinds.includes(kind)) {
      const remedy =
        kind === "heatmap" || kind === "histogram2d" ? ' Use "contour" with filled levels instead.' : "";
      throw new TypeError(
        `drawSvg: series ${index + 1} has type ${JSON.stringify(kind)}, which needs a browser's canvas; ` +
          `a still image can show ${drawableKinds.join(", ")}.${remedy}`,
      );
    }
  }
}

/** A picture from elsewhere would not come along with the image. */
function checkPictures({ images }: PlotlyLayout): void {
  for (const picture of Array.isArray(images) ? (images as readonly unknown[]) : []) {
    const source: unknown =
      typeof picture === "object" && picture !== null ? Reflect.get(picture, "source") : picture;
    if (typeof source === "string" && source.startsWith("data:")) continue;
    throw new TypeError(
      `drawSvg: layout.images has source ${JSON.stringify(source)}; it must be a "data:" address, so that the figure stands alone.`,
    );
  }
}

function pixels(layout: PlotlyLayout, side: "width" | "height", otherwise: number): number {
  const value = layout[side] ?? otherwise;
  if (typeof value !== "number" || !(value >= 10 && value <= 10_000)) {
    throw new TypeError(
      `drawSvg: layout.${side} is ${JSON.stringify(value)}; it must be 10 to 10000 pixels.`,
    );
  }
  return value;
}

/** The specification as JSON text; typed arrays become lists, and NaN a gap. */
function plainJson(value: unknown): string {
  return JSON.stringify(value, (_, part: unknown) =>
    ArrayBuffer.isView(part) && !(part instanceof DataView)
      ? Array.from(part as unknown as ArrayLike<number>)
      : part,
  );
}
