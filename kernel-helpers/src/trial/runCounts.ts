import { defineSchema, type Schema, withRules } from "../schema";
import { checkWhole, refuse } from "../statistics/checks";
import type { TrialFish } from "./fish";
import { type Outcome, outcomes } from "./outcome";
import { withoutSpaces } from "./runRules";

/** A run whose fish were counted, not told apart. */
export type CountedRun = { readonly runId: string; readonly fish: number } & Readonly<
  Record<Outcome, number>
>;

/**
 * The record of a trial whose fish were counted run by run: one row a run, `fish` released and how many did what.
 *
 * Other columns of the file, such as species and clear spacing, come from `runCountsWith`.
 */
export const runCounts = withRules(
  defineSchema({
    title: "runs of a live-fish trial",
    columns: {
      runId: { kind: "text", unique: true, note: "the run" },
      fish: { kind: "number", whole: true, atLeast: 1, note: "fish released" },
      bypassed: { kind: "number", whole: true, atLeast: 0, note: "entered the bypass" },
      rackPassed: { kind: "number", whole: true, atLeast: 0, note: "passed through the rack" },
      refused: { kind: "number", whole: true, atLeast: 0, note: "active, and took neither way" },
      impinged: { kind: "number", whole: true, atLeast: 0, note: "held against the rack" },
      inactive: { kind: "number", whole: true, atLeast: 0, note: "never came near" },
    },
  }),
  [
    withoutSpaces("runId"),
    {
      columns: ["fish", ...outcomes],
      allowed: "as many outcomes as fish",
      fault: (run) => {
        const fault = sumFault(run);
        return fault === undefined ? undefined : `${fault}.`;
      },
    },
  ],
);

/**
 * The record of counted runs with columns of your own besides: species, clear spacing, cue.
 *
 * Returns a schema for `readRecords`. Throws a RangeError for a column that counted runs have already.
 *
 * @example
 * Object.keys(trial.runCountsWith({ species: { kind: "text" } }).columns).length // => 8
 */
export function runCountsWith<const C extends Schema["columns"]>(
  columns: C,
): Schema & { readonly columns: (typeof runCounts)["columns"] & C } {
  const taken = Object.keys(columns).find((name) => Object.hasOwn(runCounts.columns, name));
  if (taken !== undefined)
    refuse("trial.runCountsWith", `columns has "${taken}", which counted runs have already; take it out`);
  const { rules = [] }: Schema = runCounts;
  const labels = Object.keys(columns).filter((name) => columns[name].kind === "text");
  return {
    ...runCounts,
    columns: { ...runCounts.columns, ...columns },
    rules: [...rules, ...labels.map(withoutSpaces)],
  };
}

/**
 * Fish of counted runs, one by one, so that efficiencies, comparisons and fits take them like any others.
 *
 * Returns a record for every fish, with the run's own columns and its outcome; the counts are left out. Throws a
 * RangeError for a run whose outcomes are not as many as its fish.
 *
 * @example
 * trial.fishOfCounts([{ runId: "R1", fish: 3, bypassed: 2, rackPassed: 1, refused: 0, impinged: 0,
 *   inactive: 0 }]).length // => 3
 */
export function fishOfCounts<Run extends CountedRun>(
  runs: readonly Run[],
): readonly (Omit<Run, Outcome | "fish"> & TrialFish)[] {
  const where = "trial.fishOfCounts";
  if (runs.length === 0) refuse(where, "there are no runs; give one record for each");
  return runs.flatMap((run) => {
    for (const outcome of outcomes) checkWhole(where, `${outcome} of run ${run.runId}`, run[outcome], 0);
    const fault = sumFault(run);
    if (fault !== undefined) refuse(where, `run ${run.runId}: ${fault}`);
    const {
      fish: _fish,
      bypassed: _b,
      rackPassed: _p,
      refused: _r,
      impinged: _i,
      inactive: _n,
      ...own
    } = run;
    return outcomes.flatMap((outcome) => Array.from({ length: run[outcome] }, () => ({ ...own, outcome })));
  });
}

function sumFault(run: CountedRun): string | undefined {
  const sum = outcomes.reduce((total, outcome) => total + run[outcome], 0);
  if (sum === run.fish) return undefined;
  const counted = outcomes.map((outcome) => `${run[outcome]} ${outcome}`).join(", ");
  return `${run.fish} fish have ${sum} outcomes (${counted}); correct a count`;
}
