import { practiceLimits } from "../../bypass/practice";
import { broadCrestedWeir } from "../../bypass/weirs";
import { freeFall } from "../../quantity/constants";
import type { Length, Velocity, VelocityGradient } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { defineExercise } from "./definition";

/** Exercises of notebook 06, bypass. */
export const bypassExercises = {
  "06.1": defineExercise({
    expected: ({
      bypassShare,
      channelWidth,
      velocityRatio,
    }: {
      readonly bypassShare: number;
      readonly channelWidth: Length;
      readonly velocityRatio: number;
    }) => u.m((bypassShare * channelWidth) / velocityRatio),
    within: 0.01,
    unit: "m",
    hint: "entrance and channel are equally deep, so only their widths and the share of the flow are left in the ratio.",
  }),
  "06.2": defineExercise({
    expected: ({
      crestWidth,
      energyHead,
      rise,
    }: {
      readonly crestWidth: Length;
      readonly energyHead: Length;
      readonly rise: Length;
    }) => broadCrestedWeir({ crestWidth, energyHead: u.m(energyHead + rise) }),
    within: 0.01,
    unit: "m3ps",
    hint: "the crest stays, so the whole rise is added to the head; the discharge grows faster than the head.",
  }),
  "06.3": defineExercise({
    expected: ({
      entranceVelocity,
      crestVelocity,
      permittedAcceleration,
    }: {
      readonly entranceVelocity: Velocity;
      readonly crestVelocity: Velocity;
      readonly permittedAcceleration: VelocityGradient;
    }) => u.m((crestVelocity - entranceVelocity) / permittedAcceleration),
    within: 0.01,
    unit: "m",
    hint: "the rise of the velocity is shared out over the way; turn the equation of the acceleration round.",
  }),
  "06.4": defineExercise({
    expected: ({
      chuteVelocity,
      permittedImpact,
    }: {
      readonly chuteVelocity: Velocity;
      readonly permittedImpact: Velocity;
    }) =>
      // A chute faster than the limit leaves no fall at all.
      u.m(Math.max(0, (permittedImpact ** 2 - chuteVelocity ** 2) / (2 * freeFall))),
    within: 0.01,
    unit: "m",
    hint: "energies add up, velocities do not: the velocity head of the chute is already part of the permitted one.",
  }),
  "06.5": defineExercise({
    expected: ({ fallHeight }: { readonly fallHeight: Length }) =>
      u.m(Math.max(practiceLimits.poolDepth.limit, practiceLimits.poolDepthOverFall.limit * fallHeight)),
    within: 0.01,
    unit: "m",
    hint: "two rules ask for a depth; the pool must meet the stricter one.",
  }),
};
