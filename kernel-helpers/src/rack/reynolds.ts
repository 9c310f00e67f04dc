import { defineFormula } from "../formula/formula";
import { kinematicViscosity, length, velocity } from "../formula/input";
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
