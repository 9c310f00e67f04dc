import { defineFormula } from "../formula/formula";
import { length, rotationalSpeed } from "../formula/input";
import { memory } from "../formula/source";
import { usualSizes } from "../formula/usualSizes";
import { clipShare } from "./clipShare";
import { toleranceCaution } from "./regressionTolerance";

/**
 * Mortality of eel in a Kaplan turbine.
 *
 * Returns a share 0..1, cut off at both ends. Valid for eel.
 *
 * @example
 * turbine.mortalityKaplanEel({ totalLength: u.mm(700), runnerDiameter: u.m(1.95),
 *                              rotationalSpeed: u.rpm(187.5) }) // => 0.4538
 */
export const mortalityKaplanEel = defineFormula({
  id: "turbine.mortalityKaplanEel",
  title: "Mortality of eel, Kaplan",
  symbol: "M",
  result: "ratio",
  inputs: {
    totalLength: length("TL", { above: 0, usual: usualSizes.totalLength }),
    runnerDiameter: length("D", { above: 0 }),
    rotationalSpeed: rotationalSpeed("n", { above: 0 }),
  },
  tex: (q) =>
    `\\frac{4.67}{100}\\left(\\frac{${q.totalLength}}{1\\,\\mathrm{m}}\\right)^{1.53}` +
    `\\left(\\frac{${q.runnerDiameter}}{1\\,\\mathrm{m}}\\right)^{-0.48}` +
    `\\left(\\frac{${q.rotationalSpeed}}{1\\,\\mathrm{rpm}}\\right)^{0.6},\\quad 0 \\le M \\le 1`,
  source: memory(
    "Gomes & Larinier 2008, Dommages subis par les anguilles lors de leur passage au travers des turbines Kaplan",
  ),
  validity: "eel",
  caution: () => [
    toleranceCaution,
    "the sign of the last exponent (+0.6, of rotational speed) was reasoned, not read in the source.",
    "fitted to eel; other species lie outside.",
  ],
  evaluate: ({ totalLength, runnerDiameter, rotationalSpeed: turns }) =>
    clipShare((4.67 * totalLength ** 1.53 * runnerDiameter ** -0.48 * (60 * turns) ** 0.6) / 100),
});
