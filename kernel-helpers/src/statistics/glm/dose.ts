import { checkLevel, checkNumber, refuse } from "../checks";
import { rowAt, type Term, type TermValues } from "./design";
import { type ErrorKind, errorScale } from "./errorScale";
import type { BinomialFit } from "./fitBinomial";
import { linkOf } from "./link";
import { covarianceOf, type Estimated } from "./predict";

const where = "statistics.dose";

/** The value of a covariate at which a fit reaches a response. */
export interface Dose extends Estimated {
  readonly method: string;
  readonly level: number;
  readonly covariate: string;
  readonly response: number;
  /**
   * Fieller's interval: the values at which the response asked for is not contradicted. Undefined where the slope itself
   * may be 0 at this level, since no finite interval exists then.
   */
  readonly fieller: { readonly lower: number; readonly upper: number } | undefined;
  readonly cautions: readonly string[];
}

/**
 * The value of a covariate at which a binomial regression reaches a response, such as the width at which half of the
 * fish are protected.
 *
 * Returns the value in the covariate's own unit, with the delta method's standard error and interval and with Fieller's
 * interval. `at` holds the values of the other terms. Values outside the fitted ones are answered with a caution. Throws a
 * RangeError where the response does not lie between 0 and 1, the covariate is no covariate of the fit, or another term
 * has no value.
 *
 * @example
 * statistics.dose(
 *   statistics.fitBinomial({
 *     successes: [2, 8, 15, 23, 27],
 *     trials: [30, 30, 30, 30, 30],
 *     terms: { concentration: [0, 1, 2, 3, 4] },
 *     link: "logit",
 *   }),
 *   { response: 0.9, covariate: "concentration" },
 * ).estimate // => 3.891070
 */
export function dose(
  fit: BinomialFit,
  {
    response,
    covariate,
    at = {},
    level = 0.95,
    errors = "binomial",
  }: {
    readonly response: number;
    readonly covariate: string;
    readonly at?: TermValues;
    readonly level?: number;
    readonly errors?: ErrorKind;
  },
): Dose {
  checkNumber(where, "response", response, { above: 0, below: 1 });
  checkLevel(where, level);
  const column = columnOf(fit.terms, fit, covariate);
  if (Object.hasOwn(at, covariate))
    refuse(where, `at gives ${covariate}, the covariate that is asked for; leave it out`);
  const { factor, reach, words } = errorScale(where, fit, errors, level);
  const others = rowAt(where, fit.terms, { ...at, [covariate]: 0 });
  const target = linkOf(where, fit.link).ofShare(response, 1 - response);
  const slope = fit.coefficients[column].estimate;
  const offset =
    others.reduce((sum, value, index) => sum + value * fit.coefficients[index].estimate, 0) - target;
  const estimate = -offset / slope;

  // Along the fit, offset + estimate · slope = 0; its variance over slope² is the delta method's.
  const along = others.map((value, index) => (index === column ? estimate : value));
  const standardError = (factor * Math.sqrt(covarianceOf(fit.covariance, along, along))) / Math.abs(slope);
  const fieller = fiellerInterval({
    offset,
    slope,
    offsetVariance: factor ** 2 * covarianceOf(fit.covariance, others, others),
    slopeVariance: factor ** 2 * fit.covariance.get(column, column),
    covariance: factor ** 2 * covarianceOf(fit.covariance, others, unit(others.length, column)),
    reach,
  });
  return {
    method: `delta method, ${words}`,
    level,
    covariate,
    response,
    estimate,
    standardError,
    lower: estimate - reach * standardError,
    upper: estimate + reach * standardError,
    fieller,
    cautions: cautionsOf(fit, column, covariate, estimate, fieller === undefined),
  };
}

function columnOf(terms: readonly Term[], fit: BinomialFit, covariate: string): number {
  const term = terms.find(({ name }) => name === covariate);
  if (term?.kind === "covariate") return fit.coefficients.findIndex(({ name }) => name === covariate);
  const covariates = terms.filter(({ kind }) => kind === "covariate").map(({ name }) => `"${name}"`);
  return refuse(
    where,
    `covariate is "${covariate}"; it must be one of the fit's covariates: ${covariates.join(", ") || "it has none"}`,
  );
}

const unit = (length: number, at: number): number[] =>
  Array.from({ length }, (_, index) => (index === at ? 1 : 0));

/** The values x for which (offset + x · slope)² ≤ reach² times its variance; undefined where they have no end. */
function fiellerInterval({
  offset,
  slope,
  offsetVariance,
  slopeVariance,
  covariance,
  reach,
}: {
  readonly offset: number;
  readonly slope: number;
  readonly offsetVariance: number;
  readonly slopeVariance: number;
  readonly covariance: number;
  readonly reach: number;
}): { readonly lower: number; readonly upper: number } | undefined {
  const square = slope ** 2 - reach ** 2 * slopeVariance;
  if (!(square > 0)) return undefined;
  const half = offset * slope - reach ** 2 * covariance;
  const constant = offset ** 2 - reach ** 2 * offsetVariance;
  const root = Math.sqrt(Math.max(0, half ** 2 - square * constant));
  return { lower: (-half - root) / square, upper: (-half + root) / square };
}

function cautionsOf(
  fit: BinomialFit,
  column: number,
  covariate: string,
  estimate: number,
  slopeMayBeNone: boolean,
): readonly string[] {
  const values = fit.design.getColumn(column).filter((_, row) => fit.trials[row] > 0);
  const least = values.reduce((low, value) => Math.min(low, value), Infinity);
  const most = values.reduce((high, value) => Math.max(high, value), -Infinity);
  const outside = estimate < least || estimate > most;
  return [
    ...(outside
      ? [`${covariate} was fitted from ${least} to ${most}; ${estimate.toPrecision(4)} lies outside.`]
      : []),
    ...(slopeMayBeNone
      ? [`The slope with ${covariate} is not told from 0 at this level, so the value has no finite interval.`]
      : []),
  ];
}
