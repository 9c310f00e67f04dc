import { checkLevel, checkWhole, refuse } from "./checks";
import { rules } from "./proportionMethods";

/** How the interval of a proportion is made. */
export type ProportionMethod = keyof typeof rules;

/** The methods, in the order in which they are usually tabled. */
export const proportionMethods: readonly ProportionMethod[] = [
  "wilson",
  "wilsonCorrected",
  "clopperPearson",
  "midP",
  "agrestiCoull",
  "jeffreys",
];

/** A count out of a number of independent trials. */
export interface Count {
  readonly successes: number;
  readonly trials: number;
}

/** A number with the interval that holds it at a level, and the name of the method. */
export interface Interval<Method extends string = string> {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
  /** Confidence level, 0.95 for a 95 % interval. */
  readonly level: number;
  readonly method: Method;
}

/** A proportion with its interval and the count behind it. */
export interface ProportionInterval extends Interval<ProportionMethod>, Count {}

/** Refuses a count that is no whole number of successes out of at least one trial. */
export function checkCount(where: string, name: string, { successes, trials }: Count): void {
  const prefix = name === "" ? "" : `${name}.`;
  checkWhole(where, `${prefix}trials`, trials, 1);
  checkWhole(where, `${prefix}successes`, successes, 0, trials);
}

/**
 * Interval of a proportion from a count of independent trials.
 *
 * Returns the share and its interval. `method` is "wilson" (the default), "wilsonCorrected", "clopperPearson", "midP",
 * "agrestiCoull" or "jeffreys". Valid for independent trials: fish of one run are not; clusteredInterval takes runs.
 * Clopper–Pearson and the corrected Wilson never cover less often than the level says, and are wide for it; the others
 * cover it on average. Throws a RangeError for counts that are not whole, more successes than trials, a level outside
 * 0..1 and an unknown method.
 *
 * @example
 * statistics.proportionInterval({ successes: 81, trials: 263 }).upper // => 0.3662
 */
export function proportionInterval(options: {
  readonly successes: number;
  readonly trials: number;
  readonly level?: number;
  readonly method?: ProportionMethod;
}): ProportionInterval {
  const where = "statistics.proportionInterval";
  const { successes, trials, level = 0.95, method = "wilson" } = options;
  checkCount(where, "", { successes, trials });
  checkLevel(where, level);
  if (!Object.hasOwn(rules, method))
    refuse(where, `method is "${String(method)}"; the methods are ${proportionMethods.join(", ")}`);
  return {
    estimate: successes / trials,
    ...rules[method](successes, trials, level),
    level,
    method,
    successes,
    trials,
  };
}
