import type { Angle, Length } from "../../quantity/dimension";
import { rackLength } from "../../rack/geometry";
import { defineExercise } from "./definition";

/** Exercises of notebook 03, rack layout and velocities. */
export const rackLayoutExercises = {
  "03.1": defineExercise({
    expected: (inputs: { readonly channelWidth: Length; readonly rackAngle: Angle }) => rackLength(inputs),
    within: 0.01,
    unit: "m",
    hint: "the rack is the long side of a right triangle whose short side, opposite the rack angle, is the channel width.",
  }),
};
