import type { Cluster } from "../clustering/cluster";
import { library } from "../library";

/**
 * Clusters counted by what they hold: how many have more than 0, 1, 2 … successes, failures and trials.
 *
 * With them the log-likelihood of the beta-binomial is a sum over these counts, exact down to the binomial at ρ = 0, where
 * gamma functions of α and β would be differences of huge numbers.
 */
export interface Tallies {
  readonly successes: readonly number[];
  readonly failures: readonly number[];
  readonly trials: readonly number[];
  /** Σ ln of the number of orders in which a cluster's successes can fall. */
  readonly orders: number;
  /** Clusters with both outcomes: with none of them ρ may reach 1. */
  readonly mixed: number;
}

export function talliesOf(clusters: readonly Cluster[]): Tallies {
  const successes = moreThan(clusters.map((one) => one.successes));
  const failures = moreThan(clusters.map((one) => one.trials - one.successes));
  return {
    successes,
    failures,
    trials: moreThan(clusters.map((one) => one.trials)),
    orders: clusters.reduce(
      (sum, one) =>
        sum - Math.log(one.trials + 1) - library.logBeta(one.successes + 1, one.trials - one.successes + 1),
      0,
    ),
    mixed: clusters.filter((one) => one.successes > 0 && one.successes < one.trials).length,
  };
}

function moreThan(counts: readonly number[]): readonly number[] {
  const tally = Array.from({ length: Math.max(...counts) }, () => 0);
  for (const count of counts) if (count > 0) tally[count - 1] += 1;
  for (let at = tally.length - 2; at >= 0; at--) tally[at] += tally[at + 1];
  return tally;
}

/** The log-likelihood and its derivatives by the mean μ and the intra-class correlation ρ. */
export interface Slopes {
  value: number;
  byMean: number;
  byCorrelation: number;
  byMeanTwice: number;
  byBoth: number;
  byCorrelationTwice: number;
}

/**
 * The log-likelihood at a mean inside 0..1, or at its end where no cluster speaks against it, and ρ from 0 to 1.
 *
 * With r successes already drawn, the next one has the probability (μ(1 − ρ) + rρ) over (1 − ρ + drawn ρ).
 */
export function slopesAt(tallies: Tallies, mean: number, correlation: number): Slopes {
  const rest = 1 - correlation;
  const sum: Slopes = {
    value: tallies.orders,
    byMean: 0,
    byCorrelation: 0,
    byMeanTwice: 0,
    byBoth: 0,
    byCorrelationTwice: 0,
  };
  first(sum, tallies, mean, rest);
  for (const [counts, share, sign] of [
    [tallies.successes, mean, 1],
    [tallies.failures, 1 - mean, -1],
  ] as const) {
    for (let drawn = 1; drawn < counts.length; drawn++) {
      const count = counts[drawn];
      const term = share * rest + drawn * correlation;
      const byMean = (sign * rest) / term;
      const byCorrelation = (drawn - share) / term;
      sum.value += count * Math.log(term);
      sum.byMean += count * byMean;
      sum.byCorrelation += count * byCorrelation;
      sum.byMeanTwice -= count * byMean ** 2;
      sum.byBoth -= count * (sign / term + byMean * byCorrelation);
      sum.byCorrelationTwice -= count * byCorrelation ** 2;
    }
  }
  for (let drawn = 1; drawn < tallies.trials.length; drawn++) {
    const count = tallies.trials[drawn];
    const term = 1 + (drawn - 1) * correlation;
    const byCorrelation = (drawn - 1) / term;
    sum.value -= count * Math.log(term);
    sum.byCorrelation -= count * byCorrelation;
    sum.byCorrelationTwice += count * byCorrelation ** 2;
  }
  return sum;
}

// The first draws of all clusters: 1 − ρ remains only where a cluster has both outcomes, so that ρ = 1 stays finite
// where none has.
function first(sum: Slopes, { successes, failures, mixed }: Tallies, mean: number, rest: number): void {
  const [some = 0] = successes;
  const [none = 0] = failures;
  if (some > 0) {
    sum.value += some * Math.log(mean);
    sum.byMean += some / mean;
    sum.byMeanTwice -= some / mean ** 2;
  }
  if (none > 0) {
    sum.value += none * Math.log(1 - mean);
    sum.byMean -= none / (1 - mean);
    sum.byMeanTwice -= none / (1 - mean) ** 2;
  }
  if (mixed > 0) {
    sum.value += mixed * Math.log(rest);
    sum.byCorrelation -= mixed / rest;
    sum.byCorrelationTwice -= mixed / rest ** 2;
  }
}
