import { gapRatio, species as speciesOf } from "../../fish/species";
import type { Angle, Length, Time, Velocity } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { defineExercise } from "./definition";

/** A rack whose normal velocity is at its limit. */
export interface RackAtLimit {
  readonly rackAngle: Angle;
  readonly normalVelocity: Velocity;
}

/** Exercises of notebook 18, guideline. */
export const guidelineExercises = {
  "18.1": defineExercise({
    expected: ({
      totalLength,
      species,
      relativeWidth,
    }: {
      readonly totalLength: Length;
      readonly species: string;
      readonly relativeWidth: number;
    }): Length => u.m((gapRatio(speciesOf(species)) * totalLength) / relativeWidth),
    within: 0.01,
    unit: "mm",
    hint: "the relative width is what the fish meets the gap with, over the spacing: turn the equation round.",
  }),
  "18.2": defineExercise({
    expected: ({ rackAngle, normalVelocity }: RackAtLimit): Velocity =>
      u.mps(normalVelocity / Math.sin(rackAngle)),
    within: 0.01,
    unit: "mps",
    hint: "the normal velocity is one side of a right triangle whose long side is the approach velocity.",
  }),
  "18.3": defineExercise({
    expected: ({
      rackAngle,
      normalVelocity,
      sweepTime,
    }: RackAtLimit & { readonly sweepTime: Time }): Length =>
      u.m(sweepTime * normalVelocity * Math.cos(rackAngle)),
    within: 0.01,
    unit: "m",
    hint: "in the sweep time the water goes along the whole rack; the channel is the rack's length times the sine of its angle.",
  }),
};
