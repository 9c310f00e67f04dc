import { defineFormula } from "../../formula/formula";
import { number, ratio } from "../../formula/input";
import { derived } from "../../formula/source";

/**
 * Design effect to expect of runs with the same number of fish.
 *
 * Returns a number of at least 1: by how much alike fish widen the variance of a share of active fish. Valid for fish that
 * are inactive each by itself; two active fish of one run are as alike as the intra-class correlation says.
 *
 * @example
 * trial.designEffect({ fishPerRun: 4, intraclassCorrelation: 0.2 }) // => 1.6
 */
export const designEffect = defineFormula({
  id: "trial.designEffect",
  title: "Design effect of equal runs",
  symbol: "D",
  result: "number",
  inputs: {
    fishPerRun: number("m", { atLeast: 1 }),
    activeShare: ratio("a", { above: 0, default: 1, note: "share of the fish that are active" }),
    intraclassCorrelation: ratio("\\rho", { note: "how alike two fish of one run are" }),
  },
  tex: (q) => `1 + (${q.fishPerRun} - 1) \\cdot ${q.activeShare} \\cdot ${q.intraclassCorrelation}`,
  source: derived("variance of a sum of trials that are correlated in pairs"),
  evaluate: ({ fishPerRun, activeShare, intraclassCorrelation }) =>
    1 + (fishPerRun - 1) * activeShare * intraclassCorrelation,
});

/**
 * Active fish for a wanted half width of an interval, by the normal approximation.
 *
 * Returns a number of fish to be rounded up. Valid for many fish and shares away from 0 and 1; `runsForInterval` simulates
 * the interval that is really used.
 *
 * @example
 * trial.fishForHalfWidth({ share: 0.8, halfWidth: 0.08, designEffect: 1.6, normalQuantile: 1.96 }) // => 153.7
 */
export const fishForHalfWidth = defineFormula({
  id: "trial.fishForHalfWidth",
  title: "Active fish for a wanted half width, normal approximation",
  symbol: "n",
  result: "number",
  inputs: {
    share: ratio("p", { above: 0, below: 1, note: "the share as far as it is known beforehand" }),
    halfWidth: ratio("h", { above: 0, below: 0.5, note: "half the width of the interval" }),
    designEffect: number("D", { above: 0 }),
    normalQuantile: number("z", { above: 0, default: 1.96, note: "1.96 for a level of 95 %" }),
  },
  tex: (q) =>
    `\\frac{${q.normalQuantile}^2\\,${q.share}\\,(1 - ${q.share})}{${q.halfWidth}^2}\\,${q.designEffect}`,
  source: derived("variance of a share of n fish, p(1 − p)/n, times the design effect"),
  evaluate: ({ share, halfWidth, designEffect: effect, normalQuantile }) =>
    (normalQuantile ** 2 * share * (1 - share) * effect) / halfWidth ** 2,
});
