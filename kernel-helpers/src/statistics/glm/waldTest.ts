import { inverse, Matrix } from "ml-matrix";
import { refuse } from "../checks";
import { betaCdf, chiSquareTail } from "../distributions";
import type { GroupTest } from "../clustering/raoScottComparison";
import { columnNames } from "./design";
import type { BinomialFit } from "./fitBinomial";

/** Whether a term has any effect, by its coefficients and their covariance. */
export interface WaldTest extends GroupTest {
  readonly method: string;
  readonly term: string;
}

/**
 * Wald's test that a term of a binomial regression has no effect: all its coefficients together.
 *
 * Returns the statistic with its p-value: chi-square for a fit with binomial errors; for one with cluster-robust errors
 * the statistic per coefficient against F with G − 1 degrees of freedom. Throws a RangeError for a term that the fit does
 * not have.
 *
 * @example
 * statistics.waldTest(statistics.fitBinomial({ successes: [2, 8, 15, 23, 27], trials: [30, 30, 30, 30, 30],
 *   terms: { concentration: [0, 1, 2, 3, 4] }, link: "logit" }), "concentration").degreesOfFreedom // => 1
 */
export function waldTest(fit: BinomialFit, term: string): WaldTest {
  const where = "statistics.waldTest";
  const found = fit.terms.find(({ name }) => name === term);
  if (found === undefined) {
    const names = fit.terms.map(({ name }) => name).join(", ");
    return refuse(where, `the fit has no term ${term}; its terms: ${names || "none"}`);
  }
  const names = columnNames(found);
  const columns = fit.coefficients.flatMap(({ name }, at) => (names.includes(name) ? [at] : []));
  const estimates = Matrix.columnVector(columns.map((at) => fit.coefficients[at].estimate));
  const precision = inverse(fit.covariance.selection(columns, columns));
  const statistic = estimates.transpose().mmul(precision).mmul(estimates).get(0, 0);
  const degreesOfFreedom = columns.length;
  if (fit.clusters === undefined) {
    const pValue = chiSquareTail(statistic, { degreesOfFreedom });
    return { method: "Wald's test, chi-square distribution", term, statistic, degreesOfFreedom, pValue };
  }
  const rest = fit.clusters - 1;
  return {
    method: `Wald's test, cluster-robust, F distribution with ${degreesOfFreedom} and ${rest} degrees of freedom`,
    term,
    statistic: statistic / degreesOfFreedom,
    degreesOfFreedom,
    pValue: betaCdf(rest / (rest + statistic), { alpha: rest / 2, beta: degreesOfFreedom / 2 }),
  };
}
