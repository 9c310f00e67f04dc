import { defineFormula } from "../formula/formula";
import { pressure } from "../formula/input";
import { memory } from "../formula/source";

/**
 * Chance of a mortal injury from falling pressure.
 *
 * Returns a probability 0..1. Valid for juvenile Chinook salmon, not for eel; pressures are absolute.
 *
 * @example
 * turbine.barotrauma({ acclimationPressure: u.kPa(119), lowestPressure: u.kPa(72) }) // => 0.02594
 */
export const barotrauma = defineFormula({
  id: "turbine.barotrauma",
  title: "Mortal injury from falling pressure",
  symbol: "P_b",
  result: "ratio",
  inputs: {
    acclimationPressure: pressure("p_a", { above: 0, note: "absolute, where the fish lived before" }),
    lowestPressure: pressure("p_n", { above: 0, note: "absolute, the lowest on its way" }),
  },
  tex: (q) =>
    `\\frac{1}{1 + \\exp\\left(5.56 - 3.85 \\ln\\dfrac{${q.acclimationPressure}}{${q.lowestPressure}}\\right)}`,
  source: memory(
    "Brown et al. 2012, Trans. Am. Fish. Soc. 141:147; agrees with the table of Cox et al. 2023, Water 15:1888",
  ),
  validity: "juvenile Chinook salmon; not eel",
  caution: ({ acclimationPressure, lowestPressure }) => [
    "found for juvenile Chinook salmon; it does not hold for eel, and other species differ.",
    ...(lowestPressure > acclimationPressure
      ? ["the lowest pressure lies above the acclimation pressure: nothing is decompressed."]
      : []),
  ],
  evaluate: ({ acclimationPressure, lowestPressure }) =>
    1 / (1 + Math.exp(5.56 - 3.85 * Math.log(acclimationPressure / lowestPressure))),
});
