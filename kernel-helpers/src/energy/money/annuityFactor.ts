import { defineFormula } from "../../formula/formula";
import { number } from "../../formula/input";
import { derived } from "../../formula/source";

/**
 * Annuity factor: what one unit of money, borrowed or bound now, costs each year.
 *
 * Returns a plain number a year. Valid for equal payments at the end of each year and one rate of interest; without
 * interest it is one over the years.
 *
 * @example
 * energy.annuityFactor({ interestRate: 0.1, years: 10 }) // => 0.16275
 */
export const annuityFactor = defineFormula({
  id: "energy.annuityFactor",
  title: "Annuity factor",
  symbol: "a",
  result: "number",
  inputs: {
    interestRate: number("i", { atLeast: 0, atMost: 1, usual: [0, 0.2], note: "a year: 0.04 is 4 per cent" }),
    years: number("n", { above: 0, note: "over which the sum is paid back" }),
  },
  tex: (q) =>
    `\\frac{${q.interestRate}\\left(1 + ${q.interestRate}\\right)^{${q.years}}}` +
    `{\\left(1 + ${q.interestRate}\\right)^{${q.years}} - 1}`,
  source: derived("equal payments whose present values add up to the sum"),
  // expm1 and log1p keep the digits of a rate near 0, where the fraction is 0/0 and its limit 1/n.
  evaluate: ({ interestRate, years }) =>
    interestRate === 0 ? 1 / years : interestRate / -Math.expm1(-years * Math.log1p(interestRate)),
});
