import { defineFormula } from "../formula/formula";
import { number } from "../formula/input";
import { practice } from "../formula/source";

/**
 * Protection as an S-shaped curve of relative width.
 *
 * Returns a share between 0 and 1 that reaches neither: a fish wider than the gap keeps a small chance to pass. Valid
 * for comparing fits; prefer a shape that reaches 1 for blocked fish.
 *
 * @example
 * protection.logistic({ relativeWidth: 0.6, midpoint: 0.6, steepness: 8 }) // => 0.5
 */
export const logistic = defineFormula({
  id: "protection.logistic",
  title: "Protection as an S-shaped curve",
  symbol: "\\varphi",
  result: "ratio",
  inputs: {
    relativeWidth: number("w", { atLeast: 0, note: "body width or height over clear spacing" }),
    midpoint: number("m", { atLeast: 0, note: "relative width at which half are protected" }),
    steepness: number("k", { above: 0 }),
  },
  tex: (q) =>
    `\\frac{1}{1 + \\exp\\left(-${q.steepness}\\left(${q.relativeWidth} - ${q.midpoint}\\right)\\right)}`,
  source: practice("a general shape, for comparing fits"),
  validity: "a general shape that reaches neither 0 nor 1",
  caution: () => [
    "the shape is general, not a measured law, and reaches neither 0 nor 1; midpoint and steepness must come from trials.",
  ],
  evaluate: ({ relativeWidth, midpoint, steepness }) =>
    1 / (1 + Math.exp(-steepness * (relativeWidth - midpoint))),
});
