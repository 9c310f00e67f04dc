import { noteUse } from "../formula/usage";
import { checkNumber } from "../statistics/checks";
import { spillShare, total } from "../survival";
import type { Route } from "./plant";

/**
 * The routes past a plant with a spillway and a rack: over the spillway, held back by the rack, through the turbine.
 *
 * Returns three routes whose shares sum to 1, for `routes` of a plant. The spillway takes its share of the fish first:
 * the share of the flow times the effectiveness, which is 1 unless you say otherwise, so that fish follow the flow. The
 * rack keeps the share `protection` of the others from the turbine. Valid where a fish comes once to each. Throws a
 * RangeError for whatever is no share and an effectiveness below 0.
 *
 * @example
 * chain.rackRoutes({ spillFlowShare: 0.2, spillSurvival: 0.98, protection: 0.75, protectedSurvival: 0.95,
 *   turbineSurvival: 0.6 }).map((route) => Number(route.share.toFixed(3))) // => [0.2, 0.6, 0.2]
 */
export function rackRoutes({
  spillFlowShare,
  spillEffectiveness = 1,
  spillSurvival,
  protection,
  protectedSurvival,
  turbineSurvival,
}: {
  readonly spillFlowShare: number;
  readonly spillEffectiveness?: number;
  readonly spillSurvival: number;
  /** Share of the fish at the rack that it keeps from the turbine. */
  readonly protection: number;
  /** Of those: bypassed and refused fish together. An assumption to state. */
  readonly protectedSurvival: number;
  readonly turbineSurvival: number;
}): readonly Route[] {
  // The checked calls refuse whatever is no share.
  const spilled = spillShare({ spillFlowShare, effectiveness: spillEffectiveness });
  total({ protection, protectedSurvival, turbineSurvival });
  checkNumber("chain.rackRoutes", "spillSurvival", spillSurvival, { atLeast: 0, atMost: 1 });
  noteUse(spillShare.id);
  const held = (1 - spilled) * protection;
  return [
    { route: "spillway", share: spilled, survival: spillSurvival },
    { route: "held by the rack", share: held, survival: protectedSurvival },
    { route: "turbine", share: (1 - spilled) * (1 - protection), survival: turbineSurvival },
  ];
}
