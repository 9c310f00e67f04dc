import { defineFormula } from "../formula/formula";
import { length, printValue, ratio } from "../formula/input";
import { derived } from "../formula/source";
import { freeFall, waterDensity } from "../quantity/constants";

/**
 * Water load on a rack that debris has blocked.
 *
 * Returns the force in newtons. A screening value: hydrostatic pressure alone on the blocked share of an upright rack.
 * Throws where the water stands higher behind the rack than before it.
 *
 * @example
 * rack.hydrostaticLoad({ upstreamDepth: u.m(3.6), downstreamDepth: u.m(3.1), width: u.m(17),
 *                        blockedShare: 0.5 }) // => 139.67 kN
 */
export const hydrostaticLoad = defineFormula({
  id: "rack.hydrostaticLoad",
  title: "Hydrostatic load on a blocked rack",
  symbol: "F",
  result: "force",
  unit: "kN",
  inputs: {
    upstreamDepth: length("h_1", { above: 0 }),
    downstreamDepth: length("h_2", { atLeast: 0 }),
    width: length("B", { above: 0, note: "along the rack: its length where it stands at an angle in plan" }),
    blockedShare: ratio("c", {}),
  },
  tex: (q) =>
    `\\tfrac{1}{2}\\,\\rho g\\left(${q.upstreamDepth}^2 - ${q.downstreamDepth}^2\\right)\\cdot ` +
    `${q.width}\\cdot ${q.blockedShare}`,
  source: derived("hydrostatic pressure before and behind an upright wall"),
  refuse: ({ upstreamDepth, downstreamDepth }) =>
    downstreamDepth > upstreamDepth
      ? `downstreamDepth is ${printValue(downstreamDepth, "length")}; it must be at most upstreamDepth, ` +
        `${printValue(upstreamDepth, "length")}.`
      : undefined,
  caution: () => [
    "a screening value without impact, ice, waves or a safety factor; the structure is for a licensed engineer.",
  ],
  evaluate: ({ upstreamDepth, downstreamDepth, width, blockedShare }) =>
    0.5 * waterDensity * freeFall * (upstreamDepth ** 2 - downstreamDepth ** 2) * width * blockedShare,
});
