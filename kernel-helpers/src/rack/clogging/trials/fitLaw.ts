import { noteUse } from "../../../formula/usage";
import type { Length, PlainNumber } from "../../../quantity/dimension";
import { u } from "../../../quantity/u";
import {
  type CurveParameter,
  fitLeastSquares,
  lackOfFit,
  type LackOfFit,
  type LeastSquaresFit,
} from "../../../statistics";
import { rootBetween } from "../../../statistics/root";
import { lossFactor } from "../lossFactor";
import { checkFactors } from "./checkFactors";
import type { MeasuredFactor } from "./reduceTrials";

const caller = "clogging.fitLaw";

/** The coefficients of `clogging.lossFactor`. */
export interface CloggingCoefficients {
  readonly scale: PlainNumber;
  readonly loadExponent: PlainNumber;
  readonly spacingExponent: PlainNumber;
}

/** One trial beside the fitted law. */
export interface FittedTrial extends MeasuredFactor {
  /** Kilograms of debris a square metre of rack. */
  readonly load: number;
  readonly predicted: number;
  /** ln(measured/predicted) over its standard deviation by the fit: within ±2 for 19 of 20 trials. */
  readonly standardizedResidual: number;
}

/** What the law reads of a trial. */
export type CloggingPlace = Pick<MeasuredFactor, "debrisMass" | "rackArea" | "clearSpacing">;

/** A law of clogging fitted to trials. */
export interface CloggingFit {
  readonly method: string;
  readonly level: number;
  /** To hand to `clogging.lossFactor` as they are. */
  readonly coefficients: CloggingCoefficients;
  /** The same with standard errors and intervals; without those that no trial can tell. */
  readonly parameters: readonly CurveParameter[];
  /** Standard deviation of ln(k − 1) from one trial to the next beyond the readings' errors: how the debris happens to lie. */
  readonly debrisSpread: number;
  /** From the least to the most, in kg/m² and as lengths. */
  readonly range: {
    readonly load: readonly [number, number];
    readonly clearSpacing: readonly [Length, Length];
  };
  readonly trials: readonly FittedTrial[];
  readonly degreesOfFreedom: number;
  /** Against the scatter of repeats; undefined where nothing was repeated. */
  readonly lackOfFit: LackOfFit | undefined;
  /** Of ln k. */
  readonly fit: LeastSquaresFit<CloggingPlace>;
  readonly cautions: readonly string[];
}

/** ln k of the law; not a number where the law has none. */
const model = (parameters: Readonly<Record<string, number>>, place: CloggingPlace): number => {
  const { scale, loadExponent, spacingExponent = 0 } = parameters;
  const { debrisMass, rackArea, clearSpacing } = place;
  // One plain object: spreading the place costs more than the law itself, which a fit asks for very often.
  return Math.log(
    lossFactor.evaluate({ debrisMass, rackArea, clearSpacing, scale, loadExponent, spacingExponent }),
  );
};

/** The share of ln k that goes with k − 1: what debris that lies badly moves. */
const leaning = (logFactor: number): number => 1 - Math.exp(-logFactor);

/**
 * Fits the law k = 1 + C (load / 1 kg/m²)^e (20 mm / b)^n to measured loss factors, by weighted nonlinear least squares.
 *
 * Fits ln k, so that a factor of 10 and one of 2 count alike. The variance of a trial is that of its readings and that of how the
 * debris lies, which the fit finds from the trials' own scatter. Returns coefficients with errors and intervals, the spread of
 * the debris, residuals, the tested range and a test of lack of fit against repeats. Where all trials have one spacing, its
 * exponent is 0 and a caution says so. Valid for independent trials, and within their loads and spacings. Throws a RangeError for
 * trials that can't be, too few of them, and coefficients that the trials can't tell apart.
 *
 * @example
 * clogging.fitLaw([12, 18, 25].flatMap((spacing) => [0.2, 0.4, 0.8, 1.6].map((load, at) => ({
 *   clearSpacing: u.mm(spacing), rackArea: u.m2(1), debrisMass: u.kg(load),
 *   lossFactor: clogging.lossFactor({ clearSpacing: u.mm(spacing), rackArea: u.m2(1), debrisMass: u.kg(load), scale: 6,
 *     loadExponent: 1.3, spacingExponent: 0.5 }) * (at % 2 === 0 ? 1.05 : 0.95),
 * })))).coefficients.loadExponent // => 1.2486
 */
export function fitLaw(
  trials: readonly MeasuredFactor[],
  { level = 0.95 }: { readonly level?: number } = {},
): CloggingFit {
  checkFactors(caller, trials);
  noteUse(lossFactor.id);
  const spacings = new Set(trials.map(({ clearSpacing }) => Math.round(clearSpacing * 1e7)));
  const oneSpacing = spacings.size === 1;
  const data = {
    x: trials.map(({ debrisMass, rackArea, clearSpacing }): CloggingPlace => ({
      debrisMass,
      rackArea,
      clearSpacing,
    })),
    y: trials.map((trial) => Math.log(trial.lossFactor)),
    readings: trials.map(({ relativeError = 0 }) => relativeError ** 2),
    start: { scale: 5, loadExponent: 1, ...(oneSpacing ? {} : { spacingExponent: 0 }) },
    level,
  };
  const { fit, spread } = withSpread(data);
  const { scale, loadExponent, spacingExponent = 0 } = fit.estimates as Readonly<Record<string, number>>; // the names of the start
  if (!(scale > 0)) {
    throw new RangeError(
      `${caller}: the scale comes out as ${scale.toPrecision(3)}; debris that lowers the head loss is none. Check loads and losses.`,
    );
  }
  const loads = trials.map(({ debrisMass, rackArea }) => debrisMass / rackArea);
  const gaps = trials.map(({ clearSpacing }) => clearSpacing);
  const repeated = groupsOf(trials);
  return {
    method: `${fit.method}; ln of the loss factor, weights from ${
      trials.every(({ relativeError }) => relativeError !== undefined) ? "the readings' errors and " : ""
    }the spread of the debris`,
    level,
    coefficients: { scale, loadExponent, spacingExponent },
    parameters: fit.parameters,
    debrisSpread: spread,
    range: {
      load: [Math.min(...loads), Math.max(...loads)],
      clearSpacing: [u.m(Math.min(...gaps)), u.m(Math.max(...gaps))],
    },
    trials: trials.map((trial, at) => ({
      ...trial,
      load: loads[at],
      predicted: Math.exp(fit.fitted[at]),
      standardizedResidual: fit.standardizedResiduals[at],
    })),
    degreesOfFreedom: fit.degreesOfFreedom,
    lackOfFit: repeated && lackOfFit(fit, repeated),
    fit,
    cautions: oneSpacing
      ? [`${caller}: all trials have one spacing; spacingExponent 0 stands for what was not measured.`]
      : [],
  };
}

interface SpreadData {
  readonly x: readonly CloggingPlace[];
  readonly y: readonly number[];
  readonly readings: readonly number[];
  readonly start: Readonly<Record<string, number>>;
  readonly level: number;
}

/** Fit and spread belong to each other: the weights need the spread, the spread the fit. Some turns settle both. */
function withSpread({ x, y, readings, start, level }: SpreadData) {
  const weightsAt = (logFactors: readonly number[], spread: number) =>
    logFactors.map((value, at) => 1 / (readings[at] + (spread * leaning(value)) ** 2));
  let fit = fitLeastSquares({ x, y, model, start, level });
  let spread = 0.1;
  for (let turn = 0; turn < 30; turn++) {
    const before = spread;
    spread = spreadOf(fit, readings, start);
    fit = fitLeastSquares({
      x,
      y,
      model,
      start: fit.estimates,
      weights: weightsAt(fit.fitted, Math.max(spread, leastSpread)),
      level,
    });
    if (Math.abs(spread - before) < 1e-4) break;
  }
  return { fit, spread };
}

/** A spread that no trial could tell from none; it keeps the weights finite where no reading error is known. */
const leastSpread = 1e-6;

/** The spread that makes the residuals as large as they should be; 0 where the readings' errors alone explain them. */
function spreadOf(
  { fitted, residuals }: Pick<LeastSquaresFit<CloggingPlace>, "fitted" | "residuals">,
  readings: readonly number[],
  start: Readonly<Record<string, number>>,
): number {
  const freedom = residuals.length - Object.keys(start).length;
  const excess = (spread: number): number =>
    residuals.reduce(
      (sum, residual, at) => sum + residual ** 2 / (readings[at] + (spread * leaning(fitted[at])) ** 2),
      0,
    ) - freedom;
  if (excess(leastSpread) <= 0) return 0;
  let high = 1;
  while (excess(high) > 0 && high < 1e6) high *= 4;
  return rootBetween(excess, leastSpread, high);
}

/** A word for each trial, the same for those that repeat each other; undefined where nothing was repeated. */
function groupsOf(trials: readonly MeasuredFactor[]): readonly string[] | undefined {
  const groups = trials.map(({ configuration }, at) => configuration ?? `trial ${at}`);
  return new Set(groups).size < groups.length ? groups : undefined;
}
