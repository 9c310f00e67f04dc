import type { PlainNumber } from "../../quantity/dimension";
import { defineExercise } from "./definition";

/** By how much runs of so many fish widen the variance of a share. */
const designEffect = (fishPerRun: number, correlation: number): number => 1 + (fishPerRun - 1) * correlation;

/** Exercises of notebook 09, live-fish trials. */
export const liveFishTrialsExercises = {
  "09.1": defineExercise({
    expected: ({
      bypassed,
      rackPassed,
    }: {
      readonly bypassed: PlainNumber;
      readonly rackPassed: PlainNumber;
    }) => bypassed / (bypassed + rackPassed),
    within: 0.005,
    hint: "only fish that went one of the two ways are in this denominator; refused, impinged and inactive fish are not.",
  }),
  "09.2": defineExercise({
    expected: ({
      active,
      fishPerRun,
      correlation,
    }: {
      readonly active: PlainNumber;
      readonly fishPerRun: PlainNumber;
      readonly correlation: PlainNumber;
    }) => active / designEffect(fishPerRun, correlation),
    within: 0.01,
    hint: "work out the design effect first; the count divided by it is what independent fish would have told.",
  }),
  "09.3": defineExercise({
    expected: ({
      bypassed,
      active,
      inactive,
    }: {
      readonly bypassed: PlainNumber;
      readonly active: PlainNumber;
      readonly inactive: PlainNumber;
    }) => bypassed / (active + inactive),
    within: 0.005,
    hint: "the bypassed fish stay the same; the denominator grows by the fish that were inactive and would now be refused.",
  }),
  "09.4": defineExercise({
    expected: ({
      shareBefore,
      shareAtEnd,
      waiting,
    }: {
      readonly shareBefore: PlainNumber;
      readonly shareAtEnd: PlainNumber;
      readonly waiting: PlainNumber;
    }) => (shareAtEnd - shareBefore) / waiting,
    within: 0.01,
    hint: "the curve's rise after minute 20 is a share of all active fish; the question asks for a share of those still waiting.",
  }),
  "09.5": defineExercise({
    expected: ({
      fishPerRun,
      otherFishPerRun,
      correlation,
    }: {
      readonly fishPerRun: PlainNumber;
      readonly otherFishPerRun: PlainNumber;
      readonly correlation: PlainNumber;
    }) => Math.sqrt(designEffect(otherFishPerRun, correlation) / designEffect(fishPerRun, correlation)),
    within: 0.01,
    hint: "a width goes with the root of the variance, and the variance with the design effect; compare those of the two run sizes.",
  }),
};
