import { defineFormula } from "../formula/formula";
import { length, ratio } from "../formula/input";
import { derived } from "../formula/source";

const metresPerKilometre = 1000;

/**
 * Survival along a reach of river, from the mortality of one kilometre.
 *
 * Returns a share 0..1. Valid where each kilometre takes the same share of the fish that come to it: predators, fishing
 * and delay differ along a river, so give each reach its own mortality where it is known.
 *
 * @example
 * chain.reachSurvival({ mortalityPerKilometre: 0.01, reachLength: u.km(20) }) // => 0.8179
 */
export const reachSurvival = defineFormula({
  id: "chain.reachSurvival",
  title: "Survival along a reach",
  symbol: "S_r",
  result: "ratio",
  inputs: {
    mortalityPerKilometre: ratio("m", { note: "share of the fish lost in one kilometre" }),
    reachLength: length("\\ell", { atLeast: 0, unit: "km", note: "along the river" }),
  },
  tex: (q) => `\\left(1 - ${q.mortalityPerKilometre}\\right)^{${q.reachLength} / 1\\,\\mathrm{km}}`,
  source: derived("each kilometre takes the same share of those that come to it"),
  validity: "one mortality for the whole reach",
  evaluate: ({ mortalityPerKilometre, reachLength }) =>
    (1 - mortalityPerKilometre) ** (reachLength / metresPerKilometre),
});
