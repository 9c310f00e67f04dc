import { checkNumber, checkWhole } from "../checks";
import { checkShare } from "./clusterLaw";
import {
  checkOptions,
  method,
  mostClusters,
  type PowerOptions,
  secondSeed,
  shareFound,
  studiesWith,
} from "./power";
import { growTo, shareError, usualSimulations } from "./studies";

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
