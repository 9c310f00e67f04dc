import type { Angle, Length, Time, Velocity, VelocityGradient } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { defineExercise } from "./definition";

/** Exercises of notebook 07, velocity field. */
export const velocityFieldExercises = {
  "07.1": defineExercise({
    expected: ({
      samples,
      lowestCorrelation,
    }: {
      readonly samples: readonly { readonly correlation: number }[];
      readonly lowestCorrelation: number;
    }): number =>
      samples.filter(({ correlation }) => correlation < lowestCorrelation).length / samples.length,
    within: 0.005,
    hint: "count the samples whose correlation lies below the limit, and divide by all of them.",
  }),
  "07.2": defineExercise({
    expected: ({ duration }: { readonly duration: Time }): Time => u.s(4 * duration),
    within: 0.01,
    unit: "s",
    hint: "the error falls with the root of the number of independent samples, and that number grows with the time.",
  }),
  "07.3": defineExercise({
    expected: ({
      alongFlow,
      across,
      rackAngle,
    }: {
      readonly alongFlow: Velocity;
      readonly across: Velocity;
      readonly rackAngle: Angle;
    }): Velocity => u.mps(alongFlow * Math.sin(rackAngle) - across * Math.cos(rackAngle)),
    within: 0.01,
    unit: "mps",
    hint: "here the water has two components: the one along the flow presses towards the bars, the one across, towards the bypass, takes some of that away.",
  }),
  "07.4": defineExercise({
    expected: ({
      velocityStart,
      velocityEnd,
      permittedAcceleration,
    }: {
      readonly velocityStart: Velocity;
      readonly velocityEnd: Velocity;
      readonly permittedAcceleration: VelocityGradient;
    }): Length => u.m((velocityEnd - velocityStart) / permittedAcceleration),
    within: 0.01,
    unit: "m",
    hint: "the gradient is a difference of velocities over a distance; solve it for the distance.",
  }),
  "07.5": defineExercise({
    expected: ({
      highestNormal,
    }: {
      readonly highestNormal: {
        readonly "full depth": Velocity;
        readonly "bottom opening": Velocity;
      };
    }): string =>
      highestNormal["full depth"] <= highestNormal["bottom opening"] ? "full depth" : "bottom opening",
    within: 0,
    choices: ["full depth", "bottom opening"],
    hint: "compare the highest normal velocity at the height where the fish swims, not the mean over the depth.",
  }),
};
