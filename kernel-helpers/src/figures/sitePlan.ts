import type { Place, Site } from "../movement/site";
import { fontSize, helpColour, plain, plotSize } from "./look";
import { said } from "./numbers";
import type { View } from "./speedMap";
import type { PlotlyLayout } from "./spec";

interface At {
  readonly x: number;
  readonly y: number;
}

/** The plan fills the width of the figure. */
export const metresPerPixel = ([left, right]: readonly [number, number]): number =>
  (right - left) / plotSize.width;

/** The walls, the rack, and the bypass entrance as a dotted line. */
export function siteShapes({ rack, bypass }: Site, { water }: View): PlotlyLayout[] {
  return [
    ...water.y.map((y) => bar({ x: water.x[0], y }, { x: water.x[1], y }, 3)),
    bar(rack.from, rack.to, 6),
    bar(bypass.from, bypass.to, 4, "dot"),
  ];
}

function bar(from: At, to: At, width: number, dash = "solid"): PlotlyLayout {
  return {
    type: "line",
    x0: from.x,
    y0: from.y,
    x1: to.x,
    y1: to.y,
    line: { color: helpColour, width, dash },
  };
}

/** Names of rack and bypass outside the walls where they begin and end, and the way of the water. */
export function siteNames({ rack, bypass }: Site, { water }: View): PlotlyLayout[] {
  const [low, high] = water.y;
  const outside = ({ x, y }: At, words: string): PlotlyLayout => {
    const isLow = y - low < high - y;
    return {
      x,
      y: isLow ? low : high,
      text: plain(words),
      showarrow: false,
      font: { size: fontSize.label },
      yanchor: isLow ? "top" : "bottom",
      yshift: isLow ? -4 : 4,
    };
  };
  return [
    outside(rack.from, "rack"),
    { ...outside(bypass.to, "bypass"), xanchor: "right" },
    { ...outside({ x: water.x[0], y: rack.from.y }, "flow →"), xanchor: "left" },
  ];
}

/** A place in a sentence. */
export const placeInWords = ({ x, y }: Place): string => `(${said(x, "")}, ${said(y, "")}) m`;
