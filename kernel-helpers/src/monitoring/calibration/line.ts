import { refuse } from "../../statistics/checks";
import { betaCdf, chiSquareTail, studentQuantile } from "../../statistics/distributions";
import { fitBinomial } from "../../statistics/glm/fitBinomial";
import type { Estimated } from "../../statistics/glm/predict";
import { expit, logit } from "../guidance";
import type { CalibrationCell } from "./cells";

/** A test of the prediction as it stands against a line fitted on the logit. */
export interface CalibrationTest {
  readonly statistic: number;
  readonly degreesOfFreedom: number;
  readonly pValue: number;
}

/** What the observations say about a prediction on the logit. */
export interface CalibrationLine {
  /** Observed less predicted, on the logit, with the slope held at 1: 0 for a prediction without bias. */
  readonly intercept: Estimated;
  /** 1 where shares spread as predicted, below it where predictions are too extreme; undefined where they are all alike. */
  readonly slope: Estimated | undefined;
  /** The intercept that goes with the slope; at a predicted share of one half. */
  readonly interceptWithSlope: Estimated | undefined;
  /** Deviance gained by intercept and slope together, fish taken as independent: its p-value is too small. */
  readonly asIndependent: CalibrationTest;
  /** The same divided by the nights' mean design effect (Rao & Scott 1984), held against F. */
  readonly respectingNights: CalibrationTest & { readonly designEffect: number };
}

/** Counts with their predicted logit as it should be in the nets, without the move of the gear. */
interface Aimed extends CalibrationCell {
  readonly eta: number;
}

interface Score {
  readonly night: string;
  readonly residual: number;
  readonly weight: number;
  readonly eta: number;
}

/** Fits intercept and slope to cells whose prediction is neither 0 nor 1. */
export function calibrationLine(
  where: string,
  cells: readonly CalibrationCell[],
  {
    gearMove,
    gearError,
    level,
  }: { readonly gearMove: number; readonly gearError: number; readonly level: number },
): CalibrationLine {
  const aimed = cells.map((cell): Aimed => ({ ...cell, eta: logit(cell.predicted) }));
  const successes = aimed.reduce((sum, cell) => sum + cell.successes, 0);
  const trials = aimed.reduce((sum, cell) => sum + cell.trials, 0);
  if (successes === 0 || successes === trials)
    refuse(
      where,
      `${successes} of ${trials} fish took the bypass where the prediction is neither 0 nor 1: no finite intercept fits`,
    );

  const moved = solveIntercept(aimed, gearMove);
  const atMoved = aimed.map((cell) => scoreAt(cell, expit(moved + gearMove + cell.eta)));
  const information = atMoved.reduce((sum, { weight }) => sum + weight, 0);
  const nights = perNight(atMoved);
  const correction = nights.length / (nights.length - 1);
  const spread = correction * nights.reduce((sum, night) => sum + night.residual ** 2, 0);
  const interceptVariance = Math.max(1, spread / information) / information + gearError ** 2;

  const predictedDeviance = devianceAt(aimed, (cell) => expit(gearMove + cell.eta));
  const isSloped = new Set(aimed.map(({ eta }) => eta)).size > 1;
  const sloped = isSloped ? withSlope(aimed, gearMove, gearError, level) : undefined;
  const parameters = sloped === undefined ? 1 : 2;
  const deviance =
    sloped === undefined ? devianceAt(aimed, (cell) => expit(moved + gearMove + cell.eta)) : sloped.deviance;
  const designEffect = sloped?.designEffect ?? Math.max(1, spread / information);
  const statistic = Math.max(0, predictedDeviance - deviance);
  const freedom = nights.length - 1;
  return {
    intercept: estimated(moved, Math.sqrt(interceptVariance), freedom, level),
    slope: sloped?.slope,
    interceptWithSlope: sloped?.intercept,
    asIndependent: {
      statistic,
      degreesOfFreedom: parameters,
      pValue: chiSquareTail(statistic, { degreesOfFreedom: parameters }),
    },
    respectingNights: {
      statistic: statistic / designEffect / parameters,
      degreesOfFreedom: freedom,
      pValue: fisherTail(statistic / designEffect / parameters, parameters, freedom),
      designEffect,
    },
  };
}

const scoreAt = ({ night, successes, trials, eta }: Aimed, share: number): Score => ({
  night,
  residual: successes - trials * share,
  weight: trials * share * (1 - share),
  eta,
});

/** The intercept at which the fish in the bypass are as many as expected, by Newton's steps, halved where they overshoot. */
function solveIntercept(cells: readonly Aimed[], gearMove: number): number {
  const excess = (at: number): readonly [residual: number, weight: number] =>
    cells
      .map((cell) => scoreAt(cell, expit(at + gearMove + cell.eta)))
      .reduce<[number, number]>(([r, w], { residual, weight }) => [r + residual, w + weight], [0, 0]);
  let at = 0;
  for (let step = 0; step < 200; step++) {
    const [residual, weight] = excess(at);
    const move = Math.max(-2, Math.min(2, residual / Math.max(weight, 1e-12)));
    at += move;
    if (Math.abs(move) < 1e-12) break;
  }
  return at;
}

/** Residuals added up night by night, plain and times the predicted logit. */
function perNight(scores: readonly Score[]): { readonly residual: number; readonly timesEta: number }[] {
  const sums = new Map<string, { residual: number; timesEta: number }>();
  for (const { night, residual, eta } of scores) {
    const there = sums.get(night) ?? { residual: 0, timesEta: 0 };
    sums.set(night, { residual: there.residual + residual, timesEta: there.timesEta + residual * eta });
  }
  return [...sums.values()];
}

/** Intercept and slope with errors from the nights' scores (the sandwich of covariance, scores and covariance). */
function withSlope(
  cells: readonly Aimed[],
  gearMove: number,
  gearError: number,
  level: number,
): {
  readonly intercept: Estimated;
  readonly slope: Estimated;
  readonly deviance: number;
  readonly designEffect: number;
} {
  const fit = fitBinomial({
    successes: cells.map(({ successes }) => successes),
    trials: cells.map(({ trials }) => trials),
    terms: { predictedLogit: cells.map(({ eta }) => eta) },
    link: "logit",
  });
  const nights = perNight(cells.map((cell, at) => scoreAt(cell, fit.fitted[at])));
  const correction = nights.length / (nights.length - 1);
  const [aa, ab, bb] = [
    nights.reduce((sum, night) => sum + night.residual ** 2, 0),
    nights.reduce((sum, night) => sum + night.residual * night.timesEta, 0),
    nights.reduce((sum, night) => sum + night.timesEta ** 2, 0),
  ].map((sum) => correction * sum);
  const [c00, c01, c11] = [fit.covariance.get(0, 0), fit.covariance.get(0, 1), fit.covariance.get(1, 1)];
  const sandwich = (x: number, y: number): number => aa * x * x + 2 * ab * x * y + bb * y * y;
  // Never less than the error of independent fish.
  const [ofIntercept, ofSlope] = [Math.max(c00, sandwich(c00, c01)), Math.max(c11, sandwich(c01, c11))];
  // Mean of the eigenvalues of scores times covariance: the trace over two.
  const designEffect = Math.max(1, (aa * c00 + 2 * ab * c01 + bb * c11) / 2);
  const freedom = Math.max(1, nights.length - 2);
  const [intercept, slope] = fit.coefficients.map(({ estimate }) => estimate);
  return {
    intercept: estimated(intercept - gearMove, Math.hypot(Math.sqrt(ofIntercept), gearError), freedom, level),
    slope: estimated(slope, Math.sqrt(ofSlope), freedom, level),
    deviance: fit.deviance,
    designEffect,
  };
}

/** What one count adds to half of the deviance. */
const part = (count: number, expected: number): number =>
  count === 0 ? 0 : count * Math.log(count / expected);

function devianceAt(cells: readonly Aimed[], shareOf: (cell: Aimed) => number): number {
  return (
    2 *
    cells.reduce((sum, cell) => {
      const expected = cell.trials * shareOf(cell);
      return (
        sum + part(cell.successes, expected) + part(cell.trials - cell.successes, cell.trials - expected)
      );
    }, 0)
  );
}

function estimated(
  estimate: number,
  standardError: number,
  degreesOfFreedom: number,
  level: number,
): Estimated {
  const reach = studentQuantile((1 + level) / 2, { degreesOfFreedom }) * standardError;
  return { estimate, standardError, lower: estimate - reach, upper: estimate + reach };
}

/** The chance of a larger value of Fisher's F. */
const fisherTail = (value: number, first: number, second: number): number =>
  betaCdf(second / (second + first * value), { alpha: second / 2, beta: first / 2 });
