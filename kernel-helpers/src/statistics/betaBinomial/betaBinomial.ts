import { checkLevel, refuse } from "../checks";
import { allAlike, checkClusters, type Cluster, pooled } from "../clustering/cluster";
import { chiSquareQuantile } from "../distributions";
import type { Interval } from "../proportion";
import { rootBetween } from "../root";
import { slopesAt, type Tallies, talliesOf } from "./likelihood";
import { bestMean, type CommonFit, fitCommon, greatest, standardErrors } from "./maximum";

/** How the fit ended: at a maximum inside the ranges of both parameters, or at an end. */
export type BetaBinomialStatus =
  | "maximum inside"
  | "no spread beyond the binomial: the intra-class correlation is at 0"
  | "every cluster all or nothing: the intra-class correlation is at 1"
  | "every trial alike: the intra-class correlation is unknown";

/** A fitted parameter with its standard error and its profile-likelihood interval. */
export interface FittedParameter extends Interval<"profile likelihood"> {
  /** From the observed information; undefined at an end of the parameter's range. */
  readonly standardError: number | undefined;
}

/** A beta-binomial distribution fitted to clusters. */
export interface BetaBinomialFit {
  readonly method: "beta-binomial maximum likelihood";
  readonly status: BetaBinomialStatus;
  /** The share of a cluster on average. */
  readonly mean: FittedParameter;
  /** How alike two trials of one cluster are, 0 to 1; undefined where every trial ended the same way. */
  readonly intraclassCorrelation: FittedParameter | undefined;
  readonly logLikelihood: number;
  readonly clusters: number;
  readonly successes: number;
  readonly trials: number;
}

/** What an end of ρ means, in words. */
export const statusOf = (at: CommonFit["at"]): BetaBinomialStatus =>
  at === "inside"
    ? "maximum inside"
    : at === "lower end"
      ? "no spread beyond the binomial: the intra-class correlation is at 0"
      : "every cluster all or nothing: the intra-class correlation is at 1";

/** Refuses clusters of one trial each: they say nothing about ρ. */
export function checkSizes(where: string, clusters: readonly Cluster[]): void {
  if (clusters.every((one) => one.trials === 1))
    refuse(where, "every cluster has one trial; the intra-class correlation needs clusters of at least 2");
}

/**
 * Beta-binomial distribution fitted to clusters by maximum likelihood: each cluster has a share of its own, drawn from a
 * beta distribution.
 *
 * Returns the mean share and the intra-class correlation ρ = 1/(α + β + 1) with standard errors from the observed
 * information and profile-likelihood intervals, and how the fit ended. A ρ at 0 or 1 is reported as such and has no
 * standard error; the mean's is then that of the fixed ρ. Where every trial ended the same way only the mean's interval is
 * given, over all ρ. Valid for independent clusters whose spread is at least binomial. Throws a RangeError for fewer than
 * two clusters, for clusters of one trial each, for a level outside 0..1, and where the search finds no maximum.
 *
 * @example
 * statistics.betaBinomial({ clusters: [{ successes: 4, trials: 4 }, { successes: 3, trials: 4 },
 *   { successes: 1, trials: 4 }, { successes: 4, trials: 4 }] }).mean.estimate // => 0.755
 */
export function betaBinomial(options: {
  readonly clusters: readonly Cluster[];
  readonly level?: number;
}): BetaBinomialFit {
  const where = "statistics.betaBinomial";
  const { clusters, level = 0.95 } = options;
  checkClusters(where, "clusters", clusters);
  checkSizes(where, clusters);
  checkLevel(where, level);
  const tallies = talliesOf(clusters);
  const alike = allAlike(clusters);
  const fit = alike ? fitAlike(tallies) : fitCommon([tallies]);
  if (fit === undefined) return refuse(where, "the search found no maximum of the likelihood");
  const errors = standardErrors([tallies], fit);
  const [mean = Number.NaN] = fit.means;
  const drop = chiSquareQuantile(level, { degreesOfFreedom: 1 }) / 2;
  const parameter = (
    estimate: number,
    standardError: number | undefined,
    profile: (at: number) => number,
  ): FittedParameter => ({
    estimate,
    ...ends(profile, estimate, fit.logLikelihood - drop),
    standardError,
    level,
    method: "profile likelihood",
  });
  return {
    method: "beta-binomial maximum likelihood",
    status: alike ? "every trial alike: the intra-class correlation is unknown" : statusOf(fit.at),
    mean: parameter(mean, errors.means[0], (at) => profileOfMean(where, tallies, at)),
    intraclassCorrelation: alike
      ? undefined
      : parameter(
          fit.correlation,
          errors.correlation,
          (at) => slopesAt(tallies, bestMean(tallies, at), at).value,
        ),
    logLikelihood: fit.logLikelihood,
    clusters: clusters.length,
    ...pooled(clusters),
  };
}

// Trials that all end the same way are certain at a mean of 0 or 1, whatever ρ is: there is nothing to search for.
const fitAlike = (tallies: Tallies): CommonFit => ({
  means: [bestMean(tallies, 0)],
  correlation: 0,
  logLikelihood: 0,
  at: "lower end",
});

function profileOfMean(where: string, tallies: Tallies, mean: number): number {
  // One success rules a mean of 0 out, one failure a mean of 1; without it such a mean makes the trials certain.
  if (mean === 0) return tallies.successes.length > 0 ? -Infinity : 0;
  if (mean === 1) return tallies.failures.length > 0 ? -Infinity : 0;
  const top = greatest((correlation) => slopesAt(tallies, mean, correlation));
  return top?.value ?? refuse(where, `the search found no maximum of the likelihood at a mean of ${mean}`);
}

/** Where a profile falls to a height on either side of its top; an end of 0..1 where it never does. */
function ends(
  profile: (at: number) => number,
  top: number,
  height: number,
): { lower: number; upper: number } {
  const above = (at: number): number => {
    const value = profile(at) - height;
    return value === -Infinity ? -Number.MAX_VALUE : value;
  };
  return {
    lower: top === 0 || above(0) >= 0 ? 0 : rootBetween(above, 0, top),
    upper: top === 1 || above(1) >= 0 ? 1 : rootBetween(above, top, 1),
  };
}
