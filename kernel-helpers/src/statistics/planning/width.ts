import { checkLevel, checkNumber, checkWhole, refuse } from "../checks";
import { twoSided, wilsonOf } from "../proportionMethods";
import { checkSeed } from "../random";
import { checkLaw, checkShare, type ClusterLaw, countedTrials, expectedEffect } from "./clusterLaw";
import { trialsForHalfWidth } from "./independent";
import { effectOf, growTo, meanOf, shareError, type Studies, studiesOf, usualSimulations } from "./studies";

/** What a planned interval needs besides its clusters. */
export interface WidthOptions extends ClusterLaw {
  /** The share to be measured, as far as it is known beforehand. */
  readonly share: number;
  /** 0.95 unless told otherwise. */
  readonly level?: number;
  /** A design effect that the analysis will take from elsewhere; without it each study estimates its own. */
  readonly designEffect?: number;
  readonly seed: number;
  /** Simulated studies, 2000 unless told otherwise. */
  readonly simulations?: number;
}

/** What a wanted width needs besides. */
export interface ClustersForWidthOptions extends WidthOptions {
  readonly halfWidth: number;
  /** Share of the studies that keep to the half width; without it their mean does. */
  readonly assurance?: number;
}

/** What many simulated studies of so many clusters gave. */
export interface WidthForecast {
  readonly clusters: number;
  /** Trials that count, on average. */
  readonly countedTrials: number;
  /** Mean of half the widths of the intervals. */
  readonly halfWidth: number;
  /** Standard error that the simulation leaves on the mean. */
  readonly monteCarloError: number;
  /** Nine studies in ten have an interval no wider than this. */
  readonly nineInTen: number;
  /** Share of the intervals that hold the true share, with the error that the simulation leaves on it. */
  readonly coverage: number;
  readonly coverageError: number;
}

/** The fewest clusters for a wanted width, with what they give. */
export interface ClustersForWidth extends WidthForecast {
  readonly method: string;
  readonly level: number;
  /** Standard error that the simulation leaves on the number of clusters. */
  readonly clustersError: number;
  /** Independent trials for the same mean width, from the binomial distribution. */
  readonly independentTrials: number;
  /** 1 + (m − 1)ρ, and the clusters that it gives: independent trials times the effect over counted trials a cluster. */
  readonly expectedEffect: number;
  readonly approximateClusters: number;
  readonly seed: number;
  readonly simulations: number;
  readonly cautions: readonly string[];
}

const method = "simulated beta-binomial clusters, each study analysed by clusteredInterval";

/** More clusters than this are not simulated. */
const mostClusters = 5000;

function checkOptions(where: string, options: WidthOptions): void {
  const { share, level = 0.95, designEffect, seed, simulations = usualSimulations } = options;
  checkShare(where, "share", share);
  checkLaw(where, options);
  checkLevel(where, level);
  if (designEffect !== undefined) checkNumber(where, "designEffect", designEffect, { above: 0 });
  checkSeed(where, seed);
  checkWhole(where, "simulations", simulations, 100, 100_000);
}

const begin = (options: WidthOptions): Studies =>
  studiesOf({ law: options, ...options, simulations: options.simulations ?? usualSimulations });

/** The intervals of the studies as they stand. */
function forecast(studies: Studies, options: WidthOptions, z: number): WidthForecast & { all: Float64Array } {
  let held = 0;
  const all = studies.trials.map((trials, at) => {
    // One cluster says nothing of its spread: the share may be anything.
    if (studies.counted[at] < 2) {
      held += 1;
      return 0.5;
    }
    const effect = options.designEffect ?? effectOf(studies, at);
    const { lower, upper } = wilsonOf(z, studies.successes[at] / effect, trials / effect);
    if (lower <= options.share && options.share <= upper) held += 1;
    return (upper - lower) / 2;
  });
  const { mean, error } = meanOf(all);
  all.sort();
  const coverage = held / studies.simulations;
  return {
    clusters: studies.clusters,
    countedTrials: studies.clusters * countedTrials(options),
    halfWidth: mean,
    monteCarloError: error,
    nineInTen: quantile(all, 0.9),
    coverage,
    coverageError: shareError(coverage, studies.simulations),
    all,
  };
}

const quantile = (sorted: Float64Array, share: number): number =>
  sorted[Math.min(sorted.length - 1, Math.ceil(share * sorted.length) - 1)];

/**
 * Widths to expect of the interval of a proportion, for one or more numbers of clusters.
 *
 * Returns for each number of clusters the mean half width, the one that nine studies in ten keep, and how often the
 * interval holds the truth, all by simulating beta-binomial clusters and analysing each study as clusteredInterval does.
 * The same seed gives the same studies, and larger ones contain the smaller. Valid for independent clusters whose trials
 * count or not each by itself. Throws a RangeError for a share or correlation outside its range and fewer than two
 * clusters.
 *
 * @example
 * statistics.widthByClusters({ share: 0.8, clusterSize: 4, intraclassCorrelation: 0.2, clusters: [40], seed: 1 })[0].halfWidth
 * // => 0.0775
 */
export function widthByClusters(
  options: WidthOptions & { readonly clusters: readonly number[] },
): readonly WidthForecast[] {
  const where = "statistics.widthByClusters";
  checkOptions(where, options);
  options.clusters.forEach((count, at) => checkWhole(where, `clusters[${at}]`, count, 2, mostClusters));
  const z = twoSided(options.level ?? 0.95);
  const studies = begin(options);
  const found = new Map<number, WidthForecast>();
  for (const count of [...options.clusters].toSorted((a, b) => a - b)) {
    const { all: _all, ...shown } = forecast(growTo(studies, count), options, z);
    found.set(count, shown);
  }
  return options.clusters.flatMap((count) => found.get(count) ?? []);
}

/**
 * The fewest clusters whose interval of a proportion is as narrow as wanted.
 *
 * Returns the number of clusters, the trials that count among them, the mean half width with the error of the simulation,
 * how often the interval holds the truth, and beside them the independent trials of the binomial case and the rule of
 * thumb n(1 + (m − 1)ρ). Without `assurance` the mean half width is held to the wanted one, so that about half of all
 * studies come out wider; with it, that share of the studies keeps to it. Valid as widthByClusters is. Throws a RangeError
 * where more than 5000 clusters would be needed.
 *
 * @example
 * statistics.clustersForWidth({ share: 0.8, halfWidth: 0.08, clusterSize: 4, intraclassCorrelation: 0.2, seed: 1 }).clusters
 * // => 38
 */
export function clustersForWidth(options: ClustersForWidthOptions): ClustersForWidth {
  return widthPlan("statistics.clustersForWidth", "clusters", options);
}

/** As clustersForWidth, in the words of a topic: its function's name, and what its clusters are called. */
export function widthPlan(
  where: string,
  clustersName: string,
  options: ClustersForWidthOptions,
): ClustersForWidth {
  checkOptions(where, options);
  const { share, halfWidth, assurance, level = 0.95, seed, simulations = usualSimulations } = options;
  checkNumber(where, "halfWidth", halfWidth, { above: 0, below: 0.5 });
  if (assurance !== undefined) checkNumber(where, "assurance", assurance, { atLeast: 0.5, below: 1 });
  const z = twoSided(level);
  const effect = options.designEffect ?? expectedEffect(options);
  const independentTrials = trialsForHalfWidth(share, halfWidth, z, 20_000);
  const approximateClusters = ((independentTrials ?? Infinity) * effect) / countedTrials(options);
  if (independentTrials === undefined || approximateClusters > mostClusters / 2)
    refuse(
      where,
      `halfWidth is ${halfWidth}; that would need more than ${mostClusters / 2} ${clustersName}: ask for less`,
    );

  const widthOf = ({ halfWidth: mean, all }: { halfWidth: number; all: Float64Array }): number =>
    assurance === undefined ? mean : quantile(all, assurance);
  const first = Math.max(2, Math.floor(approximateClusters / 2));
  const found =
    firstThatStays(begin(options), first, halfWidth, (studies) => {
      const one = forecast(studies, options, z);
      return { value: widthOf(one), result: one };
    }) ??
    refuse(where, `no number of ${clustersName} up to ${mostClusters} keeps to a half width of ${halfWidth}`);
  const { all: _all, ...result } = found;
  return {
    ...result,
    method,
    level,
    // The width falls as 1/√clusters: an error of one per cent in it is one of two in their number.
    clustersError: (2 * result.clusters * result.monteCarloError) / result.halfWidth,
    independentTrials,
    expectedEffect: effect,
    approximateClusters,
    seed,
    simulations,
    cautions: cautionsOf(result, clustersName, level, options),
  };
}

/** Grows studies until a width stays within the wanted one; the first number of clusters of that streak. */
function firstThatStays<R>(
  studies: Studies,
  first: number,
  wanted: number,
  look: (studies: Studies) => { readonly value: number; readonly result: R },
): R | undefined {
  growTo(studies, Math.max(2, first));
  let streak: { readonly from: number; readonly result: R } | undefined;
  while (studies.clusters <= mostClusters) {
    const { value, result } = look(studies);
    if (value > wanted) streak = undefined;
    else streak ??= { from: studies.clusters, result };
    if (streak !== undefined && studies.clusters >= 1.05 * streak.from) return streak.result;
    studies.grow();
  }
  return undefined;
}

/** Fewer clusters than this estimate their own spread badly. */
const fewClusters = 10;

function cautionsOf(
  result: WidthForecast,
  clustersName: string,
  level: number,
  { intraclassCorrelation }: ClusterLaw,
): readonly string[] {
  return [
    ...(result.clusters < fewClusters
      ? [
          `${result.clusters} ${clustersName} are few: fewer than ${fewClusters} estimate their own spread badly, ` +
            "and the width of a single study strays far from the mean.",
        ]
      : []),
    ...(result.coverage + 2 * result.coverageError < level - 0.01
      ? [
          `The interval from ${result.clusters} ${clustersName} holds the truth in ` +
            `${(100 * result.coverage).toFixed(1)} % of the simulated studies, less than the level of ` +
            `${Number((100 * level).toPrecision(4))} % says.`,
        ]
      : []),
    ...(intraclassCorrelation === 0
      ? [
          `An intra-class correlation of 0 takes what one of the ${clustersName} holds to be independent; it seldom is.`,
        ]
      : []),
  ];
}
