import { defineFormula } from "../../formula/formula";
import { angle, velocity } from "../../formula/input";
import { published } from "../../formula/source";
import { usualSizes } from "../../formula/usualSizes";
import { u } from "../../quantity/u";
import { velocityHead } from "./velocityHead";

/**
 * Head loss that comes on top where the flow meets vertical bars at an angle and must turn between them.
 *
 * Returns the head loss in metres, to be added to that of the rack met straight on. Valid for vertical bars.
 *
 * @example
 * rackLoss.obliqueFlow({ approachVelocity: u.mps(0.6), deviation: u.deg(30) }) // => 0.0091743 m
 */
export const obliqueFlow = defineFormula({
  id: "rackLoss.obliqueFlow",
  title: "Extra head loss of oblique flow",
  symbol: "\\Delta h_\\delta",
  result: "length",
  inputs: {
    approachVelocity: velocity("U", { atLeast: 0, usual: usualSizes.approachVelocity }),
    deviation: angle("\\delta", { atLeast: 0, atMost: u.deg(90), note: "between flow and the bars' axis" }),
  },
  tex: (q) => `\\sin ${q.deviation}\\cdot\\frac{${q.approachVelocity}^2}{2g}`,
  source: published("Dandekar & Sharma, Water Power Engineering"),
  validity: "vertical bars; added to the head loss of the rack met straight on",
  evaluate: ({ approachVelocity, deviation }) => Math.sin(deviation) * velocityHead(approachVelocity),
});
