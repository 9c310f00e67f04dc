import {
  type FittedCurveParameter,
  type FitOptions,
  fitProtection,
  type ProtectionFit,
} from "./protectionFit";
import { rampFamily } from "./family";
import type { TrialFish } from "./trialFish";

/** A ramp fitted to a trial. */
export interface RampFit extends ProtectionFit {
  readonly family: "ramp";
  readonly parameters: {
    readonly threshold: FittedCurveParameter;
    readonly exponent: FittedCurveParameter;
    readonly heldAnyway?: FittedCurveParameter;
    readonly passedAnyway?: FittedCurveParameter;
  };
}

/**
 * Fits the ramp of `protection.ramp` to the fish of a trial by binomial likelihood.
 *
 * Returns threshold and exponent with profile-likelihood intervals, widened by the design effect of the clusters (the
 * runs) where these are named; log-likelihood, Akaike's criterion and the design effect. Each fish has a relative width
 * and was held by the rack or passed through it. The ramp takes some outcomes for impossible: a fish held at or below the
 * threshold, and one that passed with relative width 1 or more. `heldAnyway` and `passedAnyway` fit shares of fish that go
 * against the curve; `heldAnyway` is then held and not protected, such as fish that had no time to pass. Valid for one
 * rack and one set of conditions. Throws a RangeError for rows that are no fish, and where no finite ramp is the most
 * likely, saying why.
 *
 * @example
 * protection.fitRamp({ fish: [{ relativeWidth: 0.4, held: 5, fish: 20 }, { relativeWidth: 0.6, held: 10, fish: 20 },
 *   { relativeWidth: 0.8, held: 15, fish: 20 }] }).parameters.exponent.estimate // => 1
 */
export function fitRamp({ fish, ...options }: { readonly fish: readonly TrialFish[] } & FitOptions): RampFit {
  // The family decides which parameters there are.
  return fitProtection("protection.fitRamp", rampFamily, fish, options) as RampFit;
}
