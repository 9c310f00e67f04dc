import { barrierLength } from "../../fish/body";
import { type FishSpecies, gapRatio } from "../../fish/species";
import type { Length } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { bySizeClass } from "../../survival/bySizeClass";
import { lengthClasses } from "../../survival/lengthClasses";
import { localMinima } from "../../survival/minima/localMinima";
import type { ProtectionOfWidth, SurvivalOfLength } from "../../survival/sizeClass";
import { defineExercise } from "./definition";

/** The reader's laws, as notebook 12 holds them in `laws`. */
export interface ReaderLaws {
  readonly bodyRatio: number;
  readonly protection: ProtectionOfWidth;
  readonly turbineSurvival: SurvivalOfLength;
  readonly protectedSurvival: number;
}

const range = { shortest: u.mm(30), longest: u.mm(450) };

/** Total survival at its lowest over the lengths of the notebook. */
function lowestSurvival(laws: ReaderLaws, clearSpacing: Length): number {
  const lengths = lengthClasses({ ...range, step: u.mm(1) });
  const [result] = bySizeClass({ ...laws, clearSpacings: [clearSpacing], lengths });
  return Math.min(...result.totalSurvival);
}

/** Exercises of notebook 12, survival by size class. */
export const survivalBySizeClassExercises = {
  "12.1": defineExercise({
    expected: ({ clearSpacing, species }: { readonly clearSpacing: Length; readonly species: FishSpecies }) =>
      barrierLength({ clearSpacing, widthRatio: gapRatio(species) }),
    within: 0.01,
    unit: "mm",
    hint: "a fish is blocked by its body from the length on at which what it meets the gap with is as wide as the gap.",
  }),
  "12.2": defineExercise({
    expected: ({
      totalLength,
      clearSpacing,
      laws,
    }: {
      readonly totalLength: Length;
      readonly clearSpacing: Length;
      readonly laws: ReaderLaws;
    }) => bySizeClass({ ...laws, clearSpacings: [clearSpacing], lengths: [totalLength] })[0].totalSurvival[0],
    within: 0.005,
    hint: "protected fish count with protected survival, all others with turbine survival; protection follows from the relative width.",
  }),
  "12.3": defineExercise({
    expected: ({
      clearSpacing,
      laws,
    }: {
      readonly clearSpacing: Length;
      readonly laws: ReaderLaws;
    }): number =>
      Math.max(0, ...localMinima({ ...laws, ...range, clearSpacing }).minima.map((one) => one.depth)),
    within: 0.03,
    hint: "depth is protected survival less total survival at the minimum; call survival.localMinima with the new spacing.",
  }),
  "12.4": defineExercise({
    expected: ({ wanted, laws }: { readonly wanted: number; readonly laws: ReaderLaws }) => {
      const spacings = Array.from({ length: 60 }, (_, at) => u.mm(at + 1));
      return spacings.filter((spacing) => lowestSurvival(laws, spacing) >= wanted).at(-1) ?? u.mm(0);
    },
    within: 0.001,
    unit: "mm",
    hint: "take whole millimetres from 1 to 60, find the lowest total survival over the lengths of each, and keep the widest that still reaches what is wanted.",
  }),
};
