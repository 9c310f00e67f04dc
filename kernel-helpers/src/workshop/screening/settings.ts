import { normalQuantile } from "../../statistics";

/** From here to there, all values equally likely. */
export type Range = readonly [lowest: number, highest: number];

/** The numbers that a screening draws. */
export interface RangeOf {
  /** Relative width up to which nothing protects. */
  readonly threshold: Range;
  /** Of the protection's rise; 1 rises in a straight line. */
  readonly exponent: Range;
  /** Share of strikes that harm. */
  readonly correlation: Range;
  /** Of fish that the rack keeps from the turbine. */
  readonly protectedSurvival: Range;
  /** On the body ratio of the species' table, for each species on its own. */
  readonly bodyFactor: Range;
}

/**
 * The ranges where nothing else is said. The correlation's is the one that the strike equations' source gives; the others
 * are assumptions, as wide as a catchment without trials must take them.
 */
export const usualRanges: RangeOf = {
  threshold: [0.1, 0.4],
  exponent: [0.7, 1.5],
  correlation: [0.1, 0.2],
  protectedSurvival: [0.85, 1],
  bodyFactor: [0.9, 1.1],
};

/** What the results depend on, beside the plants. */
export interface Settings {
  readonly seed: number;
  readonly draws: number;
  readonly classes: number;
  /** Plants in one part of the results. */
  readonly plantsInPart: number;
  readonly ranges: RangeOf;
  readonly species: readonly ScreenedSpecies[];
}

/** One species as the loop reads it. */
export interface ScreenedSpecies {
  readonly species: string;
  /** What it meets a gap with, over its total length. */
  readonly bodyRatio: number;
  /** Median total length in metres. */
  readonly medianLength: number;
  readonly lengthSpread: number;
}

/** Lengths in metres of classes with equal numbers of fish, one species after the other, short to long. */
export function classLengths({ species, classes }: Settings): Float64Array {
  const lengths = new Float64Array(species.length * classes);
  species.forEach(({ medianLength, lengthSpread }, at) => {
    for (let one = 0; one < classes; one++) {
      // The middle of each class by numbers: 1/80, 3/80 … of the fish are shorter, with 40 classes.
      const place = normalQuantile((one + 0.5) / classes);
      lengths[at * classes + one] = medianLength * Math.exp(lengthSpread * place);
    }
  });
  return lengths;
}
