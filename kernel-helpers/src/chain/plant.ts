import type { Length } from "../quantity/dimension";
import { formatNumber } from "../quantity/format";
import { checkNumber, refuse } from "../statistics/checks";
import { routes as overRoutes } from "../survival/routes";
import { reachSurvival } from "./reach";

/** One way past a plant: the share of its fish that takes it, and how many of those survive. */
export interface Route {
  readonly route: string;
  readonly share: number;
  readonly survival: number;
}

/** How fish pass a plant: one survival, or the routes that they take. */
export interface Passing {
  readonly survival?: number;
  readonly routes?: readonly Route[];
}

/** A plant of a river, and the reach below it down to the next plant or the sea. */
export interface ChainPlant extends Passing {
  readonly plant: string;
  /** The next plant downstream; the sea where it is left out or empty. */
  readonly next?: string;
  /** Fish that start between the plants above and this one, counted as they come to it; none where it is left out. */
  readonly entering?: number;
  /** Of the reach below. */
  readonly reachLength?: Length;
  /** Share of the fish that one kilometre of the reach below takes; goes with `reachLength`. */
  readonly mortalityPerKilometre?: number;
  /** Share of the fish that the whole reach below takes; in place of a mortality per kilometre. */
  readonly reachMortality?: number;
}

/** How far the shares of a plant's routes may stray from one: typing errors are larger, rounding is smaller. */
const shareTolerance = 1e-6;

const share = { atLeast: 0, atMost: 1 } as const;

/** The survival of those that pass, checked; `whose` names the plant or the option in errors. */
export function passingSurvival(where: string, whose: string, { survival, routes }: Passing): number {
  if (survival !== undefined && routes !== undefined)
    refuse(where, `${whose} has both a survival and routes; give one of them`);
  if (survival !== undefined) {
    checkNumber(where, `survival of ${whose}`, survival, share);
    return survival;
  }
  if (routes === undefined || routes.length === 0)
    return refuse(where, `${whose} has neither a survival nor routes; give one of them`);
  for (const one of routes) {
    checkNumber(where, `share of route "${one.route}" of ${whose}`, one.share, share);
    checkNumber(where, `survival of route "${one.route}" of ${whose}`, one.survival, share);
  }
  const sum = routes.reduce((total, one) => total + one.share, 0);
  if (Math.abs(sum - 1) > shareTolerance) {
    refuse(
      where,
      `the shares of the routes of ${whose} sum to ${formatNumber(sum, 9)}; they must sum to 1 within 0.000001: ` +
        "every fish takes one route",
    );
  }
  return overRoutes.evaluate({
    shares: routes.map((one) => one.share),
    survivals: routes.map((one) => one.survival),
  });
}

/** The survival along the reach below a plant, checked. */
export function survivalBelow(where: string, plant: ChainPlant): number {
  const whose = `plant "${plant.plant}"`;
  const { reachLength, mortalityPerKilometre, reachMortality } = plant;
  if (reachMortality !== undefined) {
    if (mortalityPerKilometre !== undefined) {
      refuse(where, `${whose} has both a reachMortality and a mortalityPerKilometre; give one of them`);
    }
    checkNumber(where, `reachMortality of ${whose}`, reachMortality, share);
  }
  if (reachLength !== undefined)
    checkNumber(where, `reachLength of ${whose} in metres`, reachLength, { atLeast: 0 });
  if (mortalityPerKilometre === undefined) return 1 - (reachMortality ?? 0);
  checkNumber(where, `mortalityPerKilometre of ${whose}`, mortalityPerKilometre, share);
  if (reachLength === undefined)
    return refuse(
      where,
      `${whose} has a mortalityPerKilometre and no reachLength; give the length of the reach`,
    );
  return reachSurvival.evaluate({ mortalityPerKilometre, reachLength });
}
