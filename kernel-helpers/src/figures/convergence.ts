import { axis, colour, layout, line, points, seriesName } from "./look";
import { checkFinite, checkSome, said, shown, type ShownUnit, symbolOf } from "./numbers";
import type { FigureSpec, PlotlyTrace } from "./spec";

/** A running estimate after so many draws, with its standard error. */
export interface RunningEstimate {
  readonly draws: number;
  readonly value: number;
  readonly standardError: number;
}

/** What `convergence` draws. */
export interface ConvergenceInput {
  readonly title?: string;
  readonly y: { readonly title: string; readonly unit: ShownUnit };
  readonly series: readonly { readonly name: string; readonly steps: readonly RunningEstimate[] }[];
  /** A value that is known from theory. */
  readonly truth?: number;
  readonly caption?: string;
}

/** Standard errors to each side of a point: about 95 % of estimates. */
const errorsShown = 2;

/**
 * Running estimates against the number of draws, with two standard errors to each side: were there enough draws?
 *
 * Returns a figure for `figure`, draws on a logarithmic axis. Throws a RangeError for a series without steps and for numbers
 * that are not finite.
 *
 * @example
 * figures.convergence({ y: { title: "Mean", unit: "" }, series: [{ name: "Sobol's sequence", steps: [
 *   { draws: 256, value: 1.1, standardError: 0.05 }, { draws: 1024, value: 1.02, standardError: 0.01 }] }] }).alt
 * // => "Mean against the number of draws. Sobol's sequence: 1.1 ± 0.1 at 256 draws, 1.02 ± 0.02 at 1024 draws (two standard errors)."
 */
export function convergence({ title, y, series, truth, caption }: ConvergenceInput): FigureSpec {
  checkSome("convergence", "series", series);
  for (const { name, steps } of series) {
    checkSome("convergence", `the steps of "${name}"`, steps);
    checkFinite(
      "convergence",
      `series "${name}"`,
      steps.flatMap((step) => [step.draws, step.value, step.standardError]),
    );
  }
  const data = series.map(({ name, steps }, index): PlotlyTrace => {
    const errors = steps.map(({ standardError }) => errorsShown * standardError);
    return {
      ...line(index, 2),
      mode: "lines+markers",
      marker: points(index, 9).marker,
      name: seriesName(name),
      // Two series of the same draws stand a little apart, so that their error bars can be told.
      x: steps.map(({ draws }) => draws * 1.06 ** (index - (series.length - 1) / 2)),
      y: shown(
        steps.map(({ value }) => value),
        y.unit,
      ),
      error_y: { type: "data", array: shown(errors, y.unit), color: colour(index), thickness: 2, width: 5 },
    };
  });
  const first = series[0].steps;
  const words = series.map(
    ({ name, steps }) =>
      `${name}: ${inWords(steps[0], y.unit)}, ${inWords(steps[steps.length - 1], y.unit)} (two standard errors).`,
  );
  const [known] = truth === undefined ? [null] : shown([truth], y.unit);
  return {
    data,
    layout: layout(data, {
      title,
      x: axis("Number of draws", "", { type: "log", ...ticksOf(first.map(({ draws }) => draws)) }),
      y: axis(y.title, symbolOf(y.unit)),
      ...(known === null ? {} : { shapes: [truthLine(known)] }),
      note: "bars: two standard errors to each side",
    }),
    alt: [
      `${y.title} against the number of draws.`,
      ...words,
      ...(truth === undefined ? [] : [`Known from theory: ${said(truth, y.unit)}.`]),
    ].join(" "),
    caption,
  };
}

const inWords = ({ draws, value, standardError }: RunningEstimate, unit: ShownUnit): string =>
  `${said(value, unit)} ± ${said(errorsShown * standardError, unit, 2)} at ${draws} draws`;

/** A tick at every step, every second one where there are many. */
function ticksOf(draws: readonly number[]) {
  const every = draws.length > 8 ? 2 : 1;
  const kept = draws.filter((_, at) => (draws.length - 1 - at) % every === 0);
  return {
    tickvals: kept,
    ticktext: kept.map((one) => one.toLocaleString("en-GB").replaceAll(",", "\u2009")),
  };
}

const truthLine = (at: number) => ({
  type: "line",
  xref: "paper",
  x0: 0,
  x1: 1,
  y0: at,
  y1: at,
  line: { color: colour(6), width: 2, dash: "dash" },
  layer: "below",
});
