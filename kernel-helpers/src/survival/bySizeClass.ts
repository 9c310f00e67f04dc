import { barrierLength, relativeWidth } from "../fish/body";
import { noteUse } from "../formula/usage";
import type { Length } from "../quantity/dimension";
import { checkLength, sizeClassAt, type SizeClassLaws } from "./sizeClass";
import { total } from "./total";

/** Survival at one clear spacing; every list has one entry a length, in the order given. All shares are 0..1. */
export interface SurvivalBySizeClass {
  readonly clearSpacing: Length;
  /** Total length from which the body no longer passes the gap. */
  readonly barrierLength: Length;
  readonly totalLength: readonly Length[];
  readonly relativeWidth: readonly number[];
  readonly protection: readonly number[];
  readonly turbineSurvival: readonly number[];
  readonly protectedSurvival: readonly number[];
  readonly totalSurvival: readonly number[];
  /** Whether the turbine law's inputs lie in its tested range, as far as that range is known. */
  readonly tested: readonly boolean[];
  /** Every caution of the laws that holds for at least one of the lengths, once. */
  readonly cautions: readonly string[];
}

/**
 * Survival by size class for one or several clear spacings.
 *
 * Returns one result a spacing, with protection, turbine survival and total survival of every length. Valid where the
 * laws are; their cautions come along. Throws a RangeError for a law that gives anything but a share 0..1, naming law,
 * value and length.
 *
 * @example
 * survival.bySizeClass({ clearSpacings: [u.mm(18)], lengths: [u.mm(90)], bodyRatio: 0.1,
 *   protection: protection.rampLaw({ threshold: 0.2, exponent: 1 }), turbineSurvival: () => 0.9,
 *   protectedSurvival: 0.98 })[0].totalSurvival[0] // => 0.93
 */
export function bySizeClass({
  clearSpacings,
  lengths,
  ...laws
}: SizeClassLaws & {
  readonly clearSpacings: readonly Length[];
  readonly lengths: readonly Length[];
}): readonly SurvivalBySizeClass[] {
  if (clearSpacings.length === 0 || lengths.length === 0) {
    throw new RangeError("survival.bySizeClass: give at least one clear spacing and one length.");
  }
  clearSpacings.forEach((spacing, at) =>
    checkLength("survival.bySizeClass", `clearSpacings[${at}]`, spacing),
  );
  lengths.forEach((totalLength, at) => checkLength("survival.bySizeClass", `lengths[${at}]`, totalLength));
  const { bodyRatio, protection, turbineSurvival } = laws;
  const tested = lengths.map((totalLength) => turbineSurvival.tested?.(totalLength) ?? true);
  const cautions = [
    ...(protection.cautions ?? []),
    ...lengths.flatMap((totalLength) => turbineSurvival.cautions?.(totalLength) ?? []),
    ...total.cautions({ protection: 0, turbineSurvival: 0, protectedSurvival: 0 }),
  ];
  noteUse(relativeWidth.id);
  noteUse(total.id);
  return clearSpacings.map((clearSpacing) => {
    const classAt = sizeClassAt("survival.bySizeClass", laws, clearSpacing);
    // The checked call refuses a body ratio outside 0 to 1.
    const barrier = barrierLength({ clearSpacing, widthRatio: bodyRatio });
    const classes = lengths.map((totalLength) => classAt(totalLength));
    return {
      clearSpacing,
      barrierLength: barrier,
      totalLength: [...lengths],
      relativeWidth: classes.map((one) => one.relativeWidth),
      protection: classes.map((one) => one.protection),
      turbineSurvival: classes.map((one) => one.turbineSurvival),
      protectedSurvival: classes.map((one) => one.protectedSurvival),
      totalSurvival: classes.map((one) => one.totalSurvival),
      tested,
      cautions: [...new Set(cautions)],
    };
  });
}
