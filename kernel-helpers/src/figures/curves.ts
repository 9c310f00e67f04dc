import { colour, helpColour, line, seriesName, points } from "./look";
import type { PlotlyTrace } from "./spec";

/** A row of numbers as an axis shows them; null is a gap. */
export type Shown = readonly (number | null)[];

/** One curve in the units of its axes. */
export interface DrawnCurve {
  readonly name: string;
  readonly x: Shown;
  readonly y: Shown;
  /** For each point, whether it lies in the range that the source of its law tested. All do unless told. */
  readonly tested?: ArrayLike<boolean>;
  /** Lines unless told. */
  readonly drawn?: "lines" | "points";
  /** A line of less weight. */
  readonly thin?: boolean;
}

const untestedName = "outside tested range";

function kept(values: Shown, keep: (place: number) => boolean): Shown {
  return values.map((value, place) => (keep(place) ? value : null));
}

/**
 * Draws curves; where a curve leaves the range that its source tested, it goes on pale and dotted (or with
 * open markers), and the legend says what that means.
 */
export function curveTraces(curves: readonly DrawnCurve[]): PlotlyTrace[] {
  const traces: PlotlyTrace[] = [];
  let anyUntested = false;
  for (const [index, curve] of curves.entries()) {
    const { x, y, tested, drawn = "lines", thin = false } = curve;
    const style = drawn === "lines" ? line(index, thin ? 1.5 : 3) : points(index);
    const isTested = (place: number): boolean => tested === undefined || tested[place];
    traces.push({ ...style, name: seriesName(curve.name), x, y: kept(y, isTested) });
    if (x.every((_, place) => isTested(place))) continue;
    anyUntested = true;
    // A line starts from the last tested point, so that the curve does not break at the border.
    const touches = (place: number): boolean =>
      !isTested(place) ||
      (drawn === "lines" &&
        ((place > 0 && !isTested(place - 1)) || (place + 1 < x.length && !isTested(place + 1))));
    const pale =
      drawn === "lines"
        ? { line: { color: colour(index), dash: "dot", width: thin ? 1.5 : 2.5 }, opacity: 0.7 }
        : { marker: { color: colour(index), symbol: openSymbol(style), size: 10 }, opacity: 0.7 };
    const y2 = kept(y, touches);
    traces.push({
      ...style,
      ...pale,
      name: seriesName(`${curve.name}, ${untestedName}`),
      x,
      y: y2,
      showlegend: false,
    });
  }
  if (anyUntested) {
    const isLines = curves.some(({ drawn = "lines" }) => drawn === "lines");
    const sample = isLines
      ? { mode: "lines", line: { color: helpColour, dash: "dot", width: 2 } }
      : { mode: "markers", marker: { color: helpColour, symbol: "circle-open", size: 10 } };
    traces.push({ type: "scatter", ...sample, name: untestedName, x: [null], y: [null], hoverinfo: "skip" });
  }
  return traces;
}

function openSymbol(style: PlotlyTrace): string {
  const marker = style.marker;
  const symbol: unknown =
    typeof marker === "object" && marker !== null ? Reflect.get(marker, "symbol") : undefined;
  return `${typeof symbol === "string" ? symbol : "circle"}-open`;
}
