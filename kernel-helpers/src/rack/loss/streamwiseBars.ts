import { defineFormula } from "../../formula/formula";
import { number, ratio } from "../../formula/input";
import { published } from "../../formula/source";
import { blockageTerm } from "./blockageTerm";

/**
 * Loss coefficient of an angled rack whose vertical bars stand in the flow's direction.
 *
 * Returns a plain number that refers to the approach velocity, the same for every rack angle. Valid for vertical bars
 * set streamwise.
 *
 * @example
 * rackLoss.streamwiseBars({ barCoefficient: 2.89, blockage: 0.45 }) // => 2.0963
 */
export const streamwiseBars = defineFormula({
  id: "rackLoss.streamwiseBars",
  title: "Loss coefficient of an angled rack with streamwise vertical bars",
  symbol: "\\xi",
  result: "number",
  inputs: {
    barCoefficient: number("K", { above: 0, note: "2.89 rectangular, 1.70 hydrodynamic" }),
    blockage: ratio("O", { below: 1 }),
  },
  tex: (q) => `${q.barCoefficient}\\left(\\frac{${q.blockage}}{1 - ${q.blockage}}\\right)^{1.6}`,
  source: published(
    "Raynal et al. 2014, abstract: no dependence on the rack angle; the values of K are from memory, not re-read",
  ),
  validity: "vertical bars in the flow's direction, every rack angle",
  evaluate: ({ barCoefficient, blockage }) => barCoefficient * blockageTerm(blockage, 1.6),
});
