import type { Matrix } from "ml-matrix";
import { checkLevel } from "../checks";
import { rowAt, type TermValues } from "./design";
import { type ErrorKind, errorScale } from "./errorScale";
import type { BinomialFit } from "./fitBinomial";
import { linkOf } from "./link";

/** An estimate with its error and interval. */
export interface Estimated {
  readonly estimate: number;
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
}

export interface Prediction {
  readonly method: string;
  readonly level: number;
  /** The share of successes. */
  readonly response: Estimated;
  /** The same on the scale of the link, on which the effects add up. */
  readonly link: Estimated;
}

/** Returns a′ · covariance · b. */
export function covarianceOf(covariance: Matrix, a: readonly number[], b: readonly number[]): number {
  return a.reduce(
    (sum, left, row) =>
      sum + left * b.reduce((inner, right, column) => inner + right * covariance.get(row, column), 0),
    0,
  );
}

/**
 * The share of successes that a binomial regression expects at stated values of its terms.
 *
 * Returns the share and its value on the scale of the link, each with standard error and interval. The interval is built
 * on the scale of the link and carried over, so that it stays within 0..1; the share's standard error is the delta
 * method's. Valid within the values that were fitted. Throws a RangeError where a term has no value, a value is unknown,
 * or the level does not lie between 0 and 1.
 *
 * @example
 * statistics.predict(
 *   statistics.fitBinomial({
 *     successes: [2, 8, 15, 23, 27],
 *     trials: [30, 30, 30, 30, 30],
 *     terms: { concentration: [0, 1, 2, 3, 4] },
 *     link: "logit",
 *   }),
 *   { at: { concentration: 2.5 } },
 * ).response.estimate // => 0.6412854
 */
export function predict(
  fit: BinomialFit,
  {
    at,
    level = 0.95,
    errors = "binomial",
  }: { readonly at: TermValues; readonly level?: number; readonly errors?: ErrorKind },
): Prediction {
  const where = "statistics.predict";
  checkLevel(where, level);
  const { factor, reach, words } = errorScale(where, fit, errors, level);
  const link = linkOf(where, fit.link);
  const row = rowAt(where, fit.terms, at);
  const estimate = row.reduce((sum, value, column) => sum + value * fit.coefficients[column].estimate, 0);
  const standardError = factor * Math.sqrt(covarianceOf(fit.covariance, row, row));
  const [lower, upper] = [estimate - reach * standardError, estimate + reach * standardError];
  const { share, slope } = link.at(estimate);
  return {
    method: `interval on the ${fit.link} scale, ${words}`,
    level,
    response: {
      estimate: share,
      standardError: slope * standardError,
      lower: link.at(lower).share,
      upper: link.at(upper).share,
    },
    link: { estimate, standardError, lower, upper },
  };
}
