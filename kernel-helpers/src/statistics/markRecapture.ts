import { checkLevel, checkWhole, refuse } from "./checks";
import { normalQuantile } from "./distributions";

/**
 * A release of marked fish and where they were seen: the first detector stands at the end of the reach whose survival is
 * asked for, the second further down.
 */
export interface DetectorCounts {
  readonly released: number;
  /** Seen at both detectors. */
  readonly both: number;
  /** Seen at the first detector only. */
  readonly firstOnly: number;
  /** Seen at the second detector only. */
  readonly secondOnly: number;
  /** Seen at neither; may be left out, and must add up with the rest to the released fish where it is given. */
  readonly neither?: number;
}

/** A survival or a probability with its error. */
export interface SurvivalEstimate {
  readonly estimate: number;
  readonly standardError: number;
  readonly lower: number;
  readonly upper: number;
}

/** What one release tells. */
export interface SingleRelease {
  readonly method: string;
  readonly level: number;
  /** S: survival from the release to the first detector. May come out above 1 and is not cut off there. */
  readonly survival: SurvivalEstimate;
  /** p: probability that the first detector sees a living fish that passes it. */
  readonly detection: SurvivalEstimate;
  /** λ: probability that a fish alive at the first detector lives on to the second and is seen there. */
  readonly onward: SurvivalEstimate;
  readonly cautions: readonly string[];
}

const singleMethod = "single release, two detectors, maximum likelihood; log-normal interval of the survival";

/**
 * Survival from a release to a first detector, told apart from detection by a second detector further down.
 *
 * Returns S = (b+f)(b+s)/(R·b), p = b/(b+s) and λ = b/(b+f), where b, f and s are seen at both, at the first only and at
 * the second only, and R are released: the maximum-likelihood estimates of the four histories Sp·λ, Sp(1−λ), S(1−p)λ and
 * the rest (Cormack 1964; Burnham et al. 1987). The survival's error follows from the multinomial counts by the delta
 * method on its logarithm, which gives the interval too; p and λ have binomial errors, cut to 0..1. An estimate above 1
 * is shown as it is, with a caution. Valid where fish act independently, all have the same S, p and λ, marks stay on and
 * are read rightly, and nothing but the passage decides whether a detector sees a fish; four counts and three unknowns
 * leave one history over only as the rest, so that the data can't check this. Throws a RangeError where the counts don't
 * add up, or where no fish was seen at both detectors: detection is not known then.
 *
 * @example
 * statistics.singleRelease({ released: 1000, both: 560, firstOnly: 80, secondOnly: 120 }).survival.estimate
 * // => 0.777143
 */
export function singleRelease(
  counts: DetectorCounts,
  { level = 0.95 }: { readonly level?: number } = {},
): SingleRelease {
  return singleReleaseOf("statistics.singleRelease", "release", counts, level);
}

/** The same under the name of the function and the release that a message should give. */
export function singleReleaseOf(
  by: string,
  release: string,
  counts: DetectorCounts,
  level: number,
): SingleRelease {
  checkLevel(by, level);
  checkCounts(by, counts);
  const { released, both, firstOnly, secondOnly } = counts;
  if (both === 0) {
    refuse(by, `no fish of the ${release} was seen at both detectors, so the detection is not known`);
  }
  const reach = normalQuantile((1 + level) / 2);
  const [first, second] = [both + firstOnly, both + secondOnly];
  const estimate = (first * second) / (released * both);
  // Gradient of ln S by the count of each history; the multinomial variance is Σ n·g² − (Σ n·g)²/R, and Σ n·g = 1.
  const gradients = [1 / first + 1 / second - 1 / both, 1 / first, 1 / second];
  const variance =
    [both, firstOnly, secondOnly].reduce((sum, count, at) => sum + count * gradients[at] ** 2, 0) -
    1 / released;
  return {
    method: singleMethod,
    level,
    survival: logNormal(estimate, Math.sqrt(Math.max(0, variance)), reach),
    detection: binomial(both, second, reach),
    onward: binomial(both, first, reach),
    cautions: cautionsOf(release, estimate, counts),
  };
}

function checkCounts(by: string, { released, both, firstOnly, secondOnly, neither }: DetectorCounts): void {
  checkWhole(by, "released", released, 1);
  for (const [name, count] of Object.entries({ both, firstOnly, secondOnly })) checkWhole(by, name, count, 0);
  const seen = both + firstOnly + secondOnly;
  if (seen > released) refuse(by, `${seen} fish were seen and only ${released} released; more can't be seen`);
  if (neither === undefined) return;
  checkWhole(by, "neither", neither, 0);
  if (seen + neither !== released) {
    refuse(
      by,
      `both, firstOnly, secondOnly and neither add up to ${seen + neither}; released is ${released}`,
    );
  }
}

/** An interval that is symmetric for the logarithm: it stays above 0 and may pass 1. */
export function logNormal(estimate: number, relativeError: number, reach: number): SurvivalEstimate {
  return {
    estimate,
    standardError: estimate * relativeError,
    lower: estimate * Math.exp(-reach * relativeError),
    upper: estimate * Math.exp(reach * relativeError),
  };
}

function binomial(part: number, all: number, reach: number): SurvivalEstimate {
  const estimate = part / all;
  const standardError = Math.sqrt((estimate * (1 - estimate)) / all);
  return {
    estimate,
    standardError,
    lower: Math.max(0, estimate - reach * standardError),
    upper: Math.min(1, estimate + reach * standardError),
  };
}

/** Fewer fish seen at both detectors than this leave the errors, which hold for many, in doubt. */
const fewSeenTwice = 10;

function cautionsOf(release: string, estimate: number, counts: DetectorCounts): readonly string[] {
  const { both, firstOnly, secondOnly } = counts;
  return [
    ...(estimate > 1 ? [aboveOne(`survival of the ${release}`, estimate)] : []),
    ...(both < fewSeenTwice
      ? [`Only ${both} fish of the ${release} were seen at both detectors; the errors are rough.`]
      : []),
    ...(secondOnly === 0
      ? [
          `No fish of the ${release} passed the first detector unseen: its detection of 1 has an error of 0 by name only.`,
        ]
      : []),
    ...(firstOnly === 0
      ? [
          `Every fish of the ${release} seen at the first detector was seen at the second: the error of 0 is one by name only.`,
        ]
      : []),
  ];
}

/** The sentence that goes with a survival above 1. */
export function aboveOne(what: string, estimate: number): string {
  return (
    `The ${what} is estimated as ${estimate.toPrecision(4)}, above 1: chance, or fish that don't share one detection. ` +
    "It is shown as it is: cut off at 1, an average over releases would come out too low."
  );
}
