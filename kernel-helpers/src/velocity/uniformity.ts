import { checkNumber, refuse } from "../statistics/checks";

/** How even a row of velocities is. */
export interface Uniformity {
  readonly count: number;
  readonly mean: number;
  readonly lowest: number;
  readonly highest: number;
  readonly standardDeviation: number;
  /** Standard deviation over the mean; this and the next two are undefined where the mean is not above 0. */
  readonly coefficientOfVariation: number | undefined;
  readonly highestOverMean: number | undefined;
  readonly lowestOverMean: number | undefined;
}

/**
 * How even velocities are along a rack or over a section.
 *
 * Returns mean, extremes, the coefficient of variation (standard deviation with n − 1, over the mean) and the extremes over
 * the mean; those are undefined where the mean is not above 0. Valid for values at even distances: each counts as much as
 * another. Throws a RangeError for fewer than two
 * values and one that is no number.
 *
 * @example
 * velocity.uniformity([0.4, 0.5, 0.6]).coefficientOfVariation // => 0.2
 */
export function uniformity(values: readonly number[]): Uniformity {
  const where = "velocity.uniformity";
  if (values.length < 2) refuse(where, `there are ${values.length} values; give at least 2`);
  values.forEach((value, at) => checkNumber(where, `value ${at + 1}`, value));
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  const lowest = values.reduce((low, value) => Math.min(low, value));
  const highest = values.reduce((high, value) => Math.max(high, value));
  const standardDeviation = Math.sqrt(squares / (values.length - 1));
  // Of values that are 0 on the whole, rounding leaves a mean of 1e-17 behind.
  const some = mean > 1e-12 * Math.max(Math.abs(lowest), Math.abs(highest));
  const overMean = (value: number): number | undefined => (some ? value / mean : undefined);
  return {
    count: values.length,
    mean,
    lowest,
    highest,
    standardDeviation,
    coefficientOfVariation: overMean(standardDeviation),
    highestOverMean: overMean(highest),
    lowestOverMean: overMean(lowest),
  };
}
