import { betaCdf } from "../../statistics/distributions";
import { checkLevel } from "../../statistics/checks";
import { quantileOf, sorted } from "./quantiles";

/** Fewer answers than this are called few; common practice, no source. */
const fewAnswers = 20;

/** How the answers to a question spread, in the unit of the values (SI). */
export interface Distribution<V extends number = number> {
  readonly count: number;
  readonly least: V;
  readonly lowerQuartile: V;
  readonly median: V;
  readonly upperQuartile: V;
  readonly most: V;
  /**
   * Two answers between which the median of all such plants lies, and how surely; none where too few answered for the
   * level asked for.
   */
  readonly medianInterval: { readonly lower: V; readonly upper: V; readonly covers: number } | undefined;
  /** Whether so few answered that the quartiles hang on single plants. */
  readonly few: boolean;
}

/**
 * Median, quartiles and range of the answers to a question.
 *
 * Returns the five values and an interval for the median from two answers in order: it needs no law of distribution,
 * and covers at least what the level asks, more exactly `covers`. Quartiles follow definition 7 of Hyndman and Fan
 * 1996. `few` is true below 20 answers unless `fewBelow` says otherwise (common practice, no source). Throws a
 * RangeError for no values and values that are not finite.
 *
 * @example
 * survey.distribution([10, 12, 12, 15, 15, 15, 18, 20, 20, 30]).medianInterval.covers // => 0.9785
 */
export function distribution<V extends number>(
  values: readonly V[],
  { level = 0.95, fewBelow = fewAnswers }: { readonly level?: number; readonly fewBelow?: number } = {},
): Distribution<V> {
  checkLevel("survey.distribution", level);
  const rising = sorted("distribution", values);
  // Each is one of the values or lies between two of them.
  const at = (share: number): V => quantileOf(rising, share) as V;
  return {
    count: rising.length,
    least: at(0),
    lowerQuartile: at(0.25),
    median: at(0.5),
    upperQuartile: at(0.75),
    most: at(1),
    medianInterval: medianInterval(rising as readonly V[], level),
    few: rising.length < fewBelow,
  };
}

/** The k-th least and k-th most answers with the largest k that still covers the level. */
function medianInterval<V extends number>(
  rising: readonly V[],
  level: number,
): { readonly lower: V; readonly upper: V; readonly covers: number } | undefined {
  const count = rising.length;
  // At most k − 1 of n answers lie below the median: a binomial tail at one half, by the incomplete beta function.
  const coversWith = (k: number): number => 1 - 2 * betaCdf(0.5, { alpha: count - k + 1, beta: k });
  let best: number | undefined;
  for (let k = 1; 2 * k <= count && coversWith(k) >= level; k += 1) best = k;
  return best === undefined
    ? undefined
    : { lower: rising[best - 1], upper: rising[count - best], covers: coversWith(best) };
}
