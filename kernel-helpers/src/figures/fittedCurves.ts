import { axis, colour, layout, line, points, seriesName } from "./look";
import { lowerFirst, type AxisText } from "./lines";
import { checkCount, checkFinite, checkSome, course, type Numbers, shown, symbolOf } from "./numbers";
import type { FigureSpec, PlotlyTrace } from "./spec";

/** Measured points of one group. */
export interface MeasuredPoints {
  readonly x: Numbers;
  readonly y: Numbers;
  /** Standard error of each point, drawn as a bar of one error to each side. */
  readonly errors?: Numbers;
}

/** A fitted curve with what it was fitted to. */
export interface FittedCurve {
  readonly name: string;
  readonly values: Numbers;
  /** Lower and upper end of an interval at each place. */
  readonly band?: readonly [lower: Numbers, upper: Numbers];
  readonly measured?: MeasuredPoints;
}

/** What `fittedCurves` draws. */
export interface FittedCurvesInput {
  readonly title?: string;
  readonly x: AxisText & { readonly values: Numbers };
  readonly y: AxisText;
  readonly curves: readonly FittedCurve[];
  /** What the bands are, such as "band: where 95 % of further runs lie". */
  readonly note?: string;
  readonly caption?: string;
}

/**
 * Fitted curves with a band for their interval, and the measured points they were fitted to.
 *
 * Returns a figure for `figure`; the points of a curve have its colour. Values are in SI units. Throws a RangeError where
 * a curve, band or group of points has more or fewer values than places.
 *
 * @example
 * figures.fittedCurves({ x: { title: "Blockage", unit: "", values: [0.2, 0.4] }, y: { title: "Loss coefficient", unit: "" },
 *   curves: [{ name: "foil", values: [0.1, 0.5], measured: { x: [0.3], y: [0.25] } }] }).alt
 * // => "Loss coefficient against blockage. foil: rises from 0.1 at 0.2 to 0.5 at 0.4; 1 measured point."
 */
export function fittedCurves(input: FittedCurvesInput): FigureSpec {
  const { title, x, y, curves, note, caption } = input;
  checkSome("fittedCurves", "curves", curves);
  checkSome("fittedCurves", "x.values", x.values);
  for (const { name, values, band, measured } of curves) {
    checkCount("fittedCurves", `curve "${name}"`, values, x.values.length);
    band?.forEach((edge, at) =>
      checkCount("fittedCurves", `curve "${name}", band[${at}],`, edge, x.values.length),
    );
    if (measured === undefined) continue;
    checkCount("fittedCurves", `curve "${name}", measured.y,`, measured.y, measured.x.length);
    checkFinite("fittedCurves", `curve "${name}", measured.y`, measured.y);
    if (measured.errors !== undefined) {
      checkCount("fittedCurves", `curve "${name}", measured.errors,`, measured.errors, measured.x.length);
    }
  }
  const places = shown(x.values, x.unit);
  const bands = curves.flatMap(({ band }, index) => bandOf(places, band, { unit: y.unit, index }));
  const drawn = curves.map(({ name, values }, index): PlotlyTrace => ({
    ...line(index),
    name: seriesName(name),
    x: places,
    y: shown(values, y.unit),
  }));
  const dots = curves.flatMap(({ measured }, index) =>
    measured === undefined ? [] : [pointsOf(measured, { x, y, index })],
  );
  const data = [...bands, ...drawn, ...dots];
  return {
    data,
    layout: layout(data, {
      title,
      x: axis(x.title, symbolOf(x.unit)),
      y: axis(y.title, symbolOf(y.unit)),
      ...(note === undefined ? {} : { note }),
    }),
    alt: inWords(input),
    caption,
  };
}

function bandOf(
  places: PlotlyTrace["x"],
  band: FittedCurve["band"],
  { unit, index }: { readonly unit: string; readonly index: number },
): PlotlyTrace[] {
  if (band === undefined) return [];
  const edge = { type: "scatter", mode: "lines", showlegend: false, hoverinfo: "skip", line: { width: 0 } };
  const [lower, upper] = band.map((values) => shown(values, unit));
  return [
    { ...edge, x: places, y: lower },
    { ...edge, x: places, y: upper, fill: "tonexty", fillcolor: `${colour(index)}26` },
  ];
}

function pointsOf(
  { x: at, y: values, errors }: MeasuredPoints,
  { x, y, index }: { readonly x: AxisText; readonly y: AxisText; readonly index: number },
): PlotlyTrace {
  const bars = {
    type: "data",
    array: errors && shown(errors, y.unit),
    color: colour(index),
    thickness: 1.5,
    width: 3,
  };
  return {
    ...points(index, 7),
    showlegend: false,
    x: shown(at, x.unit),
    y: shown(values, y.unit),
    ...(errors === undefined ? {} : { error_y: bars }),
  };
}

function inWords({ x, y, curves, note }: FittedCurvesInput): string {
  const sentences = curves.map(({ name, values, measured }) => {
    const run = course({ values: x.values, unit: x.unit }, { values, unit: y.unit });
    const count = measured?.x.length ?? 0;
    const said = count === 0 ? "" : `; ${count} measured point${count === 1 ? "" : "s"}`;
    return `${name}: ${run}${said}.`;
  });
  const ending = note === undefined ? [] : [`${note.charAt(0).toUpperCase()}${note.slice(1)}.`];
  return [`${y.title} against ${lowerFirst(x.title)}.`, ...sentences, ...ending].join(" ");
}
