import { checkNumber, checkWhole, refuse } from "../checks";

/** What the clusters of a study still to be made are taken to be. */
export interface ClusterLaw {
  /** Trials in a cluster; of a list, each cluster takes one by chance, as the catches of an earlier season. */
  readonly clusterSize: number | readonly number[];
  /** How alike two trials of one cluster are, 0 to below 1. Known before a study only from others like it. */
  readonly intraclassCorrelation: number;
  /** Share of the trials that count, each by itself; 1 unless told otherwise. */
  readonly countedShare?: number;
}

/** What is drawn of one cluster. */
export interface DrawnCluster {
  trials: number;
  successes: number;
}

/** The largest cluster that is simulated. */
const largest = 10_000;

/** Refuses sizes, correlations and shares that no cluster can have. */
export function checkLaw(where: string, law: ClusterLaw): void {
  const { clusterSize, intraclassCorrelation, countedShare = 1 } = law;
  if (typeof clusterSize === "number") checkWhole(where, "clusterSize", clusterSize, 1, largest);
  else {
    if (clusterSize.length === 0) refuse(where, "clusterSize is an empty list; it needs at least one size");
    clusterSize.forEach((size, at) => checkWhole(where, `clusterSize[${at}]`, size, 1, largest));
  }
  checkNumber(where, "intraclassCorrelation", intraclassCorrelation, { atLeast: 0, below: 1 });
  checkNumber(where, "countedShare", countedShare, { above: 0, atMost: 1 });
}

/** Refuses a share of which nothing can be learned: 0 and 1 never vary. */
export function checkShare(where: string, name: string, share: number): void {
  checkNumber(where, name, share, { above: 0, below: 1 });
}

const sizesOf = ({ clusterSize }: ClusterLaw): readonly number[] =>
  typeof clusterSize === "number" ? [clusterSize] : clusterSize;

/** Mean number of counted trials a cluster. */
export function countedTrials(law: ClusterLaw): number {
  const sizes = sizesOf(law);
  return ((law.countedShare ?? 1) * sizes.reduce((sum, size) => sum + size, 0)) / sizes.length;
}

/** The design effect 1 + (m − 1)ρ to expect, with m = Σm²/Σm over the counted trials. */
export function expectedEffect(law: ClusterLaw): number {
  const { intraclassCorrelation, countedShare = 1 } = law;
  const sizes = sizesOf(law);
  const trials = sizes.reduce((sum, size) => sum + size, 0);
  const others = sizes.reduce((sum, size) => sum + size * (size - 1), 0) / trials;
  return 1 + others * countedShare * intraclassCorrelation;
}

/**
 * Cumulative probabilities of 0, 1, … successes in a cluster, beta-binomial with a mean and an intra-class correlation.
 *
 * Sums of logarithms, since the first probability of a large cluster underflows.
 */
export function cumulative(size: number, share: number, correlation: number): Float64Array {
  const own = 1 - correlation;
  const logs = new Float64Array(size + 1);
  for (let count = 0; count < size; count++) {
    const gain = ((size - count) / (count + 1)) * (share * own + count * correlation);
    logs[count + 1] = logs[count] + Math.log(gain / ((1 - share) * own + (size - count - 1) * correlation));
  }
  const highest = logs.reduce((high, log) => Math.max(high, log), -Infinity);
  let sum = 0;
  const steps = logs.map((log) => (sum += Math.exp(log - highest)));
  return steps.map((step) => step / sum);
}

/** The first count whose cumulative probability passes a uniform number: more for a larger one. */
function countAt(steps: Float64Array, uniform: number): number {
  let [low, high] = [0, steps.length - 1];
  while (low < high) {
    const middle = (low + high) >>> 1;
    if (steps[middle] > uniform) high = middle;
    else low = middle + 1;
  }
  return low;
}

/** The table of a size, worked out when it is first asked for. */
function tableOf(
  tables: Map<number, Float64Array>,
  size: number,
  share: number,
  correlation: number,
): Float64Array {
  const known = tables.get(size);
  if (known !== undefined) return known;
  const made = cumulative(size, share, correlation);
  tables.set(size, made);
  return made;
}

/**
 * Draws clusters: size, how many of its trials count, and how many of these succeed.
 *
 * Each draw takes three uniform numbers whatever the law, and the counts grow with them: two laws drawn with the same
 * numbers differ by the laws alone.
 */
export function clusterDraws(
  law: ClusterLaw,
  share: number,
): (uniform: () => number, into: DrawnCluster) => void {
  const { intraclassCorrelation, countedShare = 1 } = law;
  const sizes = sizesOf(law);
  const counted = new Map<number, Float64Array>();
  const succeeding = new Map<number, Float64Array>();
  return (uniform, into) => {
    const size = sizes[Math.floor(uniform() * sizes.length)];
    const [forCounted, forSuccess] = [uniform(), uniform()];
    into.trials = countedShare === 1 ? size : countAt(tableOf(counted, size, countedShare, 0), forCounted);
    into.successes =
      into.trials === 0
        ? 0
        : countAt(tableOf(succeeding, into.trials, share, intraclassCorrelation), forSuccess);
  };
}
