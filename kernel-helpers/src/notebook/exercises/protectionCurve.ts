import { type FishSpecies, gapRatio, species as speciesNamed } from "../../fish/species";
import type { Length, PlainNumber } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { normalQuantile } from "../../statistics/distributions";
import { defineExercise } from "./definition";

/** The rising part of the ramp, as notebook 10 sets it. */
export interface RampShape {
  readonly threshold: PlainNumber;
  readonly exponent: PlainNumber;
}

/** A species of the table at one length. */
export interface FishAtLength {
  readonly species: string;
  readonly totalLength: Length;
}

/** A fish of one length whose body varies, and the share of such fish that the gap must block. */
export interface VaryingBody {
  readonly totalLength: Length;
  /** The ratio of the middle fish. */
  readonly widthRatio: PlainNumber;
  /** Standard deviation of ln(width). */
  readonly spread: PlainNumber;
  readonly blocked: PlainNumber;
}

/** The ramp turned round: the relative width at which a share is protected. */
const relativeWidthFor = (share: number, { threshold, exponent }: RampShape): number =>
  threshold + (1 - threshold) * share ** (1 / exponent);

/** Exercises of notebook 10, protection curve. */
export const protectionCurveExercises = {
  "10.1": defineExercise({
    expected: ({ clearSpacing, species }: { readonly clearSpacing: Length; readonly species: FishSpecies }) =>
      u.m(clearSpacing / species.widthRatio),
    within: 0.01,
    unit: "mm",
    hint: "on its side a fish meets a horizontal gap with its width, so ask for the barrier length with the width ratio.",
  }),
  "10.2": defineExercise({
    expected: (shape: RampShape) => relativeWidthFor(0.5, shape),
    within: 0.01,
    hint: "set the rising part of the ramp equal to one half and solve it for the relative width; the exponent becomes a root.",
  }),
  "10.3": defineExercise({
    expected: ({
      fish,
      designEffect,
    }: {
      readonly fish: PlainNumber;
      readonly designEffect: PlainNumber | undefined;
    }) => fish / Math.max(1, designEffect ?? 1),
    within: 0.01,
    hint: "the design effect says by how much the runs widen a variance; a variance goes with one over the number of fish.",
  }),
  "10.4": defineExercise({
    expected: ({ totalLength, widthRatio, spread, blocked }: VaryingBody) =>
      u.m(widthRatio * totalLength * Math.exp(normalQuantile(1 - blocked) * spread)),
    within: 0.005,
    unit: "mm",
    hint: "the gap must be no wider than the body that only one fish in twenty is slimmer than: go that far down on ln(width).",
  }),
  "10.5": defineExercise({
    expected: ({
      medians,
      wanted,
      ...shape
    }: RampShape & { readonly medians: readonly FishAtLength[]; readonly wanted: PlainNumber }) => {
      const bodies = medians.map((one) => gapRatio(speciesNamed(one.species)) * one.totalLength);
      const widest = Math.min(...bodies) / relativeWidthFor(wanted, shape);
      // A millionth of slack: a spacing of exactly n millimetres counts as n, not as n − 1.
      return u.mm(Math.floor(u.to.mm(u.m(widest)) + 1e-6));
    },
    within: 1e-6,
    unit: "mm",
    hint: "turn the ramp round once for the wanted share; the spacing then follows from the smallest body that must be protected, rounded down.",
  }),
};
