/** A parameter's known truth and the interval that a fit gave it. */
export interface Recovered {
  readonly parameter: string;
  readonly truth: number;
  readonly lower: number;
  readonly upper: number;
}

/** How often an interval held the truth. */
export interface Coverage {
  readonly parameter: string;
  readonly sets: number;
  readonly held: number;
  readonly share: number;
}

/** Data sets a fit is tried on. */
export const sets = 200;

/**
 * Fits that many seeded data sets and counts how often the truth lies in the interval.
 *
 * Prints one line a parameter: the table of `npm run check:recovery`. `fit` draws a data set with the seed, fits it, and
 * gives every parameter's truth and 95 % interval. A fit that throws counts against it: the error is not caught.
 */
export function coverageOf(title: string, fit: (seed: number) => readonly Recovered[]): Coverage[] {
  const held = new Map<string, number>();
  for (let seed = 1; seed <= sets; seed++) {
    for (const { parameter, truth, lower, upper } of fit(seed)) {
      held.set(parameter, (held.get(parameter) ?? 0) + (lower <= truth && truth <= upper ? 1 : 0));
    }
  }
  return [...held].map(([parameter, count]) => {
    const share = count / sets;
    console.log(
      `${title}: ${parameter}: the truth lies in ${count} of ${sets} intervals (${(100 * share).toFixed(1)} %)`,
    );
    return { parameter, sets, held: count, share };
  });
}
