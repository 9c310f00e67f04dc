import { defineFormula } from "../formula/formula";
import { number, ratio, ratios } from "../formula/input";
import { derived } from "../formula/source";
import { formatNumber } from "../quantity/format";

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** How far the shares of all routes may stray from one: typing errors are larger, rounding is smaller. */
const shareTolerance = 1e-6;

/**
 * Survival over several routes, each taken by a share of the fish.
 *
 * Returns a share 0..1. Valid where the shares name every route: they must sum to 1 within 0.000001.
 *
 * @example
 * survival.routes({ shares: [0.3, 0.5, 0.2], survivals: [0.98, 0.85, 0.95] }) // => 0.909
 */
export const routes = defineFormula({
  id: "survival.routes",
  title: "Survival over all routes",
  symbol: "S",
  result: "ratio",
  inputs: { shares: ratios("p_i", {}), survivals: ratios("S_i", {}) },
  tex: (q) => `\\sum_i p_i S_i,\\quad p = \\left(${q.shares}\\right),\\; S = \\left(${q.survivals}\\right)`,
  source: derived("each fish takes one route"),
  refuse: ({ shares, survivals }) => {
    if (shares.length !== survivals.length) {
      return `there are ${shares.length} shares and ${survivals.length} survivals; give one of each for every route.`;
    }
    return Math.abs(sum(shares) - 1) <= shareTolerance
      ? undefined
      : `the shares sum to ${formatNumber(sum(shares), 9)}; they must sum to 1 within 0.000001.`;
  },
  // The shares may sum to a millionth more than one; no survival does.
  evaluate: ({ shares, survivals }) =>
    Math.min(1, sum(shares.map((share, route) => share * (survivals[route] ?? Number.NaN)))),
});

/**
 * Survival past several plants, one after the other.
 *
 * Returns a share 0..1. Valid where passing one plant leaves the chances at the next unchanged.
 *
 * @example
 * survival.chain({ survivals: [0.9, 0.9, 0.8] }) // => 0.648
 */
export const chain = defineFormula({
  id: "survival.chain",
  title: "Survival past a chain of plants",
  symbol: "S",
  result: "ratio",
  inputs: { survivals: ratios("S_k", {}) },
  tex: (q) => `\\prod_k S_k,\\quad S = \\left(${q.survivals}\\right)`,
  source: derived("plants one after the other, independent of each other"),
  validity: "passing one plant leaves the chances at the next unchanged",
  evaluate: ({ survivals }) => survivals.reduce((product, survival) => product * survival, 1),
});

/**
 * Share of the fish that take the spillway, from the share of the flow that is spilled.
 *
 * Returns a share 0..1, cut off at 1. Valid near the flows at which the effectiveness was measured.
 *
 * @example
 * survival.spillShare({ spillFlowShare: 0.2, effectiveness: 2.05 }) // => 0.41
 */
export const spillShare = defineFormula({
  id: "survival.spillShare",
  title: "Share of the fish over the spillway",
  symbol: "p_s",
  result: "ratio",
  inputs: {
    spillFlowShare: ratio("q_s", {}),
    effectiveness: number("e", { atLeast: 0, note: "share of the fish over share of the flow" }),
  },
  tex: (q) => `\\min\\left(1,\\; ${q.effectiveness} \\cdot ${q.spillFlowShare}\\right)`,
  source: derived("definition of the effectiveness"),
  evaluate: ({ spillFlowShare, effectiveness }) => Math.min(1, effectiveness * spillFlowShare),
});

/**
 * How many times its share of the flow a route carries of the fish.
 *
 * Returns a plain number: 1 where fish follow the flow, more where the route draws them. Valid at the flows it was
 * measured at.
 *
 * @example
 * survival.spillEffectiveness({ spillFishShare: 0.41, spillFlowShare: 0.2 }) // => 2.05
 */
export const spillEffectiveness = defineFormula({
  id: "survival.spillEffectiveness",
  title: "Spill effectiveness",
  symbol: "e",
  result: "number",
  inputs: { spillFishShare: ratio("p_s", {}), spillFlowShare: ratio("q_s", { above: 0 }) },
  tex: (q) => `\\frac{${q.spillFishShare}}{${q.spillFlowShare}}`,
  source: derived("definition of the effectiveness"),
  evaluate: ({ spillFishShare, spillFlowShare }) => spillFishShare / spillFlowShare,
});
