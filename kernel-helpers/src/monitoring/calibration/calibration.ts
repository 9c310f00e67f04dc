import { checkLevel } from "../../statistics/checks";
import type { GearEfficiencies } from "../gearEfficiency";
import { gearMove, type Guidance, guidanceOfPassed, perfectNets } from "../guidance";
import { grouped } from "../grouped";
import { type CalibrationCell, checkCells, isCertain } from "./cells";
import { type CalibrationLine, calibrationLine } from "./line";

/** One class over all nights: predicted and observed. */
export interface CalibrationClass {
  readonly name: string;
  readonly fish: number;
  readonly nights: number;
  /** Mean over the fish. */
  readonly predicted: number;
  readonly observed: Pick<Guidance, "estimate" | "lower" | "upper"> | undefined;
  /** Observed less predicted; undefined where fewer than two nights had fish of the class. */
  readonly difference: number | undefined;
  /** Where an observed share should lie, as given by the caller. */
  readonly interval: PredictionRange | undefined;
  readonly isInside: boolean | undefined;
}

export interface PredictionRange {
  readonly lower: number;
  readonly upper: number;
}

/** A prediction held against observations. */
export interface Calibration extends CalibrationLine {
  readonly method: string;
  readonly level: number;
  readonly fish: number;
  readonly nights: number;
  readonly classes: readonly CalibrationClass[];
  /** Mean over the classes of observed less predicted share, each class counting alike. */
  readonly bias: number;
  /** The same, each fish counting alike. */
  readonly biasByFish: number;
  /** Root of the mean square over the classes; chance in the observed shares is part of it. */
  readonly rmse: number;
  /** Mean over the fish of (outcome − predicted share of the catch)². */
  readonly brier: number;
  /** Share of the classes with an interval whose observed share lies in it; undefined without intervals. */
  readonly coverage:
    { readonly inside: number; readonly classes: number; readonly share: number } | undefined;
  /** Classes predicted as 0 or 1: no chance is left there, and one fish the other way contradicts. */
  readonly certain: { readonly fish: number; readonly contradicting: number };
  readonly cautions: readonly string[];
}

/**
 * Holds predicted shares against observed ones, class by class and night by night.
 *
 * Returns bias, RMSE, the Brier score and the coverage of prediction intervals over the classes; and on the logit the
 * intercept (bias, slope held at 1) and the slope of observed on predicted shares (Cox 1958), with the deviance test that
 * both are 0 and 1. Fish of one night hang together: errors come from the nights' scores, the deviance is divided by the
 * nights' design effect (Rao & Scott 1984, Ann. Stat. 12:46), and the test that takes fish as independent stands beside
 * it. The prediction is taken as it stands: the error of the curve is in the prediction intervals alone. `gear` moves the share of the catch to that of the fish that passed; its error widens the intercept. Cells predicted
 * as 0 or 1 stay out of the line and are counted in `certain`. Valid for about ten nights or more, all of one plant.
 * Throws a RangeError for counts that are not whole, shares outside 0..1, fewer than three nights, and where all fish
 * went one way.
 *
 * @example
 * monitoring.calibration({ cells: [
 *   { night: "1", name: "small", successes: 5, trials: 10, predicted: 0.5 },
 *   { night: "2", name: "small", successes: 6, trials: 10, predicted: 0.5 },
 *   { night: "3", name: "large", successes: 9, trials: 10, predicted: 0.8 },
 * ] }).bias // => 0.05
 */
export function calibration({
  cells,
  gear = perfectNets,
  intervals = {},
  level = 0.95,
}: {
  readonly cells: readonly CalibrationCell[];
  readonly gear?: GearEfficiencies;
  /** Prediction intervals of the observed share, by the name of the class. */
  readonly intervals?: Readonly<Record<string, PredictionRange>>;
  readonly level?: number;
}): Calibration {
  const where = "monitoring.calibration";
  checkLevel(where, level);
  checkCells(where, cells);
  const { move, error } = gearMove(where, gear);
  const used = cells.filter(({ trials }) => trials > 0);
  const open = used.filter((cell) => !isCertain(cell));
  const certain = used.filter(isCertain);
  const contradicting = certain.reduce(
    (sum, { predicted, successes, trials }) => sum + (predicted === 1 ? trials - successes : successes),
    0,
  );
  const classes = [...grouped(used, ({ name }) => name)].map(([name, some]) =>
    classOf(name, some, {
      gear,
      level,
      interval: Object.hasOwn(intervals, name) ? intervals[name] : undefined,
    }),
  );
  const compared = classes.flatMap(({ difference, fish }) =>
    difference === undefined ? [] : [{ difference, fish }],
  );
  const fish = compared.reduce((sum, one) => sum + one.fish, 0);
  const mean = (valueOf: (one: { readonly difference: number }) => number): number =>
    compared.reduce((sum, one) => sum + valueOf(one), 0) / compared.length;
  const inside = classes.flatMap(({ isInside }) => (isInside === undefined ? [] : [isInside]));
  const trials = used.reduce((sum, cell) => sum + cell.trials, 0);
  return {
    method:
      "logit of the share in the catch on that of the prediction; errors from the scores of nights, Student's t; " +
      "deviance over the nights' design effect",
    level,
    fish: trials,
    nights: new Set(used.map(({ night }) => night)).size,
    classes,
    bias: mean(({ difference }) => difference),
    biasByFish: compared.reduce((sum, one) => sum + one.difference * one.fish, 0) / fish,
    rmse: Math.sqrt(mean(({ difference }) => difference ** 2)),
    brier: used.reduce((sum, cell) => sum + squaresOf(cell, move), 0) / trials,
    ...calibrationLine(where, open, { gearMove: move, gearError: error, level }),
    coverage:
      inside.length === 0
        ? undefined
        : {
            inside: inside.filter(Boolean).length,
            classes: inside.length,
            share: inside.filter(Boolean).length / inside.length,
          },
    certain: { fish: certain.reduce((sum, cell) => sum + cell.trials, 0), contradicting },
    cautions: cautionsOf(classes, contradicting, used),
  };
}

/** Squared distances of the fish of one cell from the share of the catch that is predicted. */
function squaresOf({ successes, trials, predicted }: CalibrationCell, move: number): number {
  const share = inCatch(predicted, move);
  return successes * (1 - share) ** 2 + (trials - successes) * share ** 2;
}

/** The share of the catch that belongs to a share of the fish that passed. */
const inCatch = (share: number, move: number): number =>
  (share * Math.exp(move)) / (share * Math.exp(move) + 1 - share);

function classOf(
  name: string,
  cells: readonly CalibrationCell[],
  {
    gear,
    level,
    interval,
  }: {
    readonly gear: GearEfficiencies;
    readonly level: number;
    readonly interval: PredictionRange | undefined;
  },
): CalibrationClass {
  const fish = cells.reduce((sum, { trials }) => sum + trials, 0);
  const predicted = cells.reduce((sum, cell) => sum + cell.predicted * cell.trials, 0) / fish;
  const nights = [...grouped(cells, ({ night }) => night).values()].map((some) => ({
    bypass: some.reduce((sum, { successes }) => sum + successes, 0),
    turbine: some.reduce((sum, { successes, trials }) => sum + trials - successes, 0),
  }));
  const observed = nights.length < 2 ? undefined : guidanceOfPassed({ nights, gear, level });
  return {
    name,
    fish,
    nights: nights.length,
    predicted,
    observed,
    difference: observed === undefined ? undefined : observed.estimate - predicted,
    interval,
    isInside:
      observed === undefined || interval === undefined
        ? undefined
        : interval.lower <= observed.estimate && observed.estimate <= interval.upper,
  };
}

function cautionsOf(
  classes: readonly CalibrationClass[],
  contradicting: number,
  cells: readonly CalibrationCell[],
): string[] {
  const thin = classes.filter(({ observed }) => observed === undefined).map(({ name }) => name);
  const nights = new Set(cells.map(({ night }) => night)).size;
  return [
    ...(thin.length > 0
      ? [`Caught on one night only, and not compared class by class: ${thin.join(", ")}.`]
      : []),
    ...(contradicting > 0
      ? [
          `${contradicting} fish went the way that the prediction excludes; the line leaves their classes out.`,
        ]
      : []),
    ...(nights < 10
      ? [`Only ${nights} nights: with fewer than about ten the errors of intercept and slope are too small.`]
      : []),
  ];
}
