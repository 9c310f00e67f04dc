import { noteUse } from "../formula/usage";
import type { PlainNumber } from "../quantity/dimension";
import { barrier } from "./barrier";
import { logistic } from "./logistic";
import { illustrativeExponent, illustrativeThreshold, ramp } from "./ramp";

/** What a protection law says about itself. */
interface AboutProtection {
  readonly title: string;
  /** Relative widths at which the law bends or jumps; a search for minima looks at both sides of them. */
  readonly breaks: readonly number[];
  /** What to keep in mind about the law. */
  readonly cautions: readonly string[];
}

/** Protection as a function of relative width alone: call it with a relative width, it returns a share 0..1. */
export interface ProtectionLaw extends AboutProtection {
  (relativeWidth: PlainNumber): number;
}

/** A function of relative width with what it says about itself. */
export const lawOf = (share: (relativeWidth: number) => number, about: AboutProtection): ProtectionLaw =>
  Object.assign((relativeWidth: number) => share(relativeWidth), about);

/**
 * The body alone as a protection law.
 *
 * Returns a function of relative width that gives 0 or 1.
 *
 * @example
 * protection.barrierLaw()(0.99) // => 0
 */
export function barrierLaw(): ProtectionLaw {
  noteUse(barrier.id);
  return lawOf((relativeWidth) => barrier.evaluate({ relativeWidth }), {
    title: "body alone",
    breaks: [1],
    cautions: barrier.cautions({ relativeWidth: 1 }),
  });
}

/**
 * The ramp as a protection law, its threshold and exponent fixed.
 *
 * Returns a function of relative width that gives a share 0..1. Throws a RangeError for a threshold or an exponent
 * that `protection.ramp` refuses.
 *
 * @example
 * protection.rampLaw({ threshold: 0.2, exponent: 1 })(0.6) // => 0.5
 */
export function rampLaw({
  threshold = illustrativeThreshold,
  exponent = illustrativeExponent,
}: { readonly threshold?: PlainNumber; readonly exponent?: PlainNumber } = {}): ProtectionLaw {
  // Asking for the cautions checks threshold and exponent once; the loop then runs bare.
  const cautions = ramp.cautions({ relativeWidth: 1, threshold, exponent });
  noteUse(ramp.id);
  return lawOf((relativeWidth) => ramp.evaluate({ relativeWidth, threshold, exponent }), {
    title: `ramp, threshold ${threshold}, exponent ${exponent}`,
    breaks: [threshold, 1],
    cautions,
  });
}

/**
 * The S-shaped curve as a protection law, its midpoint and steepness fixed.
 *
 * Returns a function of relative width that gives a share between 0 and 1. Throws a RangeError for a midpoint or a
 * steepness that `protection.logistic` refuses.
 *
 * @example
 * protection.logisticLaw({ midpoint: 0.6, steepness: 8 })(0.6) // => 0.5
 */
export function logisticLaw({
  midpoint,
  steepness,
}: {
  readonly midpoint: PlainNumber;
  readonly steepness: PlainNumber;
}): ProtectionLaw {
  const cautions = logistic.cautions({ relativeWidth: 1, midpoint, steepness });
  noteUse(logistic.id);
  return lawOf((relativeWidth) => logistic.evaluate({ relativeWidth, midpoint, steepness }), {
    title: `S-shaped, midpoint ${midpoint}, steepness ${steepness}`,
    breaks: [],
    cautions,
  });
}
