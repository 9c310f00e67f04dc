import type { Angle, Discharge, KinematicViscosity, Length, Velocity } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { toModel } from "../../rack";
import { defineExercise } from "./definition";

/** What exercise 02.2 asks of a plant. */
export interface BuiltLayout {
  readonly clearSpacing?: Length;
  readonly rackAngle?: Angle;
}

/** A slack of one part in a billion: 15 mm typed as 1.5 cm must not miss 15 mm by its last digit. */
const atMost = (value: number, limit: number): boolean => value <= limit * (1 + 1e-9);

/** Exercises of notebook 02, survey of built racks. */
export const surveyOfBuiltRacksExercises = {
  "02.1": defineExercise({
    expected: ({
      asked,
      answered,
      wantedRate,
    }: {
      readonly asked: number;
      readonly answered: number;
      readonly wantedRate: number;
    }): number =>
      // A millionth of slack: a rate that is met exactly asks for no further answer.
      Math.max(0, Math.ceil(wantedRate * asked - answered - 1e-6)),
    within: 1e-9,
    hint: "the plants asked stay the denominator; the number of answers is whole.",
  }),
  "02.2": defineExercise({
    expected: ({
      plants,
      spacingAtMost,
      angleAtMost,
    }: {
      readonly plants: readonly BuiltLayout[];
      readonly spacingAtMost: Length;
      readonly angleAtMost: Angle;
    }): number => {
      const known = plants.flatMap(({ clearSpacing, rackAngle }) =>
        clearSpacing === undefined || rackAngle === undefined ? [] : [{ clearSpacing, rackAngle }],
      );
      const both = known.filter(
        ({ clearSpacing, rackAngle }) =>
          atMost(clearSpacing, spacingAtMost) && atMost(rackAngle, angleAtMost),
      );
      return both.length / known.length;
    },
    within: 1e-6,
    hint: "a plant that did not say one of the two can be counted neither way: it leaves the denominator too.",
  }),
  "02.3": defineExercise({
    expected: ({
      bypassDischarge,
      lengthScale,
    }: {
      readonly bypassDischarge: Discharge;
      readonly lengthScale: number;
    }) => toModel(lengthScale, { bypassDischarge }).bypassDischarge,
    within: 0.01,
    unit: "Lps",
    hint: "a discharge is a velocity times an area; each has its own ratio between nature and model.",
  }),
  "02.4": defineExercise({
    expected: ({
      approachVelocity,
      lengthScale,
      leastBarReynolds,
      kinematicViscosity,
    }: {
      readonly approachVelocity: Velocity;
      readonly lengthScale: number;
      readonly leastBarReynolds: number;
      readonly kinematicViscosity: KinematicViscosity;
    }) => u.m((leastBarReynolds * kinematicViscosity * lengthScale ** 1.5) / approachVelocity),
    within: 0.01,
    unit: "mm",
    hint: "turn the equation of the bar's Reynolds number in the model round for the thickness in nature.",
  }),
};
