import { proportionInterval } from "../../statistics/proportion";
import type { NotInferred } from "./notInferred";

/** How many answers fall into a category. */
export interface CategoryShare<C extends string | number = string> {
  readonly category: C;
  readonly count: number;
  /** The answers that the share is of: missing ones are not in it. */
  readonly of: number;
  readonly share: number;
  /** Wilson interval of this share by itself. */
  readonly lower: number;
  readonly upper: number;
}

/**
 * Shares of categories among the answers that are known.
 *
 * Returns one row a category, the most frequent first, with counts and the Wilson interval of each share by itself.
 * Categories that nobody named are listed where `categories` names them: none in n answers is not 0 in all plants.
 * Throws a RangeError for no answers.
 *
 * @example
 * survey.shares(["yes", "yes", "no"])[0].share // => 0.667
 */
export function shares<C extends string | number>(
  answers: readonly C[],
  {
    categories = [],
    level,
  }: { readonly categories?: readonly NotInferred<C>[]; readonly level?: number } = {},
): readonly CategoryShare<C>[] {
  if (answers.length === 0) {
    throw new RangeError("survey.shares: there are no answers; give at least one.");
  }
  const counts = new Map<C, number>(categories.map((category) => [category, 0]));
  for (const answer of answers) counts.set(answer, (counts.get(answer) ?? 0) + 1);
  return [...counts]
    .map(([category, count]) => {
      const { estimate, lower, upper } = proportionInterval({
        successes: count,
        trials: answers.length,
        level,
      });
      return { category, count, of: answers.length, share: estimate, lower, upper };
    })
    .toSorted((one, other) => other.count - one.count);
}
