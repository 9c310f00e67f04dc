import { defineFormula } from "../formula/formula";
import { angle, length, velocity } from "../formula/input";
import { derived } from "../formula/source";
import { usualSizes } from "../formula/usualSizes";
import { u } from "../quantity/u";
import { planCosine } from "./angles";

/**
 * Time in which the flow carries a fish along the whole rack to the bypass.
 *
 * Returns the time in seconds, the longest of all entry points. Valid for a straight rack in uniform flow and a fish
 * that drifts along it; a rack square to the flow is refused, since nothing sweeps along it.
 *
 * @example
 * rack.sweepTime({ channelWidth: u.m(17), rackAngle: u.deg(38), approachVelocity: u.mps(0.56) }) // => 62.573 s
 */
export const sweepTime = defineFormula({
  id: "rack.sweepTime",
  title: "Time to sweep along the rack",
  symbol: "t_s",
  result: "time",
  inputs: {
    channelWidth: length("B", { above: 0, usual: usualSizes.channelWidth }),
    rackAngle: angle("\\alpha", {
      above: 0,
      below: u.deg(90),
      note: "in plan, between rack and flow; at 90° nothing sweeps along the rack",
    }),
    approachVelocity: velocity("U", { above: 0, usual: usualSizes.approachVelocity }),
  },
  tex: (q) =>
    `\\frac{${q.channelWidth} / \\sin ${q.rackAngle}}{${q.approachVelocity}\\,\\cos ${q.rackAngle}}`,
  source: derived("length of the rack over the velocity along it"),
  evaluate: ({ channelWidth, rackAngle, approachVelocity }) =>
    channelWidth / Math.sin(rackAngle) / (approachVelocity * planCosine(rackAngle)),
});
