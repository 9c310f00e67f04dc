import { curveTraces } from "./curves";
import { axis, colour, layout, seriesName } from "./look";
import { checkCount, checkSome, course, type Numbers, said, shown } from "./numbers";
import { shareAxis, shareRange } from "./shareAxis";
import type { FigureSpec, PlotlyTrace } from "./spec";

/** Turbine survival by one model, as `turbine.survivalByLength` returns it. */
export interface TurbineSurvivalCurve {
  readonly title: string;
  readonly survival: Numbers;
  /** For each length, whether it lies in the range that the model's source tested. */
  readonly tested?: ArrayLike<boolean>;
  /** An honest tolerance of these survivals, shown as a band around the curve, cut at 0 and 1. */
  readonly tolerance?: number;
}

/** What `turbineSurvival` draws. */
export interface TurbineSurvivalInput {
  readonly title?: string;
  /** Total lengths in metres. */
  readonly totalLength: Numbers;
  readonly curves: readonly TurbineSurvivalCurve[];
  readonly caption?: string;
}

/**
 * Turbine survival against total length.
 *
 * Returns a figure for `figure`, lengths in centimetres. Throws a `RangeError` where a curve has more or
 * fewer values than there are lengths, or a tolerance is not a share.
 *
 * @example
 * turbineSurvival({ totalLength: [0.05, 0.6], curves: [{ title: "strike", survival: [0.98, 0.7] }] }).alt
 * // => "Turbine survival against total length. strike: falls from 0.98 at 5 cm to 0.7 at 60 cm."
 */
export function turbineSurvival({ title, totalLength, curves, caption }: TurbineSurvivalInput): FigureSpec {
  checkSome("turbineSurvival", "totalLength", totalLength);
  checkSome("turbineSurvival", "curves", curves);
  for (const { title: name, survival, tested, tolerance } of curves) {
    checkCount("turbineSurvival", `curve "${name}"`, survival, totalLength.length);
    if (tested !== undefined)
      checkCount("turbineSurvival", `curve "${name}", tested,`, tested, totalLength.length);
    if (tolerance !== undefined && !(tolerance >= 0 && tolerance <= 1)) {
      throw new RangeError(
        `figures.turbineSurvival: curve "${name}", tolerance, is ${tolerance}; it must be from 0 to 1.`,
      );
    }
  }
  const x = shown(totalLength, "cm");
  const bands = curves.flatMap(({ survival, tolerance }, i) =>
    tolerance === undefined ? [] : [band(x, survival, tolerance, i)],
  );
  const drawn = curveTraces(
    curves.map((curve) => ({
      name: withTolerance(curve),
      x,
      y: shown(curve.survival, ""),
      tested: curve.tested,
    })),
  );
  const data = [...bands, ...drawn];
  const range = shareRange(
    curves.map(({ survival, tolerance = 0 }) =>
      Array.from(survival, (value) => Math.max(0, value - tolerance)),
    ),
  );
  const words = curves.map(
    (curve) =>
      `${withTolerance(curve)}: ${course({ values: totalLength, unit: "cm" }, { values: curve.survival, unit: "" })}.`,
  );
  const bandWords = bands.length === 0 ? [] : ["Bands show the tolerance."];
  return {
    data,
    layout: layout(data, { title, x: axis("Total length", "cm"), y: shareAxis("Turbine survival", range) }),
    alt: ["Turbine survival against total length.", ...words, ...bandWords].join(" "),
    caption,
  };
}

/** A curve's title with its tolerance, so that the legend explains the band. */
function withTolerance({ title, tolerance }: TurbineSurvivalCurve): string {
  return tolerance === undefined ? title : `${title} ± ${said(tolerance, "")}`;
}

/** The band around a curve, as one closed outline. */
function band(
  x: readonly (number | null)[],
  survival: Numbers,
  tolerance: number,
  index: number,
): PlotlyTrace {
  const places = x.flatMap((length, i) =>
    length !== null && Number.isFinite(survival[i]) ? [{ length, s: survival[i] }] : [],
  );
  const there = places.map(({ s }) => Math.min(1, s + tolerance));
  const back = places.map(({ s }) => Math.max(0, s - tolerance)).toReversed();
  const lengths = places.map(({ length }) => length);
  return {
    type: "scatter",
    mode: "lines",
    x: [...lengths, ...lengths.toReversed()],
    y: [...there, ...back],
    fill: "toself",
    fillcolor: faint(colour(index)),
    line: { width: 0 },
    showlegend: false,
    hoverinfo: "skip",
    name: seriesName(`tolerance ${index + 1}`),
  };
}

function faint(hex: string): string {
  const [red, green, blue] = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
  return `rgba(${red},${green},${blue},0.13)`;
}
