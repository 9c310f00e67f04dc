import { defineFormula } from "../formula/formula";
import { formatNumber } from "../quantity/format";
import {
  axialInputs,
  axialStrike,
  axialStrikeTex,
  coefficientSteps,
  type AxialRunner,
  eulerTangent,
  eulerTex,
  flow,
} from "./axialStrike";
import { dischargeCoefficient } from "./runnerCoefficients";
import { bestDischargeInput, strikeSource } from "./strikeInputs";

interface PropellerRunner extends AxialRunner {
  readonly bestDischarge: number;
}

const bestFlow = (runner: PropellerRunner): number =>
  dischargeCoefficient(runner.bestDischarge, runner.rotationalSpeed, runner.runnerDiameter);

/** Off its best discharge a fixed blade leaves swirl in the water; that swirl adds to the inflow's. */
const inflowTangent = (runner: PropellerRunner): number =>
  eulerTangent(runner) + (Math.PI / 8) * runner.radiusRatio * (1 / flow(runner) - 1 / bestFlow(runner));

/**
 * Chance that a blade of a propeller runner strikes and harms a fish.
 *
 * Returns a probability 0..1, cut off at both ends. The correlation factor is the share of strikes that harm, so no
 * injury share comes on top. Valid for runners with fixed blades; at the best discharge it equals
 * `turbine.strikeKaplan`. Refused where the water would swirl against the runner.
 *
 * @example
 * turbine.strikePropeller({ totalLength: u.mm(200), discharge: u.m3ps(12), bestDischarge: u.m3ps(14.5),
 *                           head: u.m(5.3), runnerDiameter: u.m(1.95), rotationalSpeed: u.rpm(187.5),
 *                           efficiency: 0.85, blades: 4, radiusRatio: 0.75, correlation: 0.15 }) // => 0.07587
 */
export const strikePropeller = defineFormula({
  id: "turbine.strikePropeller",
  title: "Strike probability, propeller",
  symbol: "P",
  result: "ratio",
  inputs: {
    ...axialInputs,
    bestDischarge: bestDischargeInput,
  },
  steps: {
    ...coefficientSteps,
    bestFlow: {
      title: "Discharge coefficient at the best efficiency",
      symbol: "q_b",
      result: "number",
      tex: (q) =>
        `\\frac{${q.bestDischarge}}{2\\pi \\cdot ${q.rotationalSpeed} \\cdot ${q.runnerDiameter}^3}`,
      evaluate: bestFlow,
    },
    inflowAngle: {
      title: "Inflow angle to the axis",
      symbol: "a",
      result: "angle",
      tex: (q, steps) =>
        `\\arctan\\left(${eulerTex(q, steps)} + \\frac{\\pi}{8} \\cdot \\frac{${q.radiusRatio}}{${steps.flow}} - ` +
        `\\frac{\\pi}{8} \\cdot \\frac{${q.radiusRatio}}{${steps.bestFlow}}\\right)`,
      evaluate: (runner) => Math.atan(inflowTangent(runner)),
    },
  },
  tex: axialStrikeTex,
  source: strikeSource,
  validity: "runners with fixed blades, water turning with the runner",
  refuse: (runner) => {
    const tangent = inflowTangent(runner);
    if (tangent >= 0) return undefined;
    const degrees = formatNumber((Math.atan(tangent) * 180) / Math.PI);
    return (
      `the swirl is reversed: at this discharge the inflow angle is ${degrees}°, against the runner, ` +
      "which the equation does not describe; give a discharge nearer to bestDischarge."
    );
  },
  evaluate: (runner) => axialStrike(runner, inflowTangent(runner)),
});
