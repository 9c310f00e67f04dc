import { checkNumber, checkWhole, refuse } from "../checks";
import { chiSquareQuantile } from "../distributions";
import { checkSeed } from "../random";
import { checkLaw, checkShare, type ClusterLaw, countedTrials, expectedEffect } from "./clusterLaw";
import { checkTwoShares, independentPower, independentTrials, type TwoShares } from "./independent";
import { effectOf, growTo, shareError, type Studies, studiesOf, usualSimulations } from "./studies";

/** What a planned comparison of two groups of clusters needs. */
export interface PowerOptions extends ClusterLaw, TwoShares {
  readonly seed: number;
  /** Simulated studies, 2000 unless told otherwise. */
  readonly simulations?: number;
}

/** How often simulated studies of so many clusters find a difference. */
export interface PowerForecast {
  readonly method: string;
  readonly level: number;
  /** Clusters in each group. */
  readonly clusters: number;
  /** Trials that count in each group, on average. */
  readonly countedTrials: number;
  readonly power: number;
  /** Standard error that the simulation leaves on the power. */
  readonly monteCarloError: number;
  /** How often the test finds a difference where both groups have the mean of the two shares. */
  readonly falseAlarms: number;
  readonly falseAlarmsError: number;
  /** 1 + (m − 1)ρ, and the power of as many trials as the counted ones divided by it, by the normal approximation. */
  readonly expectedEffect: number;
  readonly approximatePower: number;
  readonly seed: number;
  readonly simulations: number;
  readonly cautions: readonly string[];
}

/** The fewest clusters for a wanted power, with what they give. */
export interface ClustersForPower extends PowerForecast {
  /** Standard error that the simulation leaves on the number of clusters. */
  readonly clustersError: number;
  /** Independent trials in each group by the normal approximation, and the clusters that the design effect makes of them. */
  readonly independentTrials: number;
  readonly approximateClusters: number;
}

const method = "simulated beta-binomial clusters, each study tested by raoScottComparison";
const mostClusters = 5000;

/** The seed of the second group's clusters: the two streams must not meet. */
const secondSeed = (seed: number): number => (seed + 0x9e3779b9) >>> 0;

function checkOptions(where: string, options: PowerOptions): void {
  checkTwoShares(where, options);
  checkLaw(where, options);
  checkSeed(where, options.seed);
  checkWhole(where, "simulations", options.simulations ?? usualSimulations, 100, 100_000);
}

const studiesWith = (options: Omit<PowerOptions, "first" | "second">, share: number, seed: number): Studies =>
  studiesOf({ law: options, share, seed, simulations: options.simulations ?? usualSimulations });

/** The share of pairs of studies whose difference passes Pearson's chi-square of the effective counts. */
function shareFound(first: Studies, second: Studies, level: number): number {
  const critical = chiSquareQuantile(level, { degreesOfFreedom: 1 });
  let found = 0;
  for (let at = 0; at < first.simulations; at++) {
    if (first.counted[at] < 2 || second.counted[at] < 2) continue;
    const [one, other] = [effectOf(first, at), effectOf(second, at)];
    const [trials, others] = [first.trials[at] / one, second.trials[at] / other];
    const [successes, otherSuccesses] = [first.successes[at] / one, second.successes[at] / other];
    const share = (successes + otherSuccesses) / (trials + others);
    const spread = share * (1 - share) * (1 / trials + 1 / others);
    // Where all end the same way nothing can differ.
    if (spread > 0 && (successes / trials - otherSuccesses / others) ** 2 / spread > critical) found += 1;
  }
  return found / first.simulations;
}

/** As clusteredPower, of options already checked. */
function powerOf(options: PowerOptions, clusters: number): PowerForecast {
  const { first, second, level = 0.95, seed, simulations = usualSimulations } = options;
  const one = growTo(studiesWith(options, first, seed), clusters);
  const other = growTo(studiesWith(options, second, secondSeed(seed)), clusters);
  const power = shareFound(one, other, level);
  const mean = (first + second) / 2;
  const falseAlarms = shareFound(
    growTo(studiesWith(options, mean, seed), clusters),
    growTo(studiesWith(options, mean, secondSeed(seed)), clusters),
    level,
  );
  const effect = expectedEffect(options);
  const counted = clusters * countedTrials(options);
  const result = {
    method,
    level,
    clusters,
    countedTrials: counted,
    power,
    monteCarloError: shareError(power, simulations),
    falseAlarms,
    falseAlarmsError: shareError(falseAlarms, simulations),
    expectedEffect: effect,
    approximatePower: independentPower({ first, second, level, trials: counted / effect }),
    seed,
    simulations,
  };
  return { ...result, cautions: cautionsOf(result, options) };
}

function cautionsOf(
  { clusters, falseAlarms, falseAlarmsError, level }: Omit<PowerForecast, "cautions">,
  { intraclassCorrelation }: ClusterLaw,
): readonly string[] {
  return [
    ...(falseAlarms - 2 * falseAlarmsError > 1 - level
      ? [
          `With ${clusters} clusters in each group the test finds a difference in ` +
            `${(100 * falseAlarms).toFixed(1)} % of the studies where there is none, more than the ` +
            `${Number((100 * (1 - level)).toPrecision(3))} % it allows: part of the power is false.`,
        ]
      : []),
    ...(intraclassCorrelation === 0
      ? ["An intra-class correlation of 0 takes trials of one cluster to be independent; few are."]
      : []),
  ];
}

/**
 * Power of a comparison of two proportions whose trials come in clusters.
 *
 * Returns the share of simulated studies whose difference raoScottComparison finds, how often it finds one where there is
 * none, and beside them the normal approximation with the design effect 1 + (m − 1)ρ. The same seed gives the same studies.
 * Valid for independent clusters, as many in each group. Throws a RangeError for shares or a correlation outside their
 * range and fewer than two clusters.
 *
 * @example
 * statistics.clusteredPower({ first: 0.5, second: 0.75, clusters: 20, clusterSize: 4,
 *   intraclassCorrelation: 0.2, seed: 1 }).power // => 0.741
 */
export function clusteredPower(options: PowerOptions & { readonly clusters: number }): PowerForecast {
  const where = "statistics.clusteredPower";
  checkOptions(where, options);
  checkWhole(where, "clusters", options.clusters, 2, mostClusters);
  return powerOf(options, options.clusters);
}

/**
 * The fewest clusters in each group that find a difference between two proportions often enough.
 *
 * Returns what clusteredPower returns for that number, the error that the simulation leaves on it, and the independent
 * trials and clusters of the normal approximation. Valid as clusteredPower is. Throws a RangeError for equal shares and
 * where more than 2500 clusters would be needed.
 *
 * @example
 * statistics.clustersForPower({ first: 0.5, second: 0.75, power: 0.8, clusterSize: 4,
 *   intraclassCorrelation: 0.2, seed: 1 }).clusters // => 24
 */
export function clustersForPower(options: PowerOptions & { readonly power: number }): ClustersForPower {
  const where = "statistics.clustersForPower";
  checkOptions(where, options);
  const { first, second, power, level = 0.95, seed } = options;
  checkNumber(where, "power", power, { atLeast: 0.5, below: 1 });
  if (first === second)
    refuse(where, `first and second are both ${first}; no number of clusters tells them apart`);
  const independent = independentTrials({ first, second, level, power });
  const perCluster = countedTrials(options) / expectedEffect(options);
  const approximateClusters = independent / perCluster;
  if (approximateClusters > mostClusters / 2)
    refuse(
      where,
      `from ${first} to ${second} is too small a difference: it would need more than ${mostClusters / 2} clusters in each group`,
    );
  const one = studiesWith(options, first, seed);
  const other = studiesWith(options, second, secondSeed(seed));
  growTo(one, Math.max(2, Math.floor(approximateClusters / 2)));
  growTo(other, one.clusters);
  let from: number | undefined;
  while (one.clusters <= mostClusters) {
    if (shareFound(one, other, level) < power) from = undefined;
    else from ??= one.clusters;
    if (from !== undefined && one.clusters >= 1.05 * from) break;
    one.grow();
    other.grow();
  }
  const clusters =
    from ?? refuse(where, `no number of clusters up to ${mostClusters} has a power of ${power}`);
  const result = powerOf(options, clusters);
  const powerAt = (count: number) => independentPower({ first, second, level, trials: count * perCluster });
  const slope = (powerAt(1.1 * approximateClusters) - powerAt(0.9 * approximateClusters)) / 0.2;
  return {
    ...result,
    clustersError: (result.monteCarloError * approximateClusters) / slope,
    independentTrials: independent,
    approximateClusters,
  };
}

/** The shares that a study can tell from a given one. */
export interface DetectableDifference {
  readonly method: string;
  readonly level: number;
  readonly share: number;
  readonly clusters: number;
  readonly power: number;
  /** The nearest share above that is found with this power; undefined where not even 1 is. */
  readonly higher: number | undefined;
  /** The nearest share below; undefined where not even 0 is. */
  readonly lower: number | undefined;
  /** Standard errors that the simulation leaves on the two. */
  readonly higherError: number | undefined;
  readonly lowerError: number | undefined;
  readonly seed: number;
  readonly simulations: number;
}

/** As near to 0 and 1 as a share is tried. */
const end = 1e-4;

/**
 * The nearest shares that a study of so many clusters in each group can tell from a given share.
 *
 * Returns the share above and the share below that raoScottComparison finds with the wanted power, each undefined where
 * even the end of the scale is found too seldom. Halving the bracket on simulated studies that share their random numbers.
 * Valid as clusteredPower is. Throws a RangeError for a share, power or correlation outside its range.
 *
 * @example
 * statistics.detectableDifference({ share: 0.5, power: 0.8, clusters: 21, clusterSize: 4,
 *   intraclassCorrelation: 0.2, seed: 1 }).higher // => 0.762
 */
export function detectableDifference(
  options: Omit<PowerOptions, "first" | "second"> & {
    readonly share: number;
    readonly power: number;
    readonly clusters: number;
  },
): DetectableDifference {
  const where = "statistics.detectableDifference";
  const { share, power, clusters, level = 0.95, seed, simulations = usualSimulations } = options;
  checkShare(where, "share", share);
  checkOptions(where, { ...options, first: share, second: share });
  checkNumber(where, "power", power, { atLeast: 0.5, below: 1 });
  checkWhole(where, "clusters", clusters, 2, mostClusters);
  const base = growTo(studiesWith(options, share, seed), clusters);
  const powerAt = (other: number): number =>
    shareFound(base, growTo(studiesWith(options, other, secondSeed(seed)), clusters), level);
  const higher = nearest(powerAt, share, 1 - end, power);
  const lower = nearest(powerAt, share, end, power);
  const errorOf = (other: number | undefined): number | undefined => {
    if (other === undefined) return undefined;
    // The slope over a tenth of the difference either side, on the same random numbers.
    const step = (other - share) / 10;
    const past = Math.min(1 - end, Math.max(end, other + step));
    const slope = (powerAt(past) - powerAt(other - step)) / (past - other + step);
    return shareError(power, simulations) / Math.abs(slope);
  };
  return {
    method,
    level,
    share,
    clusters,
    power,
    higher,
    lower,
    higherError: errorOf(higher),
    lowerError: errorOf(lower),
    seed,
    simulations,
  };
}

/** The share between `from`, which is never found often enough, and `to` at which the power is reached. */
function nearest(
  powerAt: (share: number) => number,
  from: number,
  to: number,
  power: number,
): number | undefined {
  if (powerAt(to) < power) return undefined;
  let [below, above] = [from, to];
  while (Math.abs(above - below) > end) {
    const middle = (below + above) / 2;
    if (powerAt(middle) < power) below = middle;
    else above = middle;
  }
  return above;
}
