import { defineFormula } from "../formula/formula";
import { number } from "../formula/input";
import { derived } from "../formula/source";

/**
 * Ratios between nature and a laboratory model with the same Froude number.
 *
 * Returns plain ratios nature over model: velocity, time, discharge and force. Valid for free-surface flow of the same
 * water, where viscosity and surface tension don't matter; check the Reynolds number of the bars in the model.
 *
 * @example
 * rack.froudeScale({ lengthScale: 4 }).discharge // => 32
 */
export const froudeScale = defineFormula({
  id: "rack.froudeScale",
  title: "Froude model scales",
  symbol: "(\\lambda_U,\\;\\lambda_t,\\;\\lambda_Q,\\;\\lambda_F)",
  result: { velocity: "number", time: "number", discharge: "number", force: "number" },
  inputs: {
    lengthScale: number("\\lambda", {
      above: 0,
      note: "a length in nature over the same length in the model",
    }),
  },
  tex: ({ lengthScale: scale }) => `(${scale}^{1/2},\\;${scale}^{1/2},\\;${scale}^{5/2},\\;${scale}^{3})`,
  source: derived("equal Froude number in nature and model"),
  evaluate: ({ lengthScale }) => ({
    velocity: Math.sqrt(lengthScale),
    time: Math.sqrt(lengthScale),
    discharge: lengthScale ** 2.5,
    force: lengthScale ** 3,
  }),
});
