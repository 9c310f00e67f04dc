import { checkNumber } from "../../formula/check";
import { discharge, number } from "../../formula/input";
import { noteUse } from "../../formula/usage";
import type { Discharge } from "../../quantity/dimension";
import { spillShare } from "../../survival/routes";

/** The water of a moment by its ways past the plant. */
export interface RouteFlows {
  /** Over the weir and down the old river course. */
  readonly weirFlow: Discharge;
  readonly bypassFlow: Discharge;
  readonly turbineFlow: Discharge;
}

/** How many times its share of the flow a way carries of the fish: 1, in proportion to the flow, unless told. */
export interface RouteEffectiveness {
  /** Of the weir, over its share of the river. */
  readonly weirEffectiveness?: number;
  /** Of the bypass, over its share of the approach channel, before the rack turns any fish away. */
  readonly bypassEffectiveness?: number;
}

/** Shares of the fish that come to the plant; they sum to 1. */
export interface RouteShares {
  readonly weir: number;
  readonly bypass: number;
  /** Meet the rack: it turns some away, the others pass the turbines. */
  readonly atRack: number;
}

const where = "energy.routeShares";
const flowInput = discharge("Q", { atLeast: 0 });
const effectivenessInput = number("e", { atLeast: 0, note: "share of the fish over share of the flow" });

/** Refuses an effectiveness that is negative or no number. */
export function checkEffectiveness(caller: string, given: RouteEffectiveness): void {
  for (const name of ["weirEffectiveness", "bypassEffectiveness"] as const) {
    if (given[name] !== undefined) checkNumber(caller, name, given[name], effectivenessInput);
  }
}

/**
 * Ways that fish take past a plant: weir, bypass, or to the rack.
 *
 * Returns shares that sum to 1. Fish part between weir and approach channel, then between bypass and rack, each time in
 * proportion to the flow, or as many times that as the effectiveness says, at most all. Where no turbine runs, everything
 * in the channel leaves by the bypass. Valid near the flows at which an effectiveness was measured. Throws a RangeError
 * for negative flows and where no water flows at all.
 *
 * @example
 * energy.routeShares({ weirFlow: u.m3ps(10), bypassFlow: u.m3ps(2), turbineFlow: u.m3ps(28) }).atRack // => 0.7
 */
export function routeShares({
  weirFlow,
  bypassFlow,
  turbineFlow,
  ...effectiveness
}: RouteFlows & RouteEffectiveness): RouteShares {
  for (const [name, flow] of Object.entries({ weirFlow, bypassFlow, turbineFlow }))
    checkNumber(where, name, flow, flowInput);
  checkEffectiveness(where, effectiveness);
  if (weirFlow + bypassFlow + turbineFlow === 0)
    throw new RangeError(
      `${where}: no water flows over weir, bypass or turbines: fish have no way past the plant.`,
    );
  noteUse(spillShare.id);
  return routesOf(weirFlow, bypassFlow, turbineFlow, effectiveness);
}

/** The bare shares, for loops; some water flows. */
export function routesOf(
  weirFlow: number,
  bypassFlow: number,
  turbineFlow: number,
  { weirEffectiveness = 1, bypassEffectiveness = 1 }: RouteEffectiveness,
): RouteShares {
  const channelFlow = bypassFlow + turbineFlow;
  const weir =
    channelFlow === 0
      ? 1
      : spillShare.evaluate({
          spillFlowShare: weirFlow / (weirFlow + channelFlow),
          effectiveness: weirEffectiveness,
        });
  const intoBypass =
    channelFlow === 0
      ? 0
      : turbineFlow === 0
        ? 1
        : spillShare.evaluate({
            spillFlowShare: bypassFlow / channelFlow,
            effectiveness: bypassEffectiveness,
          });
  return { weir, bypass: (1 - weir) * intoBypass, atRack: (1 - weir) * (1 - intoBypass) };
}
