import * as fc from "fast-check";
import type { statistics } from "kernel-helpers";

/** Clusters from pairs of successes and trials. */
export const clusters = (...pairs: readonly (readonly [number, number])[]): readonly statistics.Cluster[] =>
  pairs.map(([successes, trials]) => ({ successes, trials }));

/** Any two to thirty clusters of one to twelve trials. */
export const anyClusters = fc.array(
  fc
    .integer({ min: 1, max: 12 })
    .chain((trials) =>
      fc.record({ trials: fc.constant(trials), successes: fc.integer({ min: 0, max: trials }) }),
    ),
  { minLength: 2, maxLength: 30 },
);

/** Whether trials of both outcomes, and clusters of more than one, are among them. */
export const informative = (some: readonly statistics.Cluster[]): boolean => {
  const successes = some.reduce((sum, one) => sum + one.successes, 0);
  const trials = some.reduce((sum, one) => sum + one.trials, 0);
  return successes > 0 && successes < trials && some.some((one) => one.trials > 1);
};

/** Clusters of one size drawn from a beta-binomial, trial by trial: each success makes the next one likelier. */
export function drawClusters(
  uniform: () => number,
  law: { readonly count: number; readonly size: number; readonly mean: number; readonly correlation: number },
): readonly statistics.Cluster[] {
  const { count, size, mean, correlation } = law;
  return Array.from({ length: count }, () => {
    let successes = 0;
    for (let drawn = 0; drawn < size; drawn++) {
      const chance =
        (mean * (1 - correlation) + successes * correlation) / (1 - correlation + drawn * correlation);
      if (uniform() < chance) successes += 1;
    }
    return { successes, trials: size };
  });
}
