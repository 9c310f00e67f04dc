// Types only: an import of the functions themselves would load them with the module.
import type betaCdf from "@stdlib/stats-base-dists-beta-cdf";
import type betaQuantile from "@stdlib/stats-base-dists-beta-quantile";
import type chiSquareCdf from "@stdlib/stats-base-dists-chisquare-cdf";
import type chiSquareQuantile from "@stdlib/stats-base-dists-chisquare-quantile";
import type logBeta from "@stdlib/math-base-special-betaln";
import type normalCdf from "@stdlib/stats-base-dists-normal-cdf";
import type normalQuantile from "@stdlib/stats-base-dists-normal-quantile";
import type studentQuantile from "@stdlib/stats-base-dists-t-quantile";
import type { levenbergMarquardt } from "ml-levenberg-marquardt" with { "resolution-mode": "import" };

/** What is used of the library of the low-discrepancy sequence, which comes without types. */
export interface SobolGenerator {
  /** The next point, one coordinate a dimension, each from 0 (included) to 1. */
  readonly nextVector: () => readonly number[];
}

/** Loads a function when it is first called. */
function whenCalled<In extends readonly number[]>(
  load: () => (...numbers: In) => number,
): (...numbers: In) => number {
  let loaded: ((...numbers: In) => number) | undefined;
  return (...numbers) => {
    loaded ??= load();
    return loaded(...numbers);
  };
}

/**
 * The distribution functions of the library, loaded one by one when first called: together they would take half of the
 * time in which the module loads, and most notebooks call none of them.
 */
export const library = {
  betaCdf: whenCalled<[number, number, number]>(
    () => require("@stdlib/stats-base-dists-beta-cdf") as typeof betaCdf,
  ),
  betaQuantile: whenCalled<[number, number, number]>(
    () => require("@stdlib/stats-base-dists-beta-quantile") as typeof betaQuantile,
  ),
  chiSquareCdf: whenCalled<[number, number]>(
    () => require("@stdlib/stats-base-dists-chisquare-cdf") as typeof chiSquareCdf,
  ),
  chiSquareQuantile: whenCalled<[number, number]>(
    () => require("@stdlib/stats-base-dists-chisquare-quantile") as typeof chiSquareQuantile,
  ),
  /** One or more steps of least squares; an ES module, which `require` loads as well. */
  levenbergMarquardt: (...given: Parameters<typeof levenbergMarquardt>) => {
    const { levenbergMarquardt: fit } = require("ml-levenberg-marquardt") as {
      readonly levenbergMarquardt: typeof levenbergMarquardt;
    };
    return fit(...given);
  },
  /** Natural logarithm of the beta function. */
  logBeta: whenCalled<[number, number]>(() => require("@stdlib/math-base-special-betaln") as typeof logBeta),
  normalCdf: whenCalled<[number, number, number]>(
    () => require("@stdlib/stats-base-dists-normal-cdf") as typeof normalCdf,
  ),
  normalQuantile: whenCalled<[number, number, number]>(
    () => require("@stdlib/stats-base-dists-normal-quantile") as typeof normalQuantile,
  ),
  /** A sequence of points in so many dimensions; reads its table of directions from a file when made. */
  sobolGenerator: (dimensions: number): SobolGenerator => {
    const { SobolSequenceGenerator } = require("sobol") as {
      readonly SobolSequenceGenerator: new (dimensions: number) => SobolGenerator;
    };
    return new SobolSequenceGenerator(dimensions);
  },
  studentQuantile: whenCalled<[number, number]>(
    () => require("@stdlib/stats-base-dists-t-quantile") as typeof studentQuantile,
  ),
};
