import { annuityFactor } from "../../energy/money/annuityFactor";
import type { WeighedOption } from "../../energy/money/tradeOff";
import type { Length } from "../../quantity/dimension";
import { defineExercise } from "./definition";

/** Exercises of notebook 17, design note. */
export const designNoteExercises = {
  "17.1": defineExercise({
    expected: ({ checks }: { readonly checks: readonly { readonly met: boolean }[] }): number =>
      checks.filter(({ met }) => met).length,
    within: 0,
    hint: "one row is one check; count those whose column “Met” says yes.",
  }),
  "17.2": defineExercise({
    expected: ({
      weighed,
      spacings,
    }: {
      readonly weighed: readonly WeighedOption[];
      /** In the order of the options. */
      readonly spacings: readonly Length[];
    }): Length => spacings[weighed.indexOf(cheapest(weighed))],
    within: 0.001,
    unit: "mm",
    hint: "read down the column of the cost of a percentage point; an option that gains nothing has none.",
  }),
  "17.3": defineExercise({
    expected: ({
      option: { survivalGained, lostRevenue, upkeep = 0 },
      worthOfPoint,
      interestRate,
      years,
    }: {
      readonly option: WeighedOption;
      readonly worthOfPoint: number;
      readonly interestRate: number;
      readonly years: number;
    }): number =>
      (100 * survivalGained * worthOfPoint - lostRevenue - upkeep) / annuityFactor({ interestRate, years }),
    within: 0.01,
    hint: "what its points are worth in a year, less the lost revenue and the upkeep, is left for the annuity.",
  }),
};

function cheapest(weighed: readonly WeighedOption[]): WeighedOption {
  const [first] = weighed
    .filter(({ costPerPoint }) => costPerPoint !== undefined)
    .toSorted((one, other) => (one.costPerPoint ?? 0) - (other.costPerPoint ?? 0));
  if (first === undefined)
    throw new RangeError("exercise 17.2: no option gains survival over the first; add one that does.");
  return first;
}
