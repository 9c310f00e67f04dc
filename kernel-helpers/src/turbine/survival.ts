import { defineFormula } from "../formula/formula";
import { ratio } from "../formula/input";
import { derived } from "../formula/source";

/**
 * Share of fish that survive the turbine: neither killed by a blade nor by pressure.
 *
 * Returns a share 0..1. Valid where the two ways to die are independent.
 *
 * @example
 * turbine.survival({ strikeProbability: 0.3, injuryShare: 0.43, pressureMortality: 0.02 }) // => 0.85358
 */
export const turbineSurvival = defineFormula({
  id: "turbine.survival",
  title: "Turbine survival",
  symbol: "S_t",
  result: "ratio",
  inputs: {
    strikeProbability: ratio("P", {}),
    injuryShare: ratio("m", {
      note: "share of struck fish that die of it; 1 where a correlation factor holds it already",
    }),
    pressureMortality: ratio("P_b", { default: 0 }),
  },
  tex: (q) =>
    `\\left(1 - ${q.strikeProbability} \\cdot ${q.injuryShare}\\right)\\left(1 - ${q.pressureMortality}\\right)`,
  source: derived("two independent ways to die"),
  validity: "strike and pressure independent of each other",
  evaluate: ({ strikeProbability, injuryShare, pressureMortality }) =>
    (1 - strikeProbability * injuryShare) * (1 - pressureMortality),
});
