import { defineFormula } from "../formula/formula";
import { velocity } from "../formula/input";
import { derived } from "../formula/source";

/**
 * Kinetic energy of the fluctuations, per mass of water.
 *
 * Returns a number in m²/s². Valid for standard deviations about the means of one steady record; the probe's noise
 * counts as turbulence.
 *
 * @example
 * velocity.turbulentKineticEnergy({ deviationX: u.cmps(5), deviationY: u.cmps(3.5), deviationZ: u.cmps(2.5) }) // => 0.002175
 */
export const turbulentKineticEnergy = defineFormula({
  id: "velocity.turbulentKineticEnergy",
  title: "Turbulent kinetic energy per mass, in m²/s²",
  symbol: "k",
  result: "number",
  inputs: {
    deviationX: velocity("\\sigma_x", { atLeast: 0 }),
    deviationY: velocity("\\sigma_y", { atLeast: 0 }),
    deviationZ: velocity("\\sigma_z", { atLeast: 0 }),
  },
  tex: (q) => `\\tfrac{1}{2}\\left((${q.deviationX})^2 + (${q.deviationY})^2 + (${q.deviationZ})^2\\right)`,
  source: derived("kinetic energy of the three fluctuations, ½(σx² + σy² + σz²)"),
  evaluate: ({ deviationX, deviationY, deviationZ }) =>
    (deviationX ** 2 + deviationY ** 2 + deviationZ ** 2) / 2,
});
