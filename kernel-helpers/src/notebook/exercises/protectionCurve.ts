import { type FishSpecies, gapRatio, species as speciesNamed } from "../../fish/species";
import type { Length, PlainNumber } from "../../quantity/dimension";
import { u } from "../../quantity/u";
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

/** The ramp turned round: the relative width at which a share is protected. */
const relativeWidthFor = (share: number, { threshold, exponent }: RampShape): number =>
  threshold + (1 - threshold) * share ** (1 / exponent);

/** The S-shaped curve turned round: its steepness for a share at relative width 1. */
function steepnessFor(shareAtBarrier: number, midpoint: number): number {
  if (midpoint >= 1) {
    throw new RangeError(
      `exercise 10.3: midpoint is ${midpoint}; it must be below 1, else at most half are protected at relative width 1.`,
    );
  }
  return Math.log(shareAtBarrier / (1 - shareAtBarrier)) / (1 - midpoint);
}

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
      midpoint,
      shareAtBarrier,
    }: {
      readonly midpoint: PlainNumber;
      readonly shareAtBarrier: PlainNumber;
    }) => steepnessFor(shareAtBarrier, midpoint),
    within: 0.01,
    hint: "put relative width 1 into the S-shaped curve and solve it for the steepness; the exponential becomes a natural logarithm.",
  }),
  "10.4": defineExercise({
    expected: ({
      totalLength,
      species,
      ratioError,
    }: {
      readonly totalLength: Length;
      readonly species: FishSpecies;
      readonly ratioError: PlainNumber;
    }) => u.m((1 - ratioError) * gapRatio(species) * totalLength),
    within: 0.005,
    unit: "mm",
    hint: "the fish that slips through is the slimmest one: take the error off the body ratio, then let the gap be as wide as that body.",
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
