import { defineFormula } from "../formula/formula";
import { ratio, velocity } from "../formula/input";
import { derived } from "../formula/source";
import { usualSizes } from "../formula/usualSizes";
import { angleInPlan, planCosine } from "./angles";

/**
 * Velocity square to the rack, at which a fish that holds still is pressed towards the bars.
 *
 * Returns the velocity in metres per second. Valid for uniform approach flow; it is the mean over the gross rack area.
 *
 * @example
 * rack.normalVelocity({ approachVelocity: u.mps(0.56), rackAngle: u.deg(38) }) // => 0.34477 m/s
 */
export const normalVelocity = defineFormula({
  id: "rack.normalVelocity",
  title: "Velocity square to the rack",
  symbol: "V_n",
  result: "velocity",
  inputs: {
    approachVelocity: velocity("U", { atLeast: 0, usual: usualSizes.approachVelocity }),
    rackAngle: angleInPlan({}),
  },
  tex: (q) => `${q.approachVelocity}\\,\\sin ${q.rackAngle}`,
  source: derived(
    "approach velocity split along and across the rack; confirmed for horizontal bars by Lemkecher et al. 2021, " +
      "J. Hydraul. Res. 60(1)",
  ),
  evaluate: ({ approachVelocity, rackAngle }) => approachVelocity * Math.sin(rackAngle),
});

/**
 * Velocity along the rack, which carries fish towards the bypass.
 *
 * Returns the velocity in metres per second; 0 where the rack stands square to the flow. Valid for uniform approach
 * flow.
 *
 * @example
 * rack.tangentialVelocity({ approachVelocity: u.mps(0.56), rackAngle: u.deg(38) }) // => 0.44129 m/s
 */
export const tangentialVelocity = defineFormula({
  id: "rack.tangentialVelocity",
  title: "Velocity along the rack",
  symbol: "V_t",
  result: "velocity",
  inputs: {
    approachVelocity: velocity("U", { atLeast: 0, usual: usualSizes.approachVelocity }),
    rackAngle: angleInPlan({}),
  },
  tex: (q) => `${q.approachVelocity}\\,\\cos ${q.rackAngle}`,
  source: derived(
    "approach velocity split along and across the rack; confirmed for horizontal bars by Lemkecher et al. 2021, " +
      "J. Hydraul. Res. 60(1)",
  ),
  evaluate: ({ approachVelocity, rackAngle }) => approachVelocity * planCosine(rackAngle),
});

/**
 * Mean velocity between the bars.
 *
 * Returns the velocity in metres per second. Valid for flow spread evenly over the open area; the peak between two
 * bars is higher.
 *
 * @example
 * rack.gapVelocity({ normalVelocity: u.mps(0.345), blockage: 0.308 }) // => 0.49855 m/s
 */
export const gapVelocity = defineFormula({
  id: "rack.gapVelocity",
  title: "Mean velocity between the bars",
  symbol: "V_g",
  result: "velocity",
  inputs: {
    normalVelocity: velocity("V_n", { atLeast: 0 }),
    blockage: ratio("P", { below: 1 }),
  },
  tex: (q) => `\\frac{${q.normalVelocity}}{1 - ${q.blockage}}`,
  source: derived("continuity between gross and open rack area"),
  evaluate: ({ normalVelocity: across, blockage }) => across / (1 - blockage),
});
