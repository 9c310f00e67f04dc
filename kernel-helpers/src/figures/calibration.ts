import type { CalibrationClass } from "../monitoring";
import { labelBoard } from "./labels";
import { axis, colour, layout, points, seriesName } from "./look";
import { checkSome, said } from "./numbers";
import { shareAxis } from "./shareAxis";
import type { FigureSpec, PlotlyTrace } from "./spec";

/** Predictions of one plant held against its observations. */
export interface CalibrationGroup {
  readonly name: string;
  readonly classes: readonly CalibrationClass[];
}

/** What `calibration` draws. */
export interface CalibrationInput {
  readonly title?: string;
  readonly groups: readonly CalibrationGroup[];
  /** What is predicted and observed, for the axes: "guidance". */
  readonly share: string;
  readonly caption?: string;
}

/**
 * Observed against predicted shares, class by class, with the intervals of both and the line of agreement.
 *
 * Returns a figure for `figure`. A thin bar is the interval of an observed share, a pale one where it should lie if the
 * prediction holds. Classes that were observed on one night only have no interval and are left out. Throws a RangeError
 * where no class was observed.
 *
 * @example
 * calibration({ share: "guidance", groups: [{ name: "Halvern Weir", classes: checked.classes }] })
 */
export function calibration({ title, groups, share, caption }: CalibrationInput): FigureSpec {
  const drawn = groups.map(({ name, classes }) => ({
    name,
    classes: classes.flatMap((one) =>
      one.observed === undefined ? [] : [{ ...one, observed: one.observed }],
    ),
  }));
  checkSome(
    "calibration",
    "groups",
    drawn.flatMap(({ classes }) => classes),
  );
  const agreement = { ...agreementLine, name: "observed as predicted", x: [0, 1], y: [0, 1] };
  const bands = drawn.map(({ classes }, index) => predictionBars(classes, index));
  const dots = drawn.map(({ name, classes }, index) => ({
    ...points(index, 11),
    name: seriesName(name),
    x: classes.map(({ predicted }) => predicted),
    y: classes.map(({ observed }) => observed.estimate),
    error_y: {
      type: "data",
      symmetric: false,
      color: colour(index),
      thickness: 2,
      width: 5,
      array: classes.map(({ observed }) => observed.upper - observed.estimate),
      arrayminus: classes.map(({ observed }) => observed.estimate - observed.lower),
    },
    text: classes.map((one) => one.name),
  }));
  const hasBands = bands.some(({ x }) => Array.isArray(x) && x.length > 0);
  const data = [agreement, ...bands, ...dots];
  const range: [number, number] = [-0.02, 1.04];
  const far = drawn.flatMap(({ classes }, index) => {
    const [worst] = classes.toSorted((a, b) => Math.abs(b.difference ?? 0) - Math.abs(a.difference ?? 0));
    return Math.abs(worst?.difference ?? 0) < 0.1
      ? []
      : [{ x: worst.predicted, y: worst.observed.estimate, text: worst.name, colour: colour(index) }];
  });
  const board = labelBoard({ x: range, y: range, busy: [agreement, ...dots] });
  const words = drawn.map(({ name, classes }) => {
    const below = classes.filter(({ difference = 0 }) => difference < 0).length;
    const each = classes.map(
      ({ name: one, predicted, observed }) =>
        `${one}: ${said(predicted, "", 2)} predicted, ${said(observed.estimate, "", 2)} observed`,
    );
    return `${name}: ${below} of ${classes.length} classes below the line of agreement. ${each.join("; ")}.`;
  });
  return {
    data,
    layout: layout(data, {
      title,
      x: axis(`Predicted ${share}`, "", { range, dtick: 0.2, tickformat: ".1f" }),
      y: shareAxis(`Observed ${share}`, range),
      annotations: far.map((label) => board.point(label)),
      ...(hasBands ? { note: "pale bars: where the observed share should lie if the prediction holds" } : {}),
      more: { barmode: "overlay", height: 560 },
    }),
    alt: [`Observed against predicted ${share} of length classes.`, ...words].join(" "),
    caption,
  };
}

const agreementLine: PlotlyTrace = {
  type: "scatter",
  mode: "lines",
  line: { color: "#5c6b78", dash: "dash", width: 2 },
  hoverinfo: "skip",
};

/** Prediction intervals as pale upright bars; those without width are not drawn. */
function predictionBars(classes: readonly CalibrationClass[], index: number): PlotlyTrace & { x: number[] } {
  const wide = classes.flatMap(({ predicted, interval }) =>
    interval === undefined || interval.upper <= interval.lower ? [] : [{ predicted, interval }],
  );
  return {
    type: "bar",
    showlegend: false,
    hoverinfo: "skip",
    marker: { color: colour(index), opacity: 0.22, line: { width: 0 } },
    width: 0.018,
    x: wide.map(({ predicted }) => predicted),
    base: wide.map(({ interval }) => interval.lower),
    y: wide.map(({ interval }) => interval.upper - interval.lower),
  };
}
