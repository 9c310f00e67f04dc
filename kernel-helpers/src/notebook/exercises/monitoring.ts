import { guidanceFromProtection } from "../../monitoring";
import type { Length, PlainNumber } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { defineExercise } from "./definition";

/** Fish alive out of those caught, treated and control. */
export interface SurvivalCounts {
  readonly treatedAlive: number;
  readonly treated: number;
  readonly controlAlive: number;
  readonly control: number;
}

const logit = (share: number): number => Math.log(share / (1 - share));
const expit = (value: number): number => 1 / (1 + Math.exp(-value));

/** Exercises of notebook 13, monitoring. */
export const monitoringExercises = {
  "13.1": defineExercise({
    expected: ({ caught, efficiency }: { readonly caught: number; readonly efficiency: PlainNumber }) =>
      caught / efficiency,
    within: 0.01,
    hint: "the net holds a share of the fish that pass; what passed, times that share, was caught.",
  }),
  "13.2": defineExercise({
    expected: ({ treatedAlive, treated, controlAlive, control }: SurvivalCounts) =>
      treatedAlive / treated / (controlAlive / control),
    within: 0.002,
    hint: "each group has a share alive; net and handling killed in both of them, so one share stands over the other.",
  }),
  "13.3": defineExercise({
    expected: (shares: { readonly protection: PlainNumber; readonly turningRound: PlainNumber }) =>
      guidanceFromProtection(shares),
    within: 0.005,
    hint: "follow 1000 fish: how many are held back, how many of those come to the bypass, how many go through the turbine? Fish that turn round are in neither net.",
  }),
  "13.4": defineExercise({
    expected: ({
      predicted,
      intercept,
    }: {
      readonly predicted: PlainNumber;
      readonly intercept: PlainNumber;
    }) => expit(logit(predicted) + intercept),
    within: 0.005,
    hint: "the intercept moves the logit, ln of the share over its rest; move it, and turn the logit back into a share.",
  }),
  "13.5": defineExercise({
    expected: ({
      wanted,
      intercept,
      bodyRatio,
      totalLength,
      threshold,
      exponent,
    }: {
      readonly wanted: PlainNumber;
      readonly intercept: PlainNumber;
      readonly bodyRatio: PlainNumber;
      readonly totalLength: Length;
      readonly threshold: PlainNumber;
      readonly exponent: PlainNumber;
    }) => {
      const promised = expit(logit(wanted) - intercept);
      const relativeWidth = threshold + (1 - threshold) * promised ** (1 / exponent);
      return u.m((bodyRatio * totalLength) / relativeWidth);
    },
    within: 0.01,
    unit: "mm",
    hint: "the plant takes the intercept away from what the curve promises, so the curve must promise more: first on the logit, then the ramp turned round, then body over relative width.",
  }),
};
