import type { Shown } from "./curves";
import { labelBoard } from "./labels";
import { helpLine } from "./look";
import { listed, said, shown, type ShownUnit } from "./numbers";
import type { PlotlyLayout } from "./spec";

/** A value of one axis to mark with a line across the plot. */
export interface Mark {
  readonly axis: "x" | "y";
  /** In SI units. */
  readonly at: number;
  /** What is there: "cleaner starts". */
  readonly text: string;
}

interface MarkedAxes {
  readonly x: { readonly unit: ShownUnit };
  readonly y: { readonly unit: ShownUnit };
}

/** What marks add to a layout. */
export interface MarkedLayout {
  readonly xRange?: PlotlyLayout;
  readonly yRange?: PlotlyLayout;
  readonly shapes?: readonly PlotlyLayout[];
  readonly annotations?: readonly PlotlyLayout[];
}

/**
 * The lines and texts of marks, and axis ranges in which curves and marks lie.
 *
 * Returns nothing where there is no mark. Throws a RangeError for a mark that is not a finite number.
 */
export function markedLayout(
  marks: readonly Mark[],
  { x, y, rows }: MarkedAxes & { readonly rows: readonly { readonly x: Shown; readonly y: Shown }[] },
): MarkedLayout {
  if (marks.length === 0) return {};
  const placed = marks.map((mark) => ({ ...mark, at: placeOf(mark, { x, y }) }));
  const on = (which: "x" | "y"): number[] => placed.filter(({ axis }) => axis === which).map(({ at }) => at);
  const xRange = rangeOf([...rows.flatMap((row) => row.x), ...on("x")], 0.01);
  const yRange = rangeOf([...rows.flatMap((row) => row.y), ...on("y")], 0.06);
  const board = labelBoard({ x: xRange, y: yRange, busy: rows });
  return {
    xRange: { range: xRange },
    yRange: { range: yRange },
    // Above the grid too: a mark often stands on one of its lines.
    shapes: placed.map(({ axis, at }) => ({ ...helpLine(axis, at), layer: "above" })),
    annotations: placed.map(({ axis, at, text }) =>
      axis === "x" ? board.verticalLine({ x: at, text }) : board.horizontalLine({ y: at, text }),
    ),
  };
}

/** The marks in a sentence; none where there is no mark. */
export function marksInWords(marks: readonly Mark[], axes: MarkedAxes): string[] {
  if (marks.length === 0) return [];
  const named = marks.map(({ axis, at, text }) => `${text} at ${said(at, axes[axis].unit)}`);
  return [`Marked: ${listed(named)}.`];
}

function placeOf({ axis, at, text }: Mark, axes: MarkedAxes): number {
  const [place] = shown([at], axes[axis].unit);
  if (place === null) {
    throw new RangeError(`figures.lines: mark "${text}" is at ${String(at)}; it must be a finite number.`);
  }
  return place;
}

/** From the lowest to the highest number with a margin; a span of nothing is opened, or nothing could be placed in it. */
function rangeOf(values: readonly (number | null)[], margin: number): [number, number] {
  const finite = values.filter((value) => value !== null);
  if (finite.length === 0) return [0, 1];
  const low = finite.reduce((least, value) => Math.min(least, value));
  const high = finite.reduce((most, value) => Math.max(most, value));
  const span = high > low ? high - low : Math.abs(high) || 1;
  return [low - margin * span, high + margin * span];
}
