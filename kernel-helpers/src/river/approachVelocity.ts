import { defineFormula } from "../formula/formula";
import { discharge, length } from "../formula/input";
import { derived } from "../formula/source";
import { usualSizes } from "../formula/usualSizes";

/**
 * Mean velocity in the approach channel upstream of the rack.
 *
 * Returns the velocity in metres per second. Valid for a rectangular channel; rack losses and velocities refer to it.
 *
 * @example
 * river.approachVelocity({ discharge: u.m3ps(34), width: u.m(17), depth: u.m(3.6) }) // => 0.55556 m/s
 */
export const approachVelocity = defineFormula({
  id: "river.approachVelocity",
  title: "Approach velocity",
  symbol: "U",
  result: "velocity",
  inputs: {
    discharge: discharge("Q", { atLeast: 0 }),
    width: length("B", { above: 0, usual: usualSizes.channelWidth }),
    depth: length("h", { above: 0 }),
  },
  tex: (q) => `\\frac{${q.discharge}}{${q.width}\\cdot ${q.depth}}`,
  source: derived("continuity in a rectangular channel"),
  evaluate: ({ discharge: flow, width, depth }) => flow / (width * depth),
});
