import { spillShare } from "../../survival";
import { uniforms } from "../../statistics/random";
import type { CatchmentPlant } from "./plantRecord";
import type { Range, Settings } from "./settings";
import { strikeSlope } from "./strikeSlope";

/** What the screening says of one species at one plant. Shares are 0..1. */
export interface Screened {
  readonly plant: string;
  readonly species: string;
  /** Mean over the draws of the survival of all fish, spillway included. */
  readonly survival: number;
  /** 95 % of the draws lie between. */
  readonly lower: number;
  readonly upper: number;
  /** Total length in metres of the class that fares worst at rack and turbine, on the mean of the draws. */
  readonly worstLength: number;
  readonly worstSurvival: number;
}

/** The numbers of one plant's draws. */
interface Drawn {
  readonly threshold: Float64Array;
  readonly exponent: Float64Array;
  readonly correlation: Float64Array;
  readonly protectedSurvival: Float64Array;
}

const between = ([lowest, highest]: Range, uniform: number): number => lowest + (highest - lowest) * uniform;

/** A whole number of 32 bits from a text (FNV-1a), so that a plant's draws do not depend on its place in the file. */
export function hashOf(text: string): number {
  let hash = 0x811c9dc5;
  for (let at = 0; at < text.length; at++) {
    hash ^= text.charCodeAt(at);
    hash = Math.imul(hash, 0x01000193);
  }
  return hash >>> 0;
}

/** The screening of one plant: `lengths` are those of `classLengths`, the same for all plants. */
export function screenPlant(plant: CatchmentPlant, settings: Settings, lengths: Float64Array): Screened[] {
  const { seed, draws, classes, ranges, species } = settings;
  const slope = strikeSlope(plant);
  const spilled = spillShare.evaluate({
    spillFlowShare: plant.spillFlowShare,
    effectiveness: plant.spillEffectiveness,
  });
  const uniform = uniforms((hashOf(plant.plant) ^ seed) >>> 0);
  const column = (range: Range): Float64Array =>
    Float64Array.from({ length: draws }, () => between(range, uniform()));
  // In this order for every plant: another one would change all results.
  const drawn: Drawn = {
    threshold: column(ranges.threshold),
    exponent: column(ranges.exponent),
    correlation: column(ranges.correlation),
    protectedSurvival: column(ranges.protectedSurvival),
  };
  const survivals = new Float64Array(draws);
  const byClass = new Float64Array(classes);
  return species.map(({ species: name, bodyRatio }, at) => {
    const widths = column(ranges.bodyFactor);
    for (let draw = 0; draw < draws; draw++) widths[draw] *= bodyRatio / plant.clearSpacing;
    const own = lengths.subarray(at * classes, (at + 1) * classes);
    sweep(own, slope, widths, drawn, survivals, byClass);
    let sum = 0;
    for (let draw = 0; draw < draws; draw++) {
      survivals[draw] = spilled * plant.spillSurvival + (1 - spilled) * survivals[draw];
      sum += survivals[draw];
    }
    survivals.sort();
    let worst = 0;
    for (let one = 1; one < classes; one++) if (byClass[one] < byClass[worst]) worst = one;
    return {
      plant: plant.plant,
      species: name,
      survival: sum / draws,
      lower: percentile(survivals, 0.025),
      upper: percentile(survivals, 0.975),
      worstLength: own[worst],
      worstSurvival: byClass[worst] / draws,
    };
  });
}

/**
 * Total survival of every class in every draw: relative width, protection, strike and their sum, fused into one loop.
 *
 * Fills `survivals` with the mean over the classes, one entry a draw, and `byClass` with the sum over the draws.
 */
function sweep(
  lengths: Float64Array,
  slope: number,
  widths: Float64Array,
  { threshold, exponent, correlation, protectedSurvival }: Drawn,
  survivals: Float64Array,
  byClass: Float64Array,
): void {
  const classes = lengths.length;
  byClass.fill(0);
  for (let draw = 0; draw < survivals.length; draw++) {
    const from = threshold[draw];
    const perWidth = 1 / (1 - from);
    const rise = exponent[draw];
    const strike = slope * correlation[draw];
    const guarded = protectedSurvival[draw];
    const width = widths[draw];
    let sum = 0;
    for (let one = 0; one < classes; one++) {
      const length = lengths[one];
      const relativeWidth = width * length;
      const through = 1 - Math.min(1, strike * length);
      // A power is an exponential of a logarithm; Math.pow takes longer for cases that don't occur here.
      const protection =
        relativeWidth >= 1
          ? 1
          : relativeWidth <= from
            ? 0
            : Math.exp(rise * Math.log((relativeWidth - from) * perWidth));
      const survival = through + protection * (guarded - through);
      sum += survival;
      byClass[one] += survival;
    }
    survivals[draw] = sum / classes;
  }
}

/** Between ranks in a straight line, the first value at 0 and the last at 1. */
function percentile(sorted: Float64Array, share: number): number {
  const rank = share * (sorted.length - 1);
  const below = Math.floor(rank);
  const above = Math.min(sorted.length - 1, below + 1);
  return sorted[below] + (rank - below) * (sorted[above] - sorted[below]);
}
