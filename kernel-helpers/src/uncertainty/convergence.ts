import { meanOfShifts, momentsOf, quantilesOf } from "./quantiles";

/** The estimates after some of the draws, each with its standard error. */
export interface Convergence {
  readonly draws: number;
  readonly mean: number;
  readonly meanError: number;
  readonly standardDeviation: number;
  readonly standardDeviationError: number;
  readonly lower: number;
  readonly lowerError: number;
  readonly upper: number;
  readonly upperError: number;
}

/** The fewest points of one shift from which quantiles are told. */
const fewest = 32;

/** Running estimates: each doubles the draws of the one before, the last takes them all. */
export function convergenceOf(parts: readonly Float64Array[], level: number): readonly Convergence[] {
  const all = parts[0].length;
  const steps: number[] = [];
  for (let points = fewest; points < all; points *= 2) steps.push(points);
  steps.push(all);
  return steps.map((points) => {
    const taken = parts.map((part) => part.slice(0, points));
    const moments = taken.map(momentsOf);
    const ends = taken.map((part) => quantilesOf(part, [(1 - level) / 2, (1 + level) / 2]));
    const mean = meanOfShifts(moments.map((one) => one.mean));
    const deviation = meanOfShifts(moments.map((one) => one.standardDeviation));
    const lower = meanOfShifts(ends.map(([low]) => low));
    const upper = meanOfShifts(ends.map(([, high]) => high));
    return {
      draws: points * parts.length,
      mean: mean.value,
      meanError: mean.standardError,
      standardDeviation: deviation.value,
      standardDeviationError: deviation.standardError,
      lower: lower.value,
      lowerError: lower.standardError,
      upper: upper.value,
      upperError: upper.standardError,
    };
  });
}
