import { barrierLength } from "../../fish/body";
import { noteUse } from "../../formula/usage";
import type { Length } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { checkRange } from "../lengthClasses";
import { checkLength, sizeClassAt, type SizeClassLaws } from "../sizeClass";
import { total } from "../total";
import { reasonForNone } from "./reason";
import { refine } from "./refine";
import { scanPoints, valleys } from "./scan";

/** A length at which total survival is lower than at the lengths around it. */
export interface LocalMinimum {
  readonly totalLength: Length;
  readonly relativeWidth: number;
  readonly totalSurvival: number;
  /** Protected survival of this length less its total survival: what full protection would still gain here. */
  readonly depth: number;
}

/** Every local minimum over length, or none and why. */
export interface LocalMinima {
  readonly minima: readonly LocalMinimum[];
  /** Why there is none; undefined where there is one. */
  readonly reason: string | undefined;
}

/** Breaks that every protection law may have, where a plain function names none: the barrier. */
const usualBreaks: readonly number[] = [1];

/**
 * Every local minimum of total survival over length, at one clear spacing.
 *
 * Returns the minima from short to long, each with its length, total survival and depth (protected survival of that
 * length less its total survival), or none and the reason. Valid for laws whose bends and dips are wider than the step
 * (0.1 mm unless told otherwise); the bends of `protection`'s laws are met exactly. A flat minimum is given by its
 * shortest length; at a jump the minimum is the length just short of it. The ends of the range are no minima.
 *
 * @example
 * survival.localMinima({ clearSpacing: u.mm(18), bodyRatio: 0.1, protection: protection.barrierLaw(),
 *   turbineSurvival: (length) => 1 - length, protectedSurvival: 0.98, shortest: u.mm(50),
 *   longest: u.mm(400) }).minima[0].totalSurvival // => 0.82
 */
export function localMinima({
  clearSpacing,
  shortest,
  longest,
  step = u.mm(0.1),
  ...laws
}: SizeClassLaws & {
  readonly clearSpacing: Length;
  readonly shortest: Length;
  readonly longest: Length;
  readonly step?: Length;
}): LocalMinima {
  checkLength("survival.localMinima", "clearSpacing", clearSpacing);
  checkRange("survival.localMinima", { shortest, longest, step });
  const barrier = barrierLength({ clearSpacing, widthRatio: laws.bodyRatio });
  noteUse(total.id);
  const classAt = sizeClassAt("survival.localMinima", laws, clearSpacing);
  const curve = (totalLength: number): number => classAt(totalLength).totalSurvival;
  const breaks = laws.protection.breaks ?? usualBreaks;
  const points = scanPoints(
    shortest,
    longest,
    step,
    breaks.map((width) => width * barrier),
  );
  const lengths = points.map((point) => point.at);
  const classes = lengths.map(classAt);
  const totals = classes.map((one) => one.totalSurvival);
  const minima = valleys(totals).map((valley): LocalMinimum => {
    const { at } = refine(curve, points, totals, valley);
    const lowest = classAt(at);
    return {
      totalLength: u.m(at),
      relativeWidth: lowest.relativeWidth,
      totalSurvival: lowest.totalSurvival,
      depth: lowest.protectedSurvival - lowest.totalSurvival,
    };
  });
  return { minima, reason: minima.length > 0 ? undefined : reasonForNone(lengths, classes, barrier) };
}
