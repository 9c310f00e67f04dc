import { defineFormula } from "../formula/formula";
import { kinematicViscosity, length, number, velocity } from "../formula/input";
import { derived } from "../formula/source";
import { usualSizes } from "../formula/usualSizes";

/**
 * Reynolds number of a bar: whether a laboratory model works in the same regime as the plant.
 *
 * Returns a plain number. Valid as a criterion; the viscosity is that of water at 10 °C unless told otherwise.
 *
 * @example
 * rack.barReynolds({ approachVelocity: u.mps(0.56), barThickness: u.mm(8) }) // => 3446
 */
export const barReynolds = defineFormula({
  id: "rack.barReynolds",
  title: "Reynolds number of a bar",
  symbol: "R_s",
  result: "number",
  inputs: {
    approachVelocity: velocity("U", { atLeast: 0, usual: usualSizes.approachVelocity }),
    barThickness: length("s", { above: 0, unit: "mm", usual: usualSizes.barThickness }),
    kinematicViscosity: kinematicViscosity("\\nu", { above: 0, default: 1.3e-6, note: "of water at 10 °C" }),
  },
  tex: (q) => `\\frac{${q.approachVelocity}\\cdot ${q.barThickness}}{${q.kinematicViscosity}}`,
  source: derived("definition; inertia over viscosity"),
  evaluate: ({ approachVelocity, barThickness, kinematicViscosity: viscosity }) =>
    (approachVelocity * barThickness) / viscosity,
});

/**
 * Reynolds number of a bar in a laboratory model with the same Froude number, from the values in nature.
 *
 * Returns a plain number. Velocity and bar both shrink, so that it falls with the power 1.5 of the length scale. Valid
 * for a bar that is shrunk with the channel; the viscosity is that of the model's water, 10 °C unless told otherwise.
 *
 * @example
 * rack.modelBarReynolds({ approachVelocity: u.mps(0.56), barThickness: u.mm(8), lengthScale: 4 }) // => 431
 */
export const modelBarReynolds = defineFormula({
  id: "rack.modelBarReynolds",
  title: "Reynolds number of a bar in a Froude model",
  symbol: "R_{s,m}",
  result: "number",
  inputs: {
    approachVelocity: velocity("U", {
      atLeast: 0,
      usual: usualSizes.approachVelocity,
      note: "in nature",
    }),
    barThickness: length("s", {
      above: 0,
      unit: "mm",
      usual: usualSizes.barThickness,
      note: "in nature",
    }),
    lengthScale: number("\\lambda", {
      above: 0,
      note: "a length in nature over the same length in the model",
    }),
    kinematicViscosity: kinematicViscosity("\\nu", {
      above: 0,
      default: 1.3e-6,
      note: "of the model's water; at 10 °C unless told",
    }),
  },
  tex: (q) =>
    `\\frac{${q.approachVelocity}\\cdot ${q.barThickness}}{${q.kinematicViscosity}\\cdot ${q.lengthScale}^{3/2}}`,
  source: derived("definition of the Reynolds number; equal Froude number in nature and model"),
  evaluate: ({ approachVelocity, barThickness, lengthScale, kinematicViscosity: viscosity }) =>
    (approachVelocity * barThickness) / (viscosity * lengthScale ** 1.5),
});
