import type { Area, Discharge, Energy, Frequency, Length, Time } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import type { CloggingCoefficients } from "../../rack/clogging";
import { flushingWater } from "../../rack/clogging/flushing";
import { referenceSpacing } from "../../rack/clogging/lossFactor";
import { defineExercise } from "./definition";

/** What cleaning at one threshold costs in a year. */
export interface CleaningChoice {
  readonly threshold: Length;
  readonly cleanings: number;
  readonly energy: Energy;
}

/** Exercises of notebook 05, clogging and cleaning. */
export const cloggingAndCleaningExercises = {
  "05.1": defineExercise({
    expected: ({
      coefficients: { scale, loadExponent, spacingExponent },
      rackArea,
      clearSpacing,
      cleanHeadLoss,
      threshold,
    }: {
      readonly coefficients: CloggingCoefficients;
      readonly rackArea: Area;
      readonly clearSpacing: Length;
      readonly cleanHeadLoss: Length;
      readonly threshold: Length;
    }) => {
      const added = Math.max(0, threshold / cleanHeadLoss - 1);
      const atOneKilogram = scale * (referenceSpacing / clearSpacing) ** spacingExponent;
      return u.kg(rackArea * (added / atOneKilogram) ** (1 / loadExponent));
    },
    within: 0.02,
    unit: "kg",
    hint: "the factor at the threshold is threshold over clean loss; turn the law round for the load, and a load is per square metre.",
  }),
  "05.2": defineExercise({
    expected: (inputs: {
      readonly flushingDischarge: Discharge;
      readonly bypassDischarge: Discharge;
      readonly flushingTime: Time;
      readonly flushings: number;
    }) => flushingWater({ ...inputs, flushingTime: u.s(2 * inputs.flushingTime) }),
    within: 0.01,
    unit: "m3",
    hint: "only the water above what the bypass has anyway counts, for twice the time.",
  }),
  "05.3": defineExercise({
    expected: ({ reach }: { readonly reach: number }): number => 1 / reach ** 2,
    within: 0.01,
    hint: "the whole flow passes the part that is reached: how much faster is it there, and how does the loss go with velocity?",
  }),
  "05.4": defineExercise({
    expected: ({
      span,
      naturalFrequency,
      sheddingFrequency,
      leastRatio,
    }: {
      readonly span: Length;
      readonly naturalFrequency: Frequency;
      readonly sheddingFrequency: Frequency;
      readonly leastRatio: number;
    }) => u.m(span * Math.sqrt(naturalFrequency / (leastRatio * sheddingFrequency))),
    within: 0.01,
    unit: "m",
    hint: "the natural frequency goes with one over the square of the span: which span gives the frequency that you need?",
  }),
  "05.5": defineExercise({
    expected: ({
      choices,
      worthOfCleaning,
    }: {
      readonly choices: readonly CleaningChoice[];
      readonly worthOfCleaning: Energy;
    }) => {
      const cost = ({ energy, cleanings }: CleaningChoice) => energy + cleanings * worthOfCleaning;
      return choices.reduce((best, one) => (cost(one) < cost(best) ? one : best)).threshold;
    },
    within: 1e-6,
    unit: "cm",
    hint: "add the worth of its cleanings to the energy of each row, and look for the smallest sum.",
  }),
};
