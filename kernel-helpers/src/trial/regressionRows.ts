import type { Terms } from "../statistics";
import { refuse } from "../statistics/checks";
import type { EfficiencyName } from "./efficiency";
import { byRun, checkFish, definitionOf, type TrialFish } from "./fish";

/** What an efficiency may depend on: a column by name, or a number or word worked out from the fish. */
export type FishTerm<Fish> = (keyof Fish & string) | ((fish: Fish) => number | string);

/** Terms by the name that they have in the fit. */
export type FishTerms<Fish> = Readonly<Record<string, FishTerm<Fish>>>;

/** Rows for a binomial regression: counts, terms, and the run of each row. */
export interface RegressionRows {
  /** What was counted, denominator included. */
  readonly definition: string;
  readonly successes: readonly number[];
  readonly trials: readonly number[];
  readonly terms: Terms;
  /** The run of each row: the cluster for errors that respect it. */
  readonly runs: readonly string[];
  /** Fish outside the denominator. */
  readonly fishLeftOut: number;
}

/**
 * Makes rows for `statistics.fitBinomial` from the fish of a trial.
 *
 * Returns one row a fish in the denominator, or with `per: "run"` one row a run that has such fish. A term is a column or a
 * function of the fish; a run's number is the mean over its fish in the denominator, a run's word must be the same for all
 * of them. Rows of single fish need errors that respect the runs, as `statistics.clusterRobust` gives; rows of runs show
 * their dispersion. Throws a RangeError where a term is missing or no number or word, and where the words of a run differ.
 *
 * @example
 * trial.regressionRows([{ runId: "R1", outcome: "bypassed", cue: "light" }, { runId: "R1", outcome: "refused", cue: "light" }],
 *   { efficiency: "guidance", terms: { cue: "cue" }, per: "run" }).trials[0] // => 2
 */
export function regressionRows<Fish extends TrialFish>(
  fish: readonly Fish[],
  {
    efficiency,
    terms,
    per = "fish",
  }: {
    readonly efficiency: EfficiencyName;
    readonly terms: FishTerms<Fish>;
    readonly per?: "fish" | "run";
  },
): RegressionRows {
  const where = "trial.regressionRows";
  checkFish(where, fish);
  const { definition, denominator, successes } = definitionOf(where, efficiency);
  const counted = fish.filter(({ outcome }) => denominator.includes(outcome));
  if (counted.length === 0) refuse(where, "no fish is in the denominator; there is nothing to fit");
  const rows = per === "run" ? [...byRun(counted).values()] : counted.map((one) => [one]);
  return {
    definition,
    successes: rows.map((row) => row.filter(({ outcome }) => successes.includes(outcome)).length),
    trials: rows.map((row) => row.length),
    terms: Object.fromEntries(
      Object.entries(terms).map(([name, term]) => [name, column(where, name, rows, term)]),
    ),
    runs: rows.map(([{ runId }]) => runId),
    fishLeftOut: fish.length - counted.length,
  };
}

const isWord = (entry: number | string): entry is string => typeof entry === "string";
const isNumber = (entry: number | string): entry is number => typeof entry === "number";

function column<Fish extends TrialFish>(
  where: string,
  name: string,
  rows: readonly (readonly Fish[])[],
  term: FishTerm<Fish>,
): readonly number[] | readonly string[] {
  const entries = rows.map((row) => row.map((one) => entryOf(where, name, one, term)));
  if (entries.every((row) => row.every(isNumber)))
    return entries.map((row) => row.reduce((sum, one) => sum + one, 0) / row.length);
  return entries.map((row, at) => {
    if (!row.every(isWord))
      return refuse(where, `${name} mixes numbers and words; it must be all numbers or all words`);
    if (new Set(row).size > 1) {
      const { runId } = rows[at][0];
      refuse(
        where,
        `${name} differs between the fish of run ${runId} (${[...new Set(row)].join(", ")}); take rows per fish`,
      );
    }
    return row[0];
  });
}

function entryOf<Fish extends TrialFish>(
  where: string,
  name: string,
  fish: Fish,
  term: FishTerm<Fish>,
): number | string {
  const entry: unknown = typeof term === "function" ? term(fish) : fish[term];
  if (typeof entry === "string" || (typeof entry === "number" && Number.isFinite(entry))) return entry;
  return refuse(
    where,
    `${name} of a fish of run ${fish.runId} is ${String(entry)}; it must be a finite number or a word, and fish without one must be left out beforehand`,
  );
}
