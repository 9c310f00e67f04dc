import { betaCdf, betaQuantile, normalQuantile } from "./distributions";
import { rootBetween } from "./root";

/** The two ends of an interval. */
export interface Ends {
  readonly lower: number;
  readonly upper: number;
}

/** An interval's rule: successes, trials and level to the two ends. */
type Rule = (successes: number, trials: number, level: number) => Ends;

/** The normal quantile that leaves (1 − level)/2 on either side. */
export const twoSided = (level: number): number => normalQuantile((1 + level) / 2);

// What rounding carries past 0 or 1, or an interval that is symmetric by construction, ends there.
const within = (lower: number, upper: number): Ends => ({
  lower: Math.max(0, lower),
  upper: Math.min(1, upper),
});

// With no success the lower end is exactly 0, with nothing else the upper end exactly 1, whatever the rounding.
const pinned = (successes: number, trials: number, { lower, upper }: Ends): Ends => ({
  lower: successes === 0 ? 0 : lower,
  upper: successes === trials ? 1 : upper,
});

/** Score interval (Wilson 1927) for a normal quantile, which a simulation then works out once. */
export const wilsonOf = (z: number, successes: number, trials: number): Ends => {
  const share = successes / trials;
  const middle = share + (z * z) / (2 * trials);
  const reach = z * Math.sqrt((share * (1 - share)) / trials + (z / (2 * trials)) ** 2);
  const scale = 1 + (z * z) / trials;
  return pinned(successes, trials, within((middle - reach) / scale, (middle + reach) / scale));
};

/** Score interval. Counts need not be whole: effective counts of clustered trials come here too. */
export const wilson: Rule = (successes, trials, level) => wilsonOf(twoSided(level), successes, trials);

/** Score interval with continuity correction, as Newcombe 1998 writes it. */
const wilsonCorrected: Rule = (successes, trials, level) => {
  const z = twoSided(level);
  const share = successes / trials;
  const rest = 1 - share;
  const middle = 2 * trials * share + z * z;
  const scale = 2 * (trials + z * z);
  const below = z * Math.sqrt(z * z - 2 - 1 / trials + 4 * share * (trials * rest + 1));
  const above = z * Math.sqrt(z * z + 2 - 1 / trials + 4 * share * (trials * rest - 1));
  return {
    lower: successes === 0 ? 0 : Math.max(0, (middle - 1 - below) / scale),
    upper: successes === trials ? 1 : Math.min(1, (middle + 1 + above) / scale),
  };
};

/** The interval that holds every share under which neither tail of the count is rarer than (1 − level)/2. */
const clopperPearson: Rule = (successes, trials, level) => {
  const tail = (1 - level) / 2;
  return {
    lower: successes === 0 ? 0 : betaQuantile(tail, { alpha: successes, beta: trials - successes + 1 }),
    upper:
      successes === trials ? 1 : betaQuantile(1 - tail, { alpha: successes + 1, beta: trials - successes }),
  };
};

/** As Clopper–Pearson, with half of the observed count's own probability in each tail. */
const midP: Rule = (successes, trials, level) => {
  const tail = (1 - level) / 2;
  const atLeast = (count: number, share: number): number =>
    count === 0 ? 1 : count > trials ? 0 : betaCdf(share, { alpha: count, beta: trials - count + 1 });
  const upperTail = (share: number): number =>
    (atLeast(successes, share) + atLeast(successes + 1, share)) / 2;
  return {
    lower: successes === 0 ? 0 : rootBetween((share) => upperTail(share) - tail, 0, 1),
    upper: successes === trials ? 1 : rootBetween((share) => upperTail(share) - (1 - tail), 0, 1),
  };
};

/** The plain normal interval around the middle of Wilson's (Agresti & Coull 1998), cut off at 0 and 1. */
const agrestiCoull: Rule = (successes, trials, level) => {
  const z = twoSided(level);
  const widened = trials + z * z;
  const middle = (successes + (z * z) / 2) / widened;
  const reach = z * Math.sqrt((middle * (1 - middle)) / widened);
  return within(middle - reach, middle + reach);
};

/** Equal tails of the posterior under Jeffreys' prior (Brown, Cai & DasGupta 2001: 0 at no success, 1 at nothing else). */
const jeffreys: Rule = (successes, trials, level) => {
  const tail = (1 - level) / 2;
  const shape = { alpha: successes + 0.5, beta: trials - successes + 0.5 };
  return pinned(successes, trials, {
    lower: betaQuantile(tail, shape),
    upper: betaQuantile(1 - tail, shape),
  });
};

export const rules = { wilson, wilsonCorrected, clopperPearson, midP, agrestiCoull, jeffreys };
