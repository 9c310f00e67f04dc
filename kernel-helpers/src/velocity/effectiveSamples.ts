import { defineFormula } from "../formula/formula";
import { count, ratio } from "../formula/input";
import { published } from "../formula/source";

/**
 * How many independent samples a record is worth whose fluctuations fade by the same factor from sample to sample.
 *
 * Returns a number without unit; the standard error of the mean is the standard deviation over its root. Valid for long
 * records and a correlation of the next sample's fluctuation that is a power law, r, r², r³ and on.
 *
 * @example
 * velocity.effectiveSamples({ samples: 1500, persistence: 0.9 }) // => 78.947
 */
export const effectiveSamples = defineFormula({
  id: "velocity.effectiveSamples",
  title: "Independent samples that a record is worth",
  symbol: "n_e",
  result: "number",
  inputs: {
    samples: count("n", { atLeast: 2 }),
    persistence: ratio("r_1", {
      below: 1,
      note: "correlation of a fluctuation with that of the next sample",
    }),
  },
  tex: (q) => `${q.samples}\\,\\frac{1 - ${q.persistence}}{1 + ${q.persistence}}`,
  source: published("Zwiers & von Storch 1995, J. Climate 8: 336–351, for a geometric correlation"),
  evaluate: ({ samples, persistence }) => (samples * (1 - persistence)) / (1 + persistence),
});
