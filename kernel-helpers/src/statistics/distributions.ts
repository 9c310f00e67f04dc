import { checkNumber } from "./checks";
import { library } from "./library";

/** The two shape parameters of a beta distribution. */
export interface BetaShape {
  readonly alpha: number;
  readonly beta: number;
}

/** Degrees of freedom; they need not be whole. */
export interface Freedom {
  readonly degreesOfFreedom: number;
}

const share = { atLeast: 0, atMost: 1 };

/**
 * The value that a standard normal variable stays below with this probability.
 *
 * Returns a plain number; −Infinity at 0 and Infinity at 1. Throws a RangeError for a probability outside 0..1.
 *
 * @example
 * statistics.normalQuantile(0.975) // => 1.959964
 */
export function normalQuantile(probability: number): number {
  checkNumber("statistics.normalQuantile", "probability", probability, share);
  return library.normalQuantile(probability, 0, 1);
}

/**
 * The probability that a standard normal variable stays at or below a value.
 *
 * Returns a probability 0..1. Throws a RangeError for a value that is not finite.
 *
 * @example
 * statistics.normalCdf(1.96) // => 0.9750021
 */
export function normalCdf(value: number): number {
  checkNumber("statistics.normalCdf", "value", value);
  return library.normalCdf(value, 0, 1);
}

/**
 * The share that a beta-distributed share stays below with this probability.
 *
 * Returns a share 0..1. Throws a RangeError for a probability outside 0..1 and shape parameters that are not above 0.
 *
 * @example
 * statistics.betaQuantile(0.025, { alpha: 7, beta: 44 }) // => 0.05819170
 */
export function betaQuantile(probability: number, { alpha, beta }: BetaShape): number {
  const where = "statistics.betaQuantile";
  checkNumber(where, "probability", probability, share);
  checkNumber(where, "alpha", alpha, { above: 0 });
  checkNumber(where, "beta", beta, { above: 0 });
  return library.betaQuantile(probability, alpha, beta);
}

/**
 * The probability that a beta-distributed share stays at or below a share.
 *
 * Returns a probability 0..1. Throws a RangeError for a share outside 0..1 and shape parameters that are not above 0.
 *
 * @example
 * statistics.betaCdf(0.3, { alpha: 2, beta: 3 }) // => 0.3483
 */
export function betaCdf(value: number, { alpha, beta }: BetaShape): number {
  const where = "statistics.betaCdf";
  checkNumber(where, "value", value, share);
  checkNumber(where, "alpha", alpha, { above: 0 });
  checkNumber(where, "beta", beta, { above: 0 });
  return library.betaCdf(value, alpha, beta);
}

/**
 * The value that a chi-square variable stays below with this probability.
 *
 * Returns a plain number of at least 0; Infinity at 1. Throws a RangeError for a probability outside 0..1 and degrees of
 * freedom that are not above 0.
 *
 * @example
 * statistics.chiSquareQuantile(0.95, { degreesOfFreedom: 1 }) // => 3.841459
 */
export function chiSquareQuantile(probability: number, { degreesOfFreedom }: Freedom): number {
  const where = "statistics.chiSquareQuantile";
  checkNumber(where, "probability", probability, share);
  checkNumber(where, "degreesOfFreedom", degreesOfFreedom, { above: 0 });
  return library.chiSquareQuantile(probability, degreesOfFreedom);
}

/**
 * The probability that a chi-square variable stays at or below a value.
 *
 * Returns a probability 0..1. Throws a RangeError for a negative value and degrees of freedom that are not above 0.
 *
 * @example
 * statistics.chiSquareCdf(3.841459, { degreesOfFreedom: 1 }) // => 0.9500000
 */
export function chiSquareCdf(value: number, { degreesOfFreedom }: Freedom): number {
  const where = "statistics.chiSquareCdf";
  checkNumber(where, "value", value, { atLeast: 0 });
  checkNumber(where, "degreesOfFreedom", degreesOfFreedom, { above: 0 });
  return library.chiSquareCdf(value, degreesOfFreedom);
}

/**
 * The p-value of a chi-square statistic: the probability of a larger one by chance alone.
 *
 * Returns a probability 0..1, good to 1e-15: a smaller one comes as about 0. Throws a RangeError for a negative statistic
 * and degrees of freedom that are not above 0.
 *
 * @example
 * statistics.chiSquareTail(3.841459, { degreesOfFreedom: 1 }) // => 0.0500000
 */
export function chiSquareTail(value: number, { degreesOfFreedom }: Freedom): number {
  const where = "statistics.chiSquareTail";
  checkNumber(where, "value", value, { atLeast: 0 });
  checkNumber(where, "degreesOfFreedom", degreesOfFreedom, { above: 0 });
  return Math.max(0, 1 - library.chiSquareCdf(value, degreesOfFreedom));
}

/**
 * The value that a variable of Student's t distribution stays below with this probability.
 *
 * Returns a plain number; −Infinity at 0 and Infinity at 1. Throws a RangeError for a probability outside 0..1 and degrees
 * of freedom that are not above 0.
 *
 * @example
 * statistics.studentQuantile(0.975, { degreesOfFreedom: 10 }) // => 2.228139
 */
export function studentQuantile(probability: number, { degreesOfFreedom }: Freedom): number {
  const where = "statistics.studentQuantile";
  checkNumber(where, "probability", probability, share);
  checkNumber(where, "degreesOfFreedom", degreesOfFreedom, { above: 0 });
  return library.studentQuantile(probability, degreesOfFreedom);
}
