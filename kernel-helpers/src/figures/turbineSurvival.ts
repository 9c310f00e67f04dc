import { curveTraces } from "./curves";
import { axis, colour, layout, seriesName } from "./look";
import { checkLength, checkSome, course, type Numbers, said, shown } from "./numbers";
import { shareAxis, shareRange } from "./shareAxis";
import type { FigureSpec, PlotlyTrace } from "./spec";

/** What `turbineSurvival` draws. */
export interface TurbineSurvivalInput {
  readonly title?: string;
  /** Total lengths in metres. */
  readonly totalLength: Numbers;
  readonly curves: readonly {
    readonly name: string;
    readonly survival: Numbers;
    /** For each length, whether it lies in the range that the curve's source tested. */
    readonly tested?: ArrayLike<boolean>;
  }[];
  /** An honest tolerance of the survivals, shown as a band around each curve, cut at 0 and 1. */
  readonly tolerance?: number;
  readonly caption?: string;
}

/**
 * Turbine survival against total length.
 *
 * Returns a figure for `figure`, lengths in centimetres. Throws a `RangeError` where a curve has more or
 * fewer values than there are lengths, or the tolerance is not a share.
 *
 * @example
 * turbineSurvival({ totalLength: [0.05, 0.6], curves: [{ name: "strike", survival: [0.98, 0.7] }] }).alt
 * // => "Turbine survival against total length. strike: falls from 0.98 at 5 cm to 0.7 at 60 cm."
 */
export function turbineSurvival({
  title,
  totalLength,
  curves,
  tolerance,
  caption,
}: TurbineSurvivalInput): FigureSpec {
  checkSome("turbineSurvival", "totalLength", totalLength);
  checkSome("turbineSurvival", "curves", curves);
  for (const { name, survival, tested } of curves) {
    checkLength("turbineSurvival", `curve "${name}"`, survival, totalLength.length);
    if (tested !== undefined)
      checkLength("turbineSurvival", `curve "${name}", tested,`, tested, totalLength.length);
  }
  if (tolerance !== undefined && !(tolerance >= 0 && tolerance <= 1)) {
    throw new RangeError(`figures.turbineSurvival: tolerance is ${tolerance}; it must be from 0 to 1.`);
  }
  const x = shown(totalLength, "cm");
  const bands =
    tolerance === undefined ? [] : curves.flatMap((curve, i) => band(x, curve.survival, tolerance, i));
  const drawn = curveTraces(
    curves.map(({ name, survival, tested }) => ({ name, x, y: shown(survival, ""), tested })),
  );
  const bandEntry: PlotlyTrace[] =
    tolerance === undefined
      ? []
      : [
          {
            type: "scatter",
            mode: "lines",
            x: [null],
            y: [null],
            fill: "toself",
            hoverinfo: "skip",
            name: `± ${said(tolerance, "")}`,
            line: { width: 0 },
            fillcolor: "rgba(92,107,120,0.25)",
          },
        ];
  const data = [...bands, ...drawn, ...bandEntry];
  const range = shareRange(
    curves.map(({ survival }) => Array.from(survival, (value) => Math.max(0, value - (tolerance ?? 0)))),
  );
  const words = curves.map(
    ({ name, survival }) =>
      `${name}: ${course({ values: totalLength, unit: "cm" }, { values: survival, unit: "" })}.`,
  );
  const toleranceWords = tolerance === undefined ? [] : [`Bands show a tolerance of ${said(tolerance, "")}.`];
  return {
    data,
    layout: layout(data, { title, x: axis("Total length", "cm"), y: shareAxis("Turbine survival", range) }),
    alt: ["Turbine survival against total length.", ...words, ...toleranceWords].join(" "),
    caption,
  };
}

/** The band around a curve, as one closed outline. */
function band(
  x: readonly (number | null)[],
  survival: Numbers,
  tolerance: number,
  index: number,
): PlotlyTrace[] {
  const places = x.flatMap((length, i) =>
    length !== null && Number.isFinite(survival[i]) ? [{ length, s: survival[i] }] : [],
  );
  const there = places.map(({ s }) => Math.min(1, s + tolerance));
  const back = places.map(({ s }) => Math.max(0, s - tolerance)).toReversed();
  const lengths = places.map(({ length }) => length);
  return [
    {
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
    },
  ];
}

function faint(hex: string): string {
  const [red, green, blue] = [1, 3, 5].map((at) => Number.parseInt(hex.slice(at, at + 2), 16));
  return `rgba(${red},${green},${blue},0.13)`;
}
