import { balance, type RunInBlocks } from "../../trial/planning/balance";
import { type Factors, levelOf } from "../../trial/planning/plannedRun";
import { detectableDifference } from "../../trial/planning/power";
import { type PlannedRuns, runsForInterval } from "../../trial/planning/precision";
import { designEffect } from "../../trial/planning/ruleOfThumb";
import { defineExercise } from "./definition";

/** Factors and runs, as notebook 08 holds those of a plan made by hand. */
export interface PlanInHand {
  readonly factors: Factors;
  readonly runs: readonly RunInBlocks[];
}

const faults = [
  "cue and day are mixed up",
  "cue and batch are mixed up",
  "clear spacing and day are mixed up",
  "clear spacing and batch are mixed up",
  "none of these",
] as const;

/** Whether no block of a kind holds more than one level of a factor. */
function mixedUp({ runs }: PlanInHand, factor: string, block: "batch" | "day"): boolean {
  const counted = runs.filter((run) => run.control === undefined);
  const levels = new Map<string | number, Set<string | number | undefined>>();
  for (const run of counted) {
    const own = levels.get(run[block]) ?? new Set();
    levels.set(run[block], own.add(levelOf(run, factor)));
  }
  return [...levels.values()].every((own) => own.size === 1);
}

function faultOf(plan: PlanInHand): (typeof faults)[number] {
  // A batch is made of days: where it holds one level, so does each of its days, and the batch is the fault to name.
  if (mixedUp(plan, "cue", "batch")) return "cue and batch are mixed up";
  if (mixedUp(plan, "clearSpacing", "batch")) return "clear spacing and batch are mixed up";
  if (mixedUp(plan, "cue", "day")) return "cue and day are mixed up";
  if (mixedUp(plan, "clearSpacing", "day")) return "clear spacing and day are mixed up";
  return "none of these";
}

/** Exercises of notebook 08, planning a trial. */
export const planningATrialExercises = {
  "08.1": defineExercise({
    expected: (inputs: PlannedRuns & { readonly share: number; readonly halfWidth: number }) =>
      runsForInterval(inputs).runs,
    within: 0.03,
    hint: "call trial.runsForInterval with the half width of the question; the fish of a run and their likeness stay as they are.",
  }),
  "08.2": defineExercise({
    expected: ({
      fishPerRun,
      activeShare,
      intraclassCorrelation,
    }: {
      readonly fishPerRun: number;
      readonly activeShare: number;
      readonly intraclassCorrelation: number;
    }) => {
      const of = (fish: number): number =>
        designEffect.evaluate({ fishPerRun: fish, activeShare, intraclassCorrelation });
      return Math.sqrt(of(2 * fishPerRun) / (2 * of(fishPerRun)));
    },
    within: 0.01,
    hint: "the half width goes with √(D/n); twice the fish double n, and D grows too.",
  }),
  "08.3": defineExercise({
    expected: ({ factors, runs }: PlanInHand) =>
      balance(factors, runs).find((one) => one.block === "day" && one.factor === "cue")?.largestDifference ??
      0,
    within: 1e-9,
    hint: "count the runs of each cue in every day; the day in which the two counts lie furthest apart decides.",
  }),
  "08.4": defineExercise({
    expected: faultOf,
    within: 0,
    hint: "ask of each factor whether one batch, or one day, holds a single level of it: then nobody can tell the two apart. Where both do, the batch is named.",
    choices: faults,
  }),
  "08.5": defineExercise({
    expected: ({
      permittedFish,
      ...inputs
    }: PlannedRuns & {
      readonly share: number;
      readonly power: number;
      readonly permittedFish: number;
    }) => {
      const runs = Math.floor(permittedFish / 2 / inputs.fishPerRun);
      const { higher } = detectableDifference({ ...inputs, runs });
      return (higher ?? Number.NaN) - inputs.share;
    },
    within: 0.04,
    hint: "half of the fish go to each condition; whole runs of them go into trial.detectableDifference, which gives shares, not differences.",
  }),
};
