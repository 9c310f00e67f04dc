import type { Length } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { normalQuantile } from "../../statistics/distributions";
import { defineExercise } from "./definition";

/** An input that may be measured: what knowing it would take off the result's error, and what measuring costs. */
export interface Candidate {
  readonly input: string;
  readonly reduction: number;
  readonly cost: number;
}

/** Exercises of notebook 15, uncertainty. */
export const uncertaintyExercises = {
  "15.1": defineExercise({
    expected: ({
      clearSpacing,
      spacingError,
      share,
    }: {
      readonly clearSpacing: Length;
      readonly spacingError: Length;
      readonly share: number;
    }) => u.m(clearSpacing + spacingError * normalQuantile(share)),
    within: 0.0005,
    unit: "mm",
    hint: "ask the distribution for its quantile at that share, or add the standard deviation times the normal quantile to the mean.",
  }),
  "15.2": defineExercise({
    expected: ({
      standardDeviation,
      wanted,
    }: {
      readonly standardDeviation: number;
      readonly wanted: number;
    }) => (standardDeviation / wanted) ** 2,
    within: 0.01,
    hint: "the error of a mean of random draws is the standard deviation of one draw over the root of their number.",
  }),
  "15.3": defineExercise({
    expected: ({ now, first }: { readonly now: number; readonly first: number }) =>
      now * (1 - Math.sqrt(1 - Math.min(1, Math.max(0, first)))),
    within: 0.01,
    hint: "knowing the input takes its share off the variance, not off the standard deviation; take the root of what is left.",
  }),
  "15.4": defineExercise({
    expected: ({ prior, instrument }: { readonly prior: number; readonly instrument: number }) =>
      (prior * instrument) / Math.hypot(prior, instrument),
    within: 0.01,
    hint: "two sources of one normal quantity join by adding the inverses of their variances.",
  }),
  "15.5": defineExercise({
    expected: ({ candidates }: { readonly candidates: readonly Candidate[] }): string =>
      candidates.reduce((best, one) => (one.reduction / one.cost > best.reduction / best.cost ? one : best))
        .input,
    within: 0,
    choices: ["clearSpacing", "bodyRatio", "curve", "mortalityFactor", "protectedSurvival"],
    hint: "divide what knowing an input takes off the error by what measuring it costs, and take the largest.",
  }),
};
