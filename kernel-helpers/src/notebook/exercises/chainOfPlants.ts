import { type ChainPlant, type RefitOption, river } from "../../chain";
import { defineExercise } from "./definition";

const survivorsOf = (plants: readonly ChainPlant[]): number => river({ plants }).survivors;

const withPassing = (
  plants: readonly ChainPlant[],
  { plant, survival, routes }: RefitOption,
): readonly ChainPlant[] => plants.map((one) => (one.plant === plant ? { ...one, survival, routes } : one));

/** The most fish at the sea with the first options left out or taken, at most one a plant, within what is left to spend. */
function bestWithin(plants: readonly ChainPlant[], options: readonly RefitOption[], left: number): number {
  const [option, ...others] = options;
  if (option === undefined) return survivorsOf(plants);
  const without = bestWithin(plants, others, left);
  const { cost = 0 } = option;
  // 0.1 + 0.2 must fit into 0.3.
  if (cost > left + 1e-9) return without;
  const later = others.filter(({ plant }) => plant !== option.plant);
  return Math.max(without, bestWithin(withPassing(plants, option), later, left - cost));
}

/** Exercises of notebook 16, a chain of plants. */
export const chainOfPlantsExercises = {
  "16.1": defineExercise({
    expected: ({
      plants,
      plant,
    }: {
      readonly plants: readonly ChainPlant[];
      readonly plant: string;
    }): number => river({ plants }).plants.find((one) => one.plant === plant)?.survivalToSea ?? 0,
    within: 0.005,
    hint: "take the plant itself and every plant and reach below it, down to the sea, and multiply.",
  }),
  "16.2": defineExercise({
    expected: ({ count, wanted }: { readonly count: number; readonly wanted: number }): number =>
      wanted ** (1 / count),
    within: 0.002,
    hint: "the product of equal numbers is a power; which number, to that power, gives the share that is wanted?",
  }),
  "16.3": defineExercise({
    expected: ({
      plants,
      plant,
      survival,
    }: {
      readonly plants: readonly ChainPlant[];
      readonly plant: string;
      readonly survival: number;
    }): number =>
      survivorsOf(withPassing(plants, { plant, survival, routes: undefined })) - survivorsOf(plants),
    within: 0.01,
    hint: "give the plant one survival in place of its routes, as an option of chain.refits, and read the gain.",
  }),
  "16.4": defineExercise({
    expected: ({
      plants,
      options,
      budget,
    }: {
      readonly plants: readonly ChainPlant[];
      readonly options: readonly RefitOption[];
      readonly budget: number;
    }): number => bestWithin(plants, options, budget),
    // Sets that lie close together must not pass for each other.
    within: 0.0005,
    hint: "each refit is made or not: go through all combinations, drop those that cost too much, and run the river for the others.",
  }),
};
