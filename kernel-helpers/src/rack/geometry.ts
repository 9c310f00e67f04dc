import { defineFormula } from "../formula/formula";
import { length, ratio } from "../formula/input";
import { derived } from "../formula/source";
import { usualSizes } from "../formula/usualSizes";
import { angleInPlan } from "./angles";

/**
 * Length of a rack that crosses the channel at an angle.
 *
 * Returns the length in metres, along the rack. Valid for a straight rack across a channel with parallel walls;
 * 90° is square to the flow.
 *
 * @example
 * rack.length({ channelWidth: u.m(17), rackAngle: u.deg(38) }) // => 27.613 m
 */
export const rackLength = defineFormula({
  id: "rack.length",
  title: "Length of the rack",
  symbol: "L_r",
  result: "length",
  inputs: {
    channelWidth: length("B", { above: 0, usual: usualSizes.channelWidth }),
    rackAngle: angleInPlan({}),
  },
  tex: (q) => `\\frac{${q.channelWidth}}{\\sin ${q.rackAngle}}`,
  source: derived("geometry of a straight rack in a channel with parallel walls"),
  evaluate: ({ channelWidth, rackAngle }) => channelWidth / Math.sin(rackAngle),
});

/**
 * Share of the rack that bars and supports block.
 *
 * Returns a ratio 0..1. Valid for bars of one thickness at one spacing.
 *
 * @example
 * rack.blockage({ barThickness: u.mm(8), clearSpacing: u.mm(18) }) // => 0.30769
 */
export const blockage = defineFormula({
  id: "rack.blockage",
  title: "Blockage of the rack",
  symbol: "P",
  result: "ratio",
  inputs: {
    barThickness: length("s", { above: 0, unit: "mm", usual: usualSizes.barThickness }),
    clearSpacing: length("b", { above: 0, unit: "mm", usual: usualSizes.clearSpacing }),
    supportShare: ratio("k", { default: 0, note: "share of the rack behind supports and spacers" }),
  },
  tex: (q) =>
    `1 - \\frac{${q.clearSpacing}}{${q.clearSpacing} + ${q.barThickness}}\\left(1 - ${q.supportShare}\\right)`,
  source: derived("open area of bars and supports over the gross area"),
  evaluate: ({ barThickness, clearSpacing, supportShare }) =>
    1 - (clearSpacing / (clearSpacing + barThickness)) * (1 - supportShare),
});
