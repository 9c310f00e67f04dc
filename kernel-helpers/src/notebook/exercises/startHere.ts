import { catalogue } from "../../formula/catalogue";
import type { Provenance } from "../../formula/source";
import type { Length } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { blockage } from "../../rack/geometry";
import { defineExercise } from "./definition";

/** Exercises of notebook 00, start here. */
export const startHereExercises = {
  "00.1": defineExercise({
    expected: ({ clearSpacing }: { readonly clearSpacing: Length }): Length => u.m(clearSpacing / 2),
    within: 1e-6,
    unit: "mm",
    hint: "arithmetic on a length gives a plain number of metres; a unit makes it a length again.",
  }),
  "00.2": defineExercise({
    expected: (inputs: { readonly barThickness: Length; readonly clearSpacing: Length }): number =>
      blockage(inputs),
    within: 0.01,
    hint: "the notebook has worked this formula out for another clear spacing.",
  }),
  "00.3": defineExercise({
    expected: ({ formula }: { readonly formula: string }): Provenance =>
      catalogue.get(formula).source.provenance,
    within: 0,
    choices: ["published", "memory", "derived", "practice"] satisfies readonly Provenance[],
    hint: "the mark is the last thing in the source line, in brackets.",
  }),
};
