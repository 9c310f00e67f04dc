import type { Angle, Discharge, Length, Time, Velocity } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { rackLength } from "../../rack/geometry";
import { sweepTime } from "../../rack/sweep";
import { defineExercise } from "./definition";

/** A rack in its channel, with the velocity that comes to it. */
export interface RackInChannel {
  readonly channelWidth: Length;
  readonly rackAngle: Angle;
  readonly approachVelocity: Velocity;
}

/** The steepest angle that keeps the velocity square to the rack; square to the flow where any angle does. */
const steepestAngle = (approachVelocity: Velocity, permittedNormalVelocity: Velocity): Angle =>
  u.rad(Math.asin(Math.min(1, permittedNormalVelocity / approachVelocity)));

/** Exercises of notebook 03, rack layout and velocities. */
export const rackLayoutExercises = {
  "03.1": defineExercise({
    expected: (inputs: { readonly channelWidth: Length; readonly rackAngle: Angle }) => rackLength(inputs),
    within: 0.01,
    unit: "m",
    hint: "the rack is the long side of a right triangle whose short side, opposite the rack angle, is the channel width.",
  }),
  "03.2": defineExercise({
    expected: (inputs: RackInChannel) => u.s(sweepTime(inputs) / 2),
    within: 0.01,
    unit: "s",
    hint: "the velocity along the rack is the same everywhere; only the way left to the bypass is shorter.",
  }),
  "03.3": defineExercise({
    expected: ({
      approachVelocity,
      permittedNormalVelocity,
    }: {
      readonly approachVelocity: Velocity;
      readonly permittedNormalVelocity: Velocity;
    }) => steepestAngle(approachVelocity, permittedNormalVelocity),
    within: 0.01,
    unit: "deg",
    hint: "turn the equation of the normal velocity round: which angle has this sine? Math.asin answers in radians.",
  }),
  "03.4": defineExercise({
    expected: ({
      channelWidth,
      waterDepth,
      rackAngle,
      permittedNormalVelocity,
    }: {
      readonly channelWidth: Length;
      readonly waterDepth: Length;
      readonly rackAngle: Angle;
      readonly permittedNormalVelocity: Velocity;
    }): Discharge => u.m3ps(permittedNormalVelocity * rackLength({ channelWidth, rackAngle }) * waterDepth),
    within: 0.01,
    unit: "m3ps",
    hint: "the discharge is the normal velocity times the wetted area of the rack, not of the channel.",
  }),
  "03.5": defineExercise({
    expected: ({
      permittedSweepTime,
      ...layout
    }: RackInChannel & { readonly permittedSweepTime: Time }): number =>
      // A millionth of slack: a sweep of exactly n times the permitted time needs n entrances, not n + 1.
      Math.max(1, Math.ceil(sweepTime(layout) / permittedSweepTime - 1e-6)),
    within: 1e-9,
    hint: "entrances at equal distances share the way between them; their number is whole.",
  }),
};
