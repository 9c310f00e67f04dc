import { defineFormula } from "../formula/formula";
import { angle, count, discharge, length } from "../formula/input";
import { derived } from "../formula/source";
import { usualSizes } from "../formula/usualSizes";
import { format } from "../quantity/format";
import { u } from "../quantity/u";
import { speedInput } from "./strikeInputs";

const annulus = (runnerDiameter: number, hubDiameter: number): number =>
  (Math.PI / 4) * (runnerDiameter ** 2 - hubDiameter ** 2);

const hubTooWide = (hubDiameter: number, runnerDiameter: number): string | undefined =>
  hubDiameter < runnerDiameter
    ? undefined
    : `hubDiameter is ${format(u.m(hubDiameter), "m")}; it must be below runnerDiameter, ${format(u.m(runnerDiameter), "m")}.`;

/**
 * Water that passes between two blades following each other, measured along the flow.
 *
 * Returns the length in metres: a fish this long, drifting with the water, can't slip between two blades. Valid for
 * axial runners, with the inflow angle of the water against the axis.
 *
 * @example
 * turbine.waterLength({ discharge: u.m3ps(17), rotationalSpeed: u.rpm(187.5), blades: 4, runnerDiameter: u.m(1.95),
 *                       hubDiameter: u.m(0.82), inflowAngle: u.deg(29.8) }) // => 0.63751 m
 */
export const waterLength = defineFormula({
  id: "turbine.waterLength",
  title: "Water length between two blades",
  symbol: "s",
  result: "length",
  inputs: {
    discharge: discharge("Q", { above: 0 }),
    rotationalSpeed: speedInput,
    blades: count("N", {}),
    runnerDiameter: length("D", { above: 0 }),
    hubDiameter: length("d", { atLeast: 0 }),
    inflowAngle: angle("a", { atLeast: 0, below: u.deg(90), note: "absolute flow to the axis" }),
  },
  steps: {
    area: {
      title: "Area between hub and runner's edge",
      symbol: "A",
      result: "area",
      tex: (q) => `\\frac{\\pi}{4}\\left(${q.runnerDiameter}^2 - ${q.hubDiameter}^2\\right)`,
      evaluate: ({ runnerDiameter, hubDiameter }) => annulus(runnerDiameter, hubDiameter),
    },
  },
  tex: (q, steps) =>
    `\\frac{${q.discharge}}{${q.rotationalSpeed} \\cdot ${q.blades} \\cdot ${steps.area} \\cdot \\cos ${q.inflowAngle}}`,
  source: derived("continuity and the time between two blades; the kernel of von Raben 1957"),
  validity: "axial runners; fish drifting with the water",
  refuse: ({ hubDiameter, runnerDiameter }) => hubTooWide(hubDiameter, runnerDiameter),
  evaluate: ({ discharge: flow, rotationalSpeed: turns, blades, runnerDiameter, hubDiameter, inflowAngle }) =>
    flow / (turns * blades * annulus(runnerDiameter, hubDiameter) * Math.cos(inflowAngle)),
});

/**
 * Chance that a blade strikes a fish, from its length and the water length.
 *
 * Returns a probability 0..1. Valid for stiff fish that lie along the flow and drift with it.
 *
 * @example
 * turbine.strikeProbability({ totalLength: u.mm(200), waterLength: u.m(0.64) }) // => 0.3125
 */
export const strikeProbability = defineFormula({
  id: "turbine.strikeProbability",
  title: "Strike probability from the water length",
  symbol: "P",
  result: "ratio",
  inputs: {
    totalLength: length("L", { above: 0, unit: "mm", usual: usualSizes.totalLength }),
    waterLength: length("s", { above: 0 }),
  },
  tex: (q) => `\\min\\left(1,\\; \\frac{${q.totalLength}}{${q.waterLength}}\\right)`,
  source: derived("fish length over the water that passes between two blades; the kernel of von Raben 1957"),
  validity: "stiff fish along the flow, drifting with it",
  evaluate: ({ totalLength, waterLength: water }) => Math.min(1, totalLength / water),
});

/**
 * Distance between two blades, halfway between hub and runner's edge.
 *
 * Returns the length in metres, along the circle. Valid for axial runners.
 *
 * @example
 * turbine.bladeSpacing({ runnerDiameter: u.m(1.95), hubDiameter: u.m(0.82), blades: 4 }) // => 1.0878 m
 */
export const bladeSpacing = defineFormula({
  id: "turbine.bladeSpacing",
  title: "Blade spacing at mid-blade",
  symbol: "e",
  result: "length",
  inputs: {
    runnerDiameter: length("D", { above: 0 }),
    hubDiameter: length("d", { atLeast: 0 }),
    blades: count("N", {}),
  },
  tex: (q) => `\\frac{\\pi}{${q.blades}} \\cdot \\frac{${q.runnerDiameter} + ${q.hubDiameter}}{2}`,
  source: derived("the circle through mid-blade, shared among the blades"),
  refuse: ({ hubDiameter, runnerDiameter }) => hubTooWide(hubDiameter, runnerDiameter),
  evaluate: ({ runnerDiameter, hubDiameter, blades }) =>
    ((Math.PI / blades) * (runnerDiameter + hubDiameter)) / 2,
});
