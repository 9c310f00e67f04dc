import { checkNumber, checkWhole, refuse } from "../checks";
import { chiSquareQuantile } from "../distributions";
import { checkSeed } from "../random";
import { checkLaw, type ClusterLaw, countedTrials, expectedEffect } from "./clusterLaw";
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

/** How power is simulated, in words. */
export const method = "simulated beta-binomial clusters, each study tested by raoScottComparison";
/** More clusters than this are not simulated. */
export const mostClusters = 5000;

/** The seed of the second group's clusters: the two streams must not meet. */
export const secondSeed = (seed: number): number => (seed + 0x9e3779b9) >>> 0;

/** Refuses shares, laws, seeds and numbers of simulations that no plan can have. */
export function checkOptions(where: string, options: PowerOptions): void {
  checkTwoShares(where, options);
  checkLaw(where, options);
  checkSeed(where, options.seed);
  checkWhole(where, "simulations", options.simulations ?? usualSimulations, 100, 100_000);
}

/** Studies of one share. */
export const studiesWith = (
  options: Omit<PowerOptions, "first" | "second">,
  share: number,
  seed: number,
): Studies => studiesOf({ law: options, share, seed, simulations: options.simulations ?? usualSimulations });

/** The share of pairs of studies whose difference passes Pearson's chi-square of the effective counts. */
export function shareFound(first: Studies, second: Studies, level: number): number {
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
function powerOf(options: PowerOptions, clusters: number, clustersName: string): PowerForecast {
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
  return { ...result, cautions: cautionsOf(result, clustersName, options) };
}

function cautionsOf(
  { clusters, falseAlarms, falseAlarmsError, level }: Omit<PowerForecast, "cautions">,
  clustersName: string,
  { intraclassCorrelation }: ClusterLaw,
): readonly string[] {
  return [
    ...(falseAlarms - 2 * falseAlarmsError > 1 - level
      ? [
          `With ${clusters} ${clustersName} in each group the test finds a difference in ` +
            `${(100 * falseAlarms).toFixed(1)} % of the studies where there is none, more than the ` +
            `${Number((100 * (1 - level)).toPrecision(3))} % it allows: part of the power is false.`,
        ]
      : []),
    ...(intraclassCorrelation === 0
      ? [
          `An intra-class correlation of 0 takes what one of the ${clustersName} holds to be independent; it seldom is.`,
        ]
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
  checkWhole(where, "clusters", options.clusters, 2, mostClusters);
  return powerForecast(where, "clusters", options);
}

/** As clusteredPower, in the words of a topic: its function's name, and what its clusters are called. */
export function powerForecast(
  where: string,
  clustersName: string,
  options: PowerOptions & { readonly clusters: number },
): PowerForecast {
  checkOptions(where, options);
  return powerOf(options, options.clusters, clustersName);
}

/** How often simulated studies of one number of clusters find the difference. */
export interface PowerPoint {
  /** Clusters in each group. */
  readonly clusters: number;
  /** Trials that count in each group, on average. */
  readonly countedTrials: number;
  readonly power: number;
  readonly monteCarloError: number;
}

/**
 * Power of a comparison of two proportions for several numbers of clusters, as for a curve.
 *
 * Returns for each number what clusteredPower returns of the power alone, from one set of studies that grow. Valid as
 * clusteredPower is. Throws a RangeError for shares or a correlation outside their range and fewer than two clusters.
 *
 * @example
 * statistics.powerByClusters({ first: 0.5, second: 0.75, clusters: [10, 20], clusterSize: 4,
 *   intraclassCorrelation: 0.2, seed: 1 })[1].power // => 0.741
 */
export function powerByClusters(
  options: PowerOptions & { readonly clusters: readonly number[] },
): readonly PowerPoint[] {
  const where = "statistics.powerByClusters";
  checkOptions(where, options);
  options.clusters.forEach((count, at) => checkWhole(where, `clusters[${at}]`, count, 2, mostClusters));
  const { first, second, level = 0.95, seed, simulations = usualSimulations } = options;
  const one = studiesWith(options, first, seed);
  const other = studiesWith(options, second, secondSeed(seed));
  const found = new Map<number, number>();
  for (const count of [...options.clusters].toSorted((a, b) => a - b))
    found.set(count, shareFound(growTo(one, count), growTo(other, count), level));
  return options.clusters.map((clusters) => {
    const power = found.get(clusters) ?? Number.NaN;
    return {
      clusters,
      countedTrials: clusters * countedTrials(options),
      power,
      monteCarloError: shareError(power, simulations),
    };
  });
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
  return powerPlan("statistics.clustersForPower", "clusters", options);
}

/** As clustersForPower, in the words of a topic. */
export function powerPlan(
  where: string,
  clustersName: string,
  options: PowerOptions & { readonly power: number },
): ClustersForPower {
  checkOptions(where, options);
  const { first, second, power, level = 0.95, seed } = options;
  checkNumber(where, "power", power, { atLeast: 0.5, below: 1 });
  if (first === second)
    refuse(where, `first and second are both ${first}; no number of ${clustersName} tells them apart`);
  const independent = independentTrials({ first, second, level, power });
  const perCluster = countedTrials(options) / expectedEffect(options);
  const approximateClusters = independent / perCluster;
  if (approximateClusters > mostClusters / 2)
    refuse(
      where,
      `from ${first} to ${second} is too small a difference: it would need more than ${mostClusters / 2} ${clustersName} in each group`,
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
    from ?? refuse(where, `no number of ${clustersName} up to ${mostClusters} has a power of ${power}`);
  const result = powerOf(options, clusters, clustersName);
  const powerAt = (count: number) => independentPower({ first, second, level, trials: count * perCluster });
  const slope = (powerAt(1.1 * approximateClusters) - powerAt(0.9 * approximateClusters)) / 0.2;
  return {
    ...result,
    clustersError: (result.monteCarloError * approximateClusters) / slope,
    independentTrials: independent,
    approximateClusters,
  };
}
