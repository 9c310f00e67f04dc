import { noteUse } from "../../../formula/usage";
import { fitted } from "../fitted";
import type { Repeatability } from "../flume/repeatability";
import { fitShapes, hasErrors, repeatsOf } from "./fitShapes";
import type { LawFit } from "./law";
import { checkLosses, type MeasuredLoss } from "./measuredLoss";

const caller = "rackLoss.fitLaw";

/** Whether each bar shape has a law of its own, or all share the exponents and differ by their scale. */
export type LawSharing = "each shape its own law" | "a factor by shape";

/**
 * Fits the law ξ = C (P/(1 − P))^a (sin α)^c (1 + oΩ) to measured loss coefficients, by weighted nonlinear least squares.
 *
 * Takes reduced flume runs, or plain records of bar shape, blockage, angle, overlay share and loss coefficient. Where every run
 * has its standard error, weights follow from it and from the spread between settings-up that the repeats show; otherwise all
 * runs weigh the same. Errors that all runs share are added to those of the coefficients. Returns the law of each bar shape
 * with errors, intervals, residuals, tested range and a test of lack of fit against repeats. Valid where the runs were, no further.
 * Throws a RangeError for runs that can't be, too few of them, and coefficients that the runs can't tell apart.
 *
 * @example
 * rackLoss.fitLaw([30, 60, 90].flatMap((angle) => [0.3, 0.4, 0.5].map((blockage, at) => ({
 *   barShape: "rectangular", blockage, rackAngle: u.deg(angle), overlayShare: 0.1 * at,
 *   lossCoefficient: rackLoss.fitted({ scale: 2.6, blockageExponent: 1.5, angleExponent: 1.3, overlayCoefficient: 2,
 *     blockage, rackAngle: u.deg(angle), overlayShare: 0.1 * at }) + (angle === 60 ? 0.01 : -0.01),
 * })))).laws[0].coefficients.angleExponent // => 1.305
 */
export function fitLaw(
  runs: readonly MeasuredLoss[],
  {
    sharing = "each shape its own law",
    level = 0.95,
  }: { readonly sharing?: LawSharing; readonly level?: number } = {},
): LawFit {
  checkLosses(caller, runs);
  if (sharing !== "each shape its own law" && sharing !== "a factor by shape") {
    throw new RangeError(
      `${caller}: sharing is ${JSON.stringify(sharing)}; it must be "each shape its own law" or "a factor by shape".`,
    );
  }
  noteUse(fitted.id);
  const repeats = repeatsOf(runs);
  const settingUp = repeats?.settingUp ?? 0;
  const shapes = [...new Set(runs.map(({ barShape }) => barShape))];
  const groups = sharing === "a factor by shape" ? [shapes] : shapes.map((shape) => [shape]);
  const found = groups.map((members) =>
    fitShapes(
      runs.filter(({ barShape }) => members.includes(barShape)),
      { shapes: members, settingUp, level },
    ),
  );
  const laws = found.flatMap((one) => one.laws);
  const errors = runs.flatMap(({ standardError }) => (standardError === undefined ? [] : [standardError]));
  return {
    method: `${found[0].laws[0].fit.method}; ${sharing}; ${weightsInWords(runs, repeats)}`,
    level,
    laws,
    runs: laws.flatMap((law) => law.runs),
    repeatability: repeats,
    settingUp,
    medianError: errors.length === runs.length ? median(errors) : undefined,
    cautions: [...new Set(found.flatMap((one) => one.cautions))],
  };
}

function weightsInWords(runs: readonly MeasuredLoss[], repeats: Repeatability | undefined): string {
  if (!hasErrors(runs)) return "all runs weigh the same";
  return repeats === undefined
    ? "weights from the runs' own errors"
    : "weights from the runs' own errors and the spread between settings-up";
}

function median(values: readonly number[]): number {
  const ordered = values.toSorted((one, other) => one - other);
  const middle = (ordered.length - 1) / 2;
  return (ordered[Math.floor(middle)] + ordered[Math.ceil(middle)]) / 2;
}
