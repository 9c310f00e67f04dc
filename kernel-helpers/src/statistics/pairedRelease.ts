import { refuse } from "./checks";
import { chiSquareTail, normalQuantile } from "./distributions";
import {
  aboveOne,
  type DetectorCounts,
  logNormal,
  type SingleRelease,
  singleReleaseOf,
  type SurvivalEstimate,
} from "./markRecapture";

const where = "statistics.pairedRelease";

/** Whether the two releases share one detection and one onward survival, or each has its own. */
export type DetectionModel = "separate" | "common";

/** What a treatment and a control release tell together. */
export interface PairedRelease {
  readonly method: string;
  readonly level: number;
  /** Survival of the treatment alone: that of its release over that of the control. May come out above 1. */
  readonly survival: SurvivalEstimate;
  readonly treatment: SingleRelease;
  readonly control: SingleRelease;
  /** Pearson's test that the seen fish of both releases share the histories both, first only and second only. */
  readonly sameDetection: {
    readonly statistic: number;
    readonly degreesOfFreedom: number;
    readonly pValue: number;
  };
  readonly cautions: readonly string[];
}

/**
 * Survival of a passage from fish released above it (treatment) and fish released just below it (control).
 *
 * Returns the ratio of the two survivals to the first detector, with its error by the delta method on the logarithm: what
 * both releases suffer, from handling to the way down to the detector, cancels. `detection: "separate"` (the default)
 * estimates p and λ for each release; `"common"` takes them to be shared, which leaves the ratio of the shares seen at
 * least once, (r/R)/(r′/R′), with the smaller variance 1/r − 1/R + 1/r′ − 1/R′ on the logarithm (first-capture form of
 * Burnham et al. 1987). The test `sameDetection` says whether the data speak against the second. An estimate above 1 is
 * shown as it is, with a caution. Valid as `singleRelease` is, and where both groups meet the same conditions below the
 * control's release. Throws a RangeError where counts don't add up or no fish of a release was seen at both detectors.
 *
 * @example
 * statistics.pairedRelease({
 *   treatment: { released: 1000, both: 560, firstOnly: 80, secondOnly: 120 },
 *   control: { released: 1000, both: 630, firstOnly: 90, secondOnly: 135 },
 * }).survival.estimate // => 0.888889
 */
export function pairedRelease(
  { treatment, control }: { readonly treatment: DetectorCounts; readonly control: DetectorCounts },
  {
    detection = "separate",
    level = 0.95,
  }: { readonly detection?: DetectionModel; readonly level?: number } = {},
): PairedRelease {
  if (detection !== "separate" && detection !== "common") {
    refuse(where, `detection is "${String(detection)}"; it must be "separate" or "common"`);
  }
  const above = singleReleaseOf(where, "treatment", treatment, level);
  const below = singleReleaseOf(where, "control", control, level);
  const [estimate, relativeError] =
    detection === "separate"
      ? [
          above.survival.estimate / below.survival.estimate,
          Math.hypot(relativeErrorOf(above.survival), relativeErrorOf(below.survival)),
        ]
      : [
          shareSeen(treatment) / shareSeen(control),
          Math.sqrt(seenVariance(treatment) + seenVariance(control)),
        ];
  const sameDetection = historiesTest(treatment, control);
  return {
    method: `paired release, ${detection} detection; delta method, log-normal interval`,
    level,
    survival: logNormal(estimate, relativeError, normalQuantile((1 + level) / 2)),
    treatment: above,
    control: below,
    sameDetection,
    cautions: [
      ...(estimate > 1 ? [aboveOne("survival of the passage", estimate)] : []),
      ...(detection === "common" && sameDetection.pValue < 0.05
        ? [
            "The histories of the two releases differ more than chance would have it " +
              `(p = ${sameDetection.pValue.toPrecision(2)}): a common detection is in doubt.`,
          ]
        : []),
      ...above.cautions,
      ...below.cautions,
    ],
  };
}

const relativeErrorOf = ({ estimate, standardError }: SurvivalEstimate): number => standardError / estimate;

const seenOf = ({ both, firstOnly, secondOnly }: DetectorCounts): number => both + firstOnly + secondOnly;

const shareSeen = (counts: DetectorCounts): number => seenOf(counts) / counts.released;

/** Variance of the logarithm of the share seen, from the binomial. */
const seenVariance = (counts: DetectorCounts): number => 1 / seenOf(counts) - 1 / counts.released;

/** Pearson's chi-square of the table of two releases by three histories; a history that nobody has is left out. */
function historiesTest(treatment: DetectorCounts, control: DetectorCounts): PairedRelease["sameDetection"] {
  const rows = [treatment, control].map(({ both, firstOnly, secondOnly }) => [both, firstOnly, secondOnly]);
  const sums = rows.map((row) => row.reduce((sum, count) => sum + count, 0));
  const all = sums[0] + sums[1];
  const columns = [0, 1, 2]
    .map((at) => ({ at, sum: rows[0][at] + rows[1][at] }))
    .filter(({ sum }) => sum > 0);
  const statistic = columns.reduce(
    (total, { at, sum }) =>
      total +
      rows.reduce((part, row, which) => {
        const expected = (sums[which] * sum) / all;
        return part + (row[at] - expected) ** 2 / expected;
      }, 0),
    0,
  );
  const degreesOfFreedom = columns.length - 1;
  const pValue = degreesOfFreedom === 0 ? 1 : chiSquareTail(statistic, { degreesOfFreedom });
  return { statistic, degreesOfFreedom, pValue };
}
