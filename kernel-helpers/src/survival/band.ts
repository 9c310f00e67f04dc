import { barrierLength, relativeWidth } from "../fish/body";
import { noteUse } from "../formula/usage";
import type { Length } from "../quantity/dimension";
import { checkLevel, refuse } from "../statistics/checks";
import { percentile } from "../statistics/clustering/clusterBootstrap";
import { checkLength, type ProtectionOfWidth, sizeClassAt, type SizeClassLaws } from "./sizeClass";
import { total } from "./total";

/** The ends between which most of the draws lie. */
export interface DrawnRange {
  readonly lower: number;
  readonly upper: number;
}

/** Total survival under many draws of the protection curve; one entry a length, in the order given. */
export interface SurvivalBand {
  readonly clearSpacing: Length;
  readonly totalLength: readonly Length[];
  readonly lower: readonly number[];
  readonly upper: readonly number[];
  readonly level: number;
  readonly draws: number;
  /** Where the lowest inner minimum lies and how low it is; undefined where fewer than half of the draws have one. */
  readonly lowest:
    | { readonly totalLength: DrawnRange; readonly totalSurvival: DrawnRange; readonly draws: number }
    | undefined;
  readonly method: string;
}

/**
 * The band of total survival that the uncertainty of a protection curve leaves, at one clear spacing.
 *
 * Returns the percentiles of total survival at each length over the laws given, such as `protection.laws` of a bootstrapped
 * fit, and those of the lowest minimum among the lengths, ends excluded. The band is pointwise, and it holds the
 * uncertainty of the protection curve alone: turbine, bodies and protected survival are taken as given. Lengths must rise.
 * Throws a RangeError for fewer than 20 laws, lengths that don't rise, and a law that gives anything but a share.
 *
 * @example
 * survival.band({ protections: Array.from({ length: 21 }, (_, at) => protection.rampLaw({ threshold: 0.02 * at })),
 *   bodyRatio: 0.1, turbineSurvival: () => 0.5, protectedSurvival: 1, clearSpacing: u.mm(18),
 *   lengths: [u.mm(90), u.mm(180)] }).upper[1] // => 1
 */
export function band({
  protections,
  clearSpacing,
  lengths,
  level = 0.95,
  ...laws
}: Omit<SizeClassLaws, "protection"> & {
  readonly protections: readonly ProtectionOfWidth[];
  readonly clearSpacing: Length;
  readonly lengths: readonly Length[];
  readonly level?: number;
}): SurvivalBand {
  const where = "survival.band";
  checkLevel(where, level);
  if (protections.length < 20)
    refuse(where, `there are ${protections.length} protection laws; percentiles need at least 20 draws`);
  checkLength(where, "clearSpacing", clearSpacing);
  lengths.forEach((one, at) => {
    checkLength(where, `lengths[${at}]`, one);
    if (at > 0 && !(one > lengths[at - 1]))
      refuse(where, `lengths[${at}] is not above the one before; give lengths in rising order`);
  });
  if (lengths.length === 0) refuse(where, "lengths is empty; give at least one");
  // The checked call refuses a body ratio outside 0 to 1.
  barrierLength({ clearSpacing, widthRatio: laws.bodyRatio });
  noteUse(relativeWidth.id);
  noteUse(total.id);

  // All laws but the protection are the same for every draw.
  const fixed = lengths.map((length) => laws.turbineSurvival(length));
  const curves = protections.map((protection) => {
    let at = 0;
    const turbineSurvival = (): number => fixed[at];
    const classAt = sizeClassAt(where, { ...laws, turbineSurvival, protection }, clearSpacing);
    return lengths.map((length, place) => {
      at = place;
      return classAt(length).totalSurvival;
    });
  });
  const rangeOf = (values: readonly number[]): DrawnRange => {
    const sorted = values.toSorted((a, b) => a - b);
    return { lower: percentile(sorted, (1 - level) / 2), upper: percentile(sorted, (1 + level) / 2) };
  };
  const ranges = lengths.map((_, place) => rangeOf(curves.map((curve) => curve[place])));
  const minima = curves.flatMap((curve) => {
    const place = lowestInside(curve);
    return place === undefined ? [] : [{ length: lengths[place], survival: curve[place] }];
  });
  return {
    clearSpacing,
    totalLength: [...lengths],
    lower: ranges.map(({ lower }) => lower),
    upper: ranges.map(({ upper }) => upper),
    level,
    draws: protections.length,
    lowest:
      minima.length < protections.length / 2
        ? undefined
        : {
            totalLength: rangeOf(minima.map(({ length }) => length)),
            totalSurvival: rangeOf(minima.map(({ survival }) => survival)),
            draws: minima.length,
          },
    method: "percentiles over the protection laws, pointwise",
  };
}

/** The place of the lowest value that is lower than its neighbours on both sides; none where the ends are lowest. */
function lowestInside(values: readonly number[]): number | undefined {
  const inner = values.flatMap((value, at) =>
    at > 0 && at < values.length - 1 && value < values[at - 1] && value <= values[at + 1] ? [at] : [],
  );
  if (inner.length === 0) return undefined;
  return inner.reduce((best, at) => (values[at] < values[best] ? at : best));
}
