import { defineFormula } from "../formula/formula";
import { count } from "../formula/input";
import { published } from "../formula/source";

/**
 * Universal threshold: about the largest of so many independent normal numbers, in standard deviations.
 *
 * Returns a number without unit. Valid for independent normal samples; correlated ones stay below it, so that it is
 * the more careful.
 *
 * @example
 * velocity.universalThreshold({ samples: 1500 }) // => 3.8245
 */
export const universalThreshold = defineFormula({
  id: "velocity.universalThreshold",
  title: "Universal threshold",
  symbol: "\\lambda_U",
  result: "number",
  inputs: { samples: count("n", { atLeast: 2 }) },
  tex: (q) => `\\sqrt{2 \\ln ${q.samples}}`,
  source: published("Goring & Nikora 2002, J. Hydraul. Eng. 128(1): 117–126"),
  evaluate: ({ samples }) => Math.sqrt(2 * Math.log(samples)),
});
