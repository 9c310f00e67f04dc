import { refuse } from "../../statistics/checks";
import { logisticFamily } from "./family";
import {
  type FittedCurveParameter,
  type FitOptions,
  fitProtection,
  type ProtectionFit,
} from "./protectionFit";
import type { TrialFish } from "./trialFish";

/** An S-shaped curve fitted to a trial. */
export interface LogisticFit extends ProtectionFit {
  readonly family: "logistic";
  readonly parameters: {
    readonly midpoint: FittedCurveParameter;
    readonly steepness: FittedCurveParameter;
    readonly heldAnyway?: FittedCurveParameter;
    readonly passedAnyway?: FittedCurveParameter;
  };
}

/**
 * Fits the S-shaped curve of `protection.logistic` to the fish of a trial by binomial likelihood.
 *
 * Returns midpoint and steepness with profile-likelihood intervals, widened by the design effect of the clusters (the
 * runs) where these are named; log-likelihood, Akaike's criterion and the design effect. Each fish has a relative width
 * and was held by the rack or passed through it. `heldAnyway` and `passedAnyway` fit shares of fish that go against the
 * curve. Valid for one rack and one set of conditions. Throws a RangeError for rows that are no fish, and where no finite
 * rising curve is the most likely, saying why.
 *
 * @example
 * protection.fitLogistic({ fish: [{ relativeWidth: 0.4, held: 5, fish: 20 }, { relativeWidth: 0.6, held: 10, fish: 20 },
 *   { relativeWidth: 0.8, held: 15, fish: 20 }] }).parameters.midpoint.estimate // => 0.6
 */
export function fitLogistic({
  fish,
  ...options
}: { readonly fish: readonly TrialFish[] } & FitOptions): LogisticFit {
  const where = "protection.fitLogistic";
  // The family decides which parameters there are.
  const fit = fitProtection(where, logisticFamily, fish, options) as LogisticFit;
  const { midpoint } = fit.parameters;
  if (midpoint.estimate < 0)
    refuse(
      where,
      `the midpoint came out at ${midpoint.estimate}: even the slimmest fish are mostly held, and the curve's middle lies ` +
        "below relative width 0; fit heldAnyway, or try slimmer fish",
    );
  return fit;
}
