import { defineFormula } from "../formula/formula";
import { ratio } from "../formula/input";
import { derived } from "../formula/source";

/**
 * Survival of fish of one length at the whole plant.
 *
 * Returns a share 0..1, between turbine survival and protected survival. Valid where every fish is either protected or
 * passes the turbine; protected survival is an assumption to state, since protected fish include those that refused.
 *
 * @example
 * survival.total({ protection: 0.6, turbineSurvival: 0.85, protectedSurvival: 0.98 }) // => 0.928
 */
export const total = defineFormula({
  id: "survival.total",
  title: "Total survival",
  symbol: "S",
  result: "ratio",
  inputs: {
    protection: ratio("\\varphi", { note: "share of the fish kept from the turbine" }),
    turbineSurvival: ratio("S_t", {}),
    protectedSurvival: ratio("S_p", { note: "of bypassed and refused fish together; an assumption" }),
  },
  tex: (q) =>
    `${q.protection} \\cdot ${q.protectedSurvival} + \\left(1 - ${q.protection}\\right) \\cdot ${q.turbineSurvival}`,
  source: derived("every fish is either protected or passes the turbine"),
  caution: () => [
    "protected survival is an assumption: protected fish include those that refused, whose fate is not known.",
  ],
  evaluate: ({ protection, turbineSurvival, protectedSurvival }) =>
    protection * protectedSurvival + (1 - protection) * turbineSurvival,
});

/**
 * Survival of protected fish, from those that were guided and those that refused.
 *
 * Returns a share 0..1. Valid where each protected fish either took the bypass or refused.
 *
 * @example
 * survival.protectedSurvival({ refusedShare: 0.2, guidedSurvival: 0.98, refusedSurvival: 0.7 }) // => 0.924
 */
export const protectedSurvival = defineFormula({
  id: "survival.protectedSurvival",
  title: "Protected survival",
  symbol: "S_p",
  result: "ratio",
  inputs: {
    refusedShare: ratio("\\rho", { note: "share of the protected fish that refused" }),
    guidedSurvival: ratio("S_g", { note: "of fish that took the bypass" }),
    refusedSurvival: ratio("S_r", { note: "of fish that refused: another try, another route, delay, loss" }),
  },
  tex: (q) =>
    `\\left(1 - ${q.refusedShare}\\right) \\cdot ${q.guidedSurvival} + ${q.refusedShare} \\cdot ${q.refusedSurvival}`,
  source: derived("each protected fish either took the bypass or refused"),
  evaluate: ({ refusedShare, guidedSurvival, refusedSurvival }) =>
    (1 - refusedShare) * guidedSurvival + refusedShare * refusedSurvival,
});
