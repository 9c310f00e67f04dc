import { defineFormula } from "../formula/formula";
import { discharge, length, ratio, velocity } from "../formula/input";
import { derived, memory } from "../formula/source";
import { usualSizes } from "../formula/usualSizes";
import { angleToHorizontal } from "./angles";

/**
 * Rack area that keeps the velocity square to the rack at a permitted value.
 *
 * Returns the effective area in square metres: structural members, sills and piers come on top. Valid for flow spread
 * evenly over the rack.
 *
 * @example
 * rack.requiredArea({ discharge: u.m3ps(34), permittedNormalVelocity: u.mps(0.5) }) // => 68 m²
 */
export const requiredArea = defineFormula({
  id: "rack.requiredArea",
  title: "Rack area for a permitted normal velocity",
  symbol: "A_e",
  result: "area",
  inputs: {
    discharge: discharge("Q", { atLeast: 0 }),
    permittedNormalVelocity: velocity("V_n", { above: 0 }),
  },
  tex: (q) => `\\frac{${q.discharge}}{${q.permittedNormalVelocity}}`,
  source: derived("continuity; the area excludes structural members"),
  evaluate: ({ discharge: flow, permittedNormalVelocity }) => flow / permittedNormalVelocity,
});

/**
 * Gross area of an inclined rack, bars and a share kept clogged by debris included.
 *
 * Returns the area in square metres. Valid for pre-design of upright or inclined racks square to the flow in plan.
 *
 * @example
 * rack.grossArea({ discharge: u.m3ps(3), permittedVelocity: u.mps(1), barThickness: u.mm(12),
 *                  clearSpacing: u.mm(70), inclination: u.deg(60), cleaningFactor: 0.8 }) // => 5.0724 m²
 */
export const grossArea = defineFormula({
  id: "rack.grossArea",
  title: "Gross area of the rack",
  symbol: "S",
  result: "area",
  inputs: {
    discharge: discharge("Q", { atLeast: 0 }),
    permittedVelocity: velocity("v", { above: 0 }),
    barThickness: length("t", { above: 0, unit: "mm", usual: usualSizes.barThickness }),
    clearSpacing: length("b", { above: 0, unit: "mm", usual: usualSizes.clearSpacing }),
    inclination: angleToHorizontal({}),
    cleaningFactor: ratio("K", { above: 0, note: "share of the rack that cleaning keeps open" }),
  },
  tex: (q) =>
    `\\frac{1}{${q.cleaningFactor}}\\cdot\\frac{${q.barThickness} + ${q.clearSpacing}}{${q.clearSpacing}}` +
    `\\cdot\\frac{${q.discharge}}{${q.permittedVelocity}}\\cdot\\frac{1}{\\sin ${q.inclination}}`,
  source: memory(
    "European Small Hydropower Association 2004, Guide on How to Develop a Small Hydropower Plant, ch. 5",
  ),
  validity: "pre-design of racks square to the flow in plan",
  evaluate: ({
    discharge: flow,
    permittedVelocity,
    barThickness,
    clearSpacing,
    inclination,
    cleaningFactor,
  }) =>
    ((1 / cleaningFactor) * ((barThickness + clearSpacing) / clearSpacing) * (flow / permittedVelocity)) /
    Math.sin(inclination),
});
