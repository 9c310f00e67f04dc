import { defineFormula } from "../formula/formula";
import {
  axialInputs,
  axialStrike,
  axialStrikeTex,
  coefficientSteps,
  eulerTangent,
  eulerTex,
} from "./axialStrike";
import { strikeSource } from "./strikeInputs";

/**
 * Chance that a blade of a Kaplan runner strikes and harms a fish.
 *
 * Returns a probability 0..1, cut off at both ends. The correlation factor is the share of strikes that harm, so no
 * injury share comes on top. Valid for Kaplan runners whose guide vanes follow the blades, so that the water leaves
 * the runner without swirl; the discharge fills the runner's whole circle.
 *
 * @example
 * turbine.strikeKaplan({ totalLength: u.mm(200), discharge: u.m3ps(17), head: u.m(5.3), runnerDiameter: u.m(1.95),
 *                        rotationalSpeed: u.rpm(187.5), efficiency: 0.9, blades: 4, radiusRatio: 0.75,
 *                        correlation: 0.15 }) // => 0.07015
 */
export const strikeKaplan = defineFormula({
  id: "turbine.strikeKaplan",
  title: "Strike probability, Kaplan",
  symbol: "P",
  result: "ratio",
  inputs: axialInputs,
  steps: {
    ...coefficientSteps,
    inflowAngle: {
      title: "Inflow angle to the axis",
      symbol: "a",
      result: "angle",
      tex: (q, steps) => `\\arctan\\left(${eulerTex(q, steps)}\\right)`,
      evaluate: (runner) => Math.atan(eulerTangent(runner)),
    },
  },
  tex: axialStrikeTex,
  source: strikeSource,
  validity: "Kaplan runners with guide vanes that follow the blades",
  evaluate: (runner) => axialStrike(runner, eulerTangent(runner)),
});
