import { defineFormula } from "../../formula/formula";
import { number, velocity } from "../../formula/input";
import { derived } from "../../formula/source";
import { usualSizes } from "../../formula/usualSizes";
import { velocityHead } from "./velocityHead";

/**
 * Head loss from a loss coefficient.
 *
 * Returns the head loss in metres. Valid for a coefficient that refers to the mean velocity in the approach channel.
 *
 * @example
 * rackLoss.fromCoefficient({ lossCoefficient: 0.8, approachVelocity: u.mps(0.56) }) // => 0.012787 m
 */
export const fromCoefficient = defineFormula({
  id: "rackLoss.fromCoefficient",
  title: "Head loss from a loss coefficient",
  symbol: "\\Delta h",
  result: "length",
  inputs: {
    lossCoefficient: number("\\xi", { atLeast: 0 }),
    approachVelocity: velocity("U", { atLeast: 0, usual: usualSizes.approachVelocity }),
  },
  tex: (q) => `${q.lossCoefficient}\\cdot\\frac{${q.approachVelocity}^2}{2g}`,
  source: derived("definition of the loss coefficient"),
  evaluate: ({ lossCoefficient, approachVelocity }) => lossCoefficient * velocityHead(approachVelocity),
});
