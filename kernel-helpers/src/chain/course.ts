import type { Length } from "../quantity/dimension";
import { u } from "../quantity/u";
import { refuse } from "../statistics/checks";
import type { ChainPlant } from "./plant";
import { riverOf } from "./river";

/** A point on the way to the sea. */
export interface CoursePoint {
  /** Where: above or below a plant, or at the sea. */
  readonly place: "above" | "below" | "sea";
  /** The plant; the last one passed for the sea. */
  readonly plant: string;
  /** Along the river from the first plant. */
  readonly distance: Length;
  /** Share 0..1 of the fish that started above the first plant and are still alive. */
  readonly alive: number;
  /** All fish that are here, wherever they started. */
  readonly fish: number;
}

/**
 * The way from one plant to the sea: above and below each plant, and at the sea.
 *
 * Returns the points in the order in which a fish comes to them, with the distance from the first plant, the share of its
 * own fish still alive, and all fish that are there. Throws a RangeError for a plant that is not in the list, a reach
 * without a length, and for what `chain.river` refuses.
 *
 * @example
 * chain.course({ from: "upper", plants: [{ plant: "upper", survival: 0.9, entering: 10, reachLength: u.km(3) }] })
 *   .map((point) => point.alive) // => [1, 0.9, 0.9]
 */
export function course({
  plants,
  from,
}: {
  readonly plants: readonly ChainPlant[];
  readonly from: string;
}): readonly CoursePoint[] {
  const where = "chain.course";
  const passages = new Map(riverOf(where, plants).plants.map((one) => [one.plant, one]));
  const reaches = new Map(plants.map(({ plant, reachLength }) => [plant, reachLength]));
  if (!passages.has(from))
    refuse(where, `from is "${from}"; the plants are ${plants.map(({ plant }) => plant).join(", ")}`);
  const points: CoursePoint[] = [];
  let distance = 0;
  let alive = 1;
  for (let at = passages.get(from); at !== undefined; at = passages.get(at.next ?? "")) {
    const { plant } = at;
    const reach =
      reaches.get(plant) ??
      refuse(where, `plant "${plant}" has no reachLength; give the length of the reach below it`);
    points.push({ place: "above", plant, distance: u.m(distance), alive, fish: at.arriving });
    alive *= at.plantSurvival;
    points.push({ place: "below", plant, distance: u.m(distance), alive, fish: at.leaving });
    alive *= at.reachSurvival;
    distance += reach;
    if (at.next === undefined)
      points.push({
        place: "sea",
        plant,
        distance: u.m(distance),
        alive,
        fish: at.leaving * at.reachSurvival,
      });
  }
  return points;
}
