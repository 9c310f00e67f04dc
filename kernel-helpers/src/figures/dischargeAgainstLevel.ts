import { type Curve, lines } from "./lines";
import type { Numbers } from "./numbers";
import type { FigureSpec } from "./spec";

/** What `dischargeAgainstLevel` draws. */
export interface DischargeAgainstLevelInput {
  readonly title?: string;
  /** Water levels upstream of the controls, in metres. */
  readonly levels: Numbers;
  /** Discharges in m³/s, a curve for each control. */
  readonly curves: readonly Curve[];
  /** Levels to mark: low, mean and high headwater. */
  readonly marks?: readonly { readonly level: number; readonly text: string }[];
  readonly wantedDischarge?: number;
  readonly caption?: string;
}

/**
 * What controls of a bypass let through, against the water level upstream.
 *
 * Returns a figure for `figure`. Throws a `RangeError` where a curve has more or fewer values than levels.
 *
 * @example
 * figure(figures.dischargeAgainstLevel({ levels, curves: [{ name: "crest", values: discharges }] }))
 */
export function dischargeAgainstLevel(input: DischargeAgainstLevelInput): FigureSpec {
  const { title, levels, curves, marks = [], wantedDischarge, caption } = input;
  return lines({
    title,
    x: { title: "Water level upstream", unit: "m", values: levels },
    y: { title: "Discharge", unit: "m3ps" },
    curves,
    marks: [
      ...marks.map(({ level, text }) => ({ axis: "x" as const, at: level, text })),
      ...(wantedDischarge === undefined ? [] : [{ axis: "y" as const, at: wantedDischarge, text: "wanted" }]),
    ],
    caption,
  });
}
