import { defineFormula } from "../formula/formula";
import { length, mass, number } from "../formula/input";
import { published } from "../formula/source";
import { usualSizes } from "../formula/usualSizes";

const froese = "Froese 2006, J. Appl. Ichthyol. 22:241";

// The relation is written for grams and centimetres; a metre has 100 cm, a kilogram 1000 g.
const centimetres = (metres: number): number => metres * 100;
const grams = (kilograms: number): number => kilograms * 1000;

/**
 * Weight of a fish from its length.
 *
 * Returns the weight in kilograms; coefficient and exponent belong to grams and centimetres, as they are printed.
 * Valid within the lengths that the relation was fitted to.
 *
 * @example
 * fish.weight({ totalLength: u.cm(20), coefficient: 0.01, exponent: 3.1 }) // => 107.94 g
 */
export const weight = defineFormula({
  id: "fish.weight",
  title: "Weight from length",
  symbol: "W",
  result: "mass",
  unit: "g",
  inputs: {
    totalLength: length("TL", { above: 0, unit: "cm", usual: usualSizes.totalLength }),
    coefficient: number("a", { above: 0, note: "of the relation in grams and centimetres" }),
    exponent: number("b", { above: 0 }),
  },
  tex: (q) =>
    `${q.coefficient}\\left(\\frac{${q.totalLength}}{1\\,\\mathrm{cm}}\\right)^{${q.exponent}}\\,\\mathrm{g}`,
  source: published(`the form: ${froese}; coefficient and exponent are the user's`),
  caution: ({ exponent }) =>
    exponent > 2.5 && exponent < 3.5
      ? []
      : [`the exponent is ${exponent}; expected is above 2.5 and below 3.5 (${froese}).`],
  evaluate: ({ totalLength, coefficient, exponent }) =>
    (coefficient * centimetres(totalLength) ** exponent) / 1000,
});

/**
 * Condition factor: how stout a fish is for its length.
 *
 * Returns a plain number. Valid for comparing fish of one species and similar length.
 *
 * @example
 * fish.conditionFactor({ weight: u.g(96), totalLength: u.cm(20) }) // => 1.2
 */
export const conditionFactor = defineFormula({
  id: "fish.conditionFactor",
  title: "Condition factor",
  symbol: "K",
  result: "number",
  inputs: {
    weight: mass("W", { above: 0, unit: "g" }),
    totalLength: length("TL", { above: 0, unit: "cm", usual: usualSizes.totalLength }),
  },
  tex: (q) =>
    `100\\,\\frac{${q.weight}}{1\\,\\mathrm{g}}\\left(\\frac{1\\,\\mathrm{cm}}{${q.totalLength}}\\right)^3`,
  source: published(`the form: ${froese}`),
  evaluate: ({ weight: kilograms, totalLength }) => (100 * grams(kilograms)) / centimetres(totalLength) ** 3,
});
