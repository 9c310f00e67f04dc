import { defineFormula } from "../../formula/formula";
import { number, velocity } from "../../formula/input";
import { derived } from "../../formula/source";
import { usualSizes } from "../../formula/usualSizes";
import { velocityHead } from "../loss/velocityHead";
import { countTwice } from "./lossFactor";

/**
 * Head loss of a rack with debris, from the loss coefficient of the clean rack.
 *
 * Returns the head loss in metres. Valid for a coefficient that refers to the mean velocity in the approach channel and
 * holds no debris yet.
 *
 * @example
 * clogging.headLoss({ cleanLossCoefficient: 0.52, lossFactor: 6, approachVelocity: u.mps(0.556) }) // => 0.049159 m
 */
export const headLoss = defineFormula({
  id: "clogging.headLoss",
  title: "Head loss of a rack with debris",
  symbol: "\\Delta h",
  result: "length",
  inputs: {
    cleanLossCoefficient: number("\\xi_0", { atLeast: 0, note: "of the clean rack" }),
    lossFactor: number("k", { atLeast: 1 }),
    approachVelocity: velocity("U", { atLeast: 0, usual: usualSizes.approachVelocity }),
  },
  tex: (q) => `${q.cleanLossCoefficient}\\cdot ${q.lossFactor}\\cdot\\frac{${q.approachVelocity}^2}{2g}`,
  source: derived("definitions of the loss coefficient and the loss factor"),
  caution: ({ lossFactor }) => (lossFactor > 1 ? [countTwice] : []),
  evaluate: ({ cleanLossCoefficient, lossFactor, approachVelocity }) =>
    cleanLossCoefficient * lossFactor * velocityHead(approachVelocity),
});
