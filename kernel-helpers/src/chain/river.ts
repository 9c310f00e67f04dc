import { noteUse } from "../formula/usage";
import { checkNumber } from "../statistics/checks";
import { chain, routes as overRoutes } from "../survival/routes";
import { networkOf } from "./network";
import { type ChainPlant, passingSurvival, type Route, survivalBelow } from "./plant";
import { reachSurvival } from "./reach";

/** The fish of one route past a plant. */
export interface RouteFish extends Route {
  /** Fish that take it. */
  readonly fish: number;
  readonly lost: number;
}

/** One plant of the river. Numbers are fish; shares are 0..1. */
export interface PlantPassage {
  readonly plant: string;
  /** The next plant downstream; undefined for the sea. */
  readonly next: string | undefined;
  /** Fish that start between the plants above and this one. */
  readonly entering: number;
  /** Those, and all that come from the plants above. */
  readonly arriving: number;
  readonly plantSurvival: number;
  /** Fish just below the plant. */
  readonly leaving: number;
  readonly lostAtPlant: number;
  /** Along the reach below. */
  readonly reachSurvival: number;
  readonly lostInReach: number;
  /** Of a fish that comes to this plant: all plants and reaches from here to the sea, this plant included. */
  readonly survivalToSea: number;
  /** Empty where the plant has one survival and no routes. */
  readonly routes: readonly RouteFish[];
}

/** A river's fish on their way to the sea. */
export interface RiverPassage {
  /** Each plant after those above it. */
  readonly plants: readonly PlantPassage[];
  /** All fish that start. */
  readonly entering: number;
  /** Fish that reach the sea. */
  readonly survivors: number;
  /** Survivors over all fish that start; undefined where none do. */
  readonly survival: number | undefined;
  readonly lostAtPlants: number;
  readonly lostInReaches: number;
  /** What to keep in mind about the result. */
  readonly cautions: readonly string[];
}

const independence =
  "chain.river: passing one plant is taken to leave the chances at the next unchanged; fish that are hurt, late or tired " +
  "fare worse, which only a higher mortality of the reaches can stand for.";

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/**
 * All fish of a river on their way down to the sea: past each plant, along each reach.
 *
 * Returns every plant, from the top down, with the fish that arrive, leave and are lost, and the fish that reach the sea.
 * `next` is the next plant downstream, left out or empty for the sea, so tributaries join where they name the same plant.
 * A plant has one `survival` or `routes` whose shares sum to 1. The reach below it takes a `mortalityPerKilometre` over
 * its `reachLength`, or one `reachMortality`; nothing where neither is given. `entering` counts fish as they come to the
 * plant. Valid where passing one plant leaves the chances at the next unchanged. Throws a RangeError for a loop, a next
 * plant that is missing, a name twice, shares that don't add up and whatever is no share.
 *
 * @example
 * chain.river({ plants: [{ plant: "upper", next: "lower", entering: 1000, survival: 0.9, reachMortality: 0.1 },
 *   { plant: "lower", entering: 500, survival: 0.8 }] }).survivors // => 1048
 */
export function river({ plants }: { readonly plants: readonly ChainPlant[] }): RiverPassage {
  const passage = riverOf("chain.river", plants);
  noteUse(chain.id);
  if (plants.some((plant) => plant.routes !== undefined)) noteUse(overRoutes.id);
  if (plants.some((plant) => plant.mortalityPerKilometre !== undefined)) noteUse(reachSurvival.id);
  return passage;
}

/** The same for a caller that is named in errors and notes what it uses itself. */
export function riverOf(where: string, plants: readonly ChainPlant[]): RiverPassage {
  const { order, next } = networkOf(where, plants);
  const fixed = plants.map((plant) => {
    const { entering = 0 } = plant;
    checkNumber(where, `entering of plant "${plant.plant}"`, entering, { atLeast: 0 });
    return {
      entering,
      atPlant: passingSurvival(where, `plant "${plant.plant}"`, plant),
      below: survivalBelow(where, plant),
    };
  });

  const arriving = fixed.map(({ entering }) => entering);
  let survivors = 0;
  for (const index of order) {
    const reaching = arriving[index] * fixed[index].atPlant * fixed[index].below;
    const below = next[index];
    if (below === undefined) survivors += reaching;
    else arriving[below] += reaching;
  }
  const toSea = fixed.map(() => 1);
  for (const index of order.toReversed()) {
    const below = next[index];
    toSea[index] = fixed[index].atPlant * fixed[index].below * (below === undefined ? 1 : toSea[below]);
  }

  const passages = order.map((index): PlantPassage => {
    const { entering, atPlant, below } = fixed[index];
    const leaving = arriving[index] * atPlant;
    const after = next[index];
    return {
      plant: plants[index].plant,
      next: after === undefined ? undefined : plants[after].plant,
      entering,
      arriving: arriving[index],
      plantSurvival: atPlant,
      leaving,
      lostAtPlant: arriving[index] - leaving,
      reachSurvival: below,
      lostInReach: leaving - leaving * below,
      survivalToSea: toSea[index],
      routes: (plants[index].routes ?? []).map((route) => {
        const fish = arriving[index] * route.share;
        return { ...route, fish, lost: fish - fish * route.survival };
      }),
    };
  });
  const entering = sum(fixed.map((one) => one.entering));
  return {
    plants: passages,
    entering,
    survivors,
    survival: entering === 0 ? undefined : survivors / entering,
    lostAtPlants: sum(passages.map((one) => one.lostAtPlant)),
    lostInReaches: sum(passages.map((one) => one.lostInReach)),
    cautions: [independence],
  };
}
