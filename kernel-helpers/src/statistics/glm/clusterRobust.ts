import { Matrix } from "ml-matrix";
import { refuse } from "../checks";
import { betaCdf } from "../distributions";
import type { BinomialFit } from "./fitBinomial";
import { linkOf } from "./link";

const where = "statistics.clusterRobust";

/**
 * The same fit with errors that hold where the rows of a cluster hang together, such as the fish of one run.
 *
 * Returns the fit with the covariance of Liang & Zeger 1986 (Biometrika 73:13): the spread of the clusters' scores between
 * the inverse information, times G/(G − 1) for G clusters; p-values and the intervals of `predict` and `dose` take
 * Student's t with G − 1 degrees of freedom. Coefficients and deviance stay as they were; there is no quasi-likelihood
 * error and no likelihood-ratio test: `waldTest` takes its place. `clusters` names the cluster of each row. Valid for
 * independent clusters, about 40 or more: few make the errors too small. Throws a RangeError where the names don't go with
 * the rows, and where there are no more clusters than coefficients.
 *
 * @example
 * statistics.clusterRobust(
 *   statistics.fitBinomial({ successes: [2, 8, 15, 23, 27], trials: [30, 30, 30, 30, 30],
 *     terms: { concentration: [0, 1, 2, 3, 4] }, link: "logit" }),
 *   ["a", "b", "c", "d", "e"],
 * ).coefficients[1].standardError // => 0.0636360
 */
export function clusterRobust(fit: BinomialFit, clusters: readonly string[]): BinomialFit {
  if (clusters.length !== fit.trials.length) {
    refuse(
      where,
      `clusters has ${clusters.length} names and the fit ${fit.trials.length} rows; each row needs one`,
    );
  }
  const scores = scoresByCluster(fit, clusters);
  const [count, columns] = [scores.length, fit.coefficients.length];
  if (count <= columns) {
    refuse(
      where,
      `there are ${count} clusters with trials for ${columns} coefficients; their errors need more clusters`,
    );
  }
  const matrix = new Matrix(scores);
  const meat = matrix
    .transpose()
    .mmul(matrix)
    .mul(count / (count - 1));
  const covariance = fit.covariance.mmul(meat).mmul(fit.covariance);
  const degreesOfFreedom = count - 1;
  return {
    ...fit,
    method: `${fit.method}; cluster-robust errors of ${count} clusters`,
    covariance,
    clusters: count,
    coefficients: fit.coefficients.map(({ name, estimate }, at) => {
      const standardError = Math.sqrt(covariance.get(at, at));
      return {
        name,
        estimate,
        standardError,
        quasiStandardError: undefined,
        pValue: twoSided(estimate / standardError, degreesOfFreedom),
      };
    }),
  };
}

/** The probability that Student's t lies at least as far from 0, either way. */
const twoSided = (value: number, degreesOfFreedom: number): number =>
  betaCdf(degreesOfFreedom / (degreesOfFreedom + value ** 2), { alpha: degreesOfFreedom / 2, beta: 0.5 });

/** For each cluster the slope of its log-likelihood at the fit, one entry a coefficient. */
function scoresByCluster(fit: BinomialFit, clusters: readonly string[]): number[][] {
  const link = linkOf(where, fit.link);
  const estimates = fit.coefficients.map(({ estimate }) => estimate);
  const sums = new Map<string, number[]>();
  clusters.forEach((cluster, row) => {
    const trials = fit.trials[row];
    if (trials === 0) return;
    const values = fit.design.getRow(row);
    const { share, rest, slope } = link.at(
      values.reduce((sum, value, column) => sum + value * estimates[column], 0),
    );
    const residual = ((fit.successes[row] - trials * share) * slope) / (share * rest);
    const sum = sums.get(cluster) ?? values.map(() => 0);
    sums.set(
      cluster,
      sum.map((so, column) => so + residual * values[column]),
    );
  });
  return [...sums.values()];
}
