import { u } from "../quantity/u";
import { formatNumber } from "../quantity/format";
import { type RowFault, type RowRule, type RowsRule, type Rule, sameWithin } from "../schema";
import type { Outcome } from "./outcome";

/** What the rules read of a record, in SI. */
interface RuledFish {
  readonly runId: string;
  readonly outcome: Outcome;
  readonly outcomeTime: number | undefined;
  readonly runDuration: number;
  readonly fishInRun: number;
}

/** Outcomes that happen at a moment; the others are what is left when the run ends. */
const timed: readonly Outcome[] = ["bypassed", "rackPassed", "impinged"];

const minutes = (time: number): string => `${formatNumber(u.to.min(u.s(time)), 4)} min`;

const timeWhereOneIs: Rule<RuledFish> = {
  columns: ["outcomeTime", "outcome"],
  allowed: "a time for bypassed, rackPassed and impinged; an empty cell for refused and inactive",
  fault({ outcome, outcomeTime }) {
    const wanted = timed.includes(outcome);
    if (wanted === (outcomeTime !== undefined)) return undefined;
    return wanted
      ? `the fish is ${outcome} and has no time; enter when it happened, or correct the outcome.`
      : `a fish that is ${outcome} has no time at which it happened; empty the cell, or correct the outcome.`;
  },
};

const timeWithinRun: Rule<RuledFish> = {
  columns: ["outcomeTime", "runDuration"],
  allowed: "a time within the run",
  fault({ outcomeTime, runDuration }) {
    // A file's minutes become seconds and may differ in the last digit.
    if (outcomeTime === undefined || outcomeTime <= runDuration * (1 + 1e-12)) return undefined;
    return `${minutes(outcomeTime)} is after the end of the run, which lasted ${minutes(runDuration)}; correct one of them.`;
  },
};

/** A label's spaces can't be seen, and would make a run, a cue or a species of its own. */
export const withoutSpaces = (column: string): RowRule<Readonly<Record<string, unknown>>> => ({
  columns: [column],
  allowed: "a text without spaces around it",
  fault(row) {
    const label = row[column];
    if (typeof label !== "string" || label === label.trim()) return undefined;
    return `"${label}" has spaces around it and would count as another ${column} than "${label.trim()}"; take them out.`;
  },
});

/** Columns of labels. */
const labels = ["runId", "fishId", "batch", "species", "cue"] as const;

/** As many records of a run as it has fish. */
const asManyAsFish: RowsRule<RuledFish> = {
  columns: ["fishInRun", "runId"],
  allowed: "as many records of a run as it has fish",
  faults(rows, lineOf) {
    const runs = new Map<string, number[]>();
    rows.forEach(({ runId }, index) => runs.set(runId, [...(runs.get(runId) ?? []), index]));
    return [...runs].flatMap(([runId, places]): RowFault[] => {
      const { fishInRun } = rows[places[0]];
      if (places.length === fishInRun) return [];
      const lines = places.map(lineOf).join(", ");
      const many = places.length > fishInRun;
      const fault = `run ${runId} has ${fishInRun} fish and ${places.length} records, in lines ${lines}; ${
        many ? "take out what is too much" : "add what is missing"
      }, or correct the number of fish.`;
      const shown = many ? places.slice(fishInRun) : places.slice(-1);
      return shown.map((index) => ({ index, fault }));
    });
  },
};

/** Columns that all fish of a run share. */
const ofTheRun = [
  "date",
  "species",
  "batch",
  "temperature",
  "clearSpacing",
  "approachVelocity",
  "entranceVelocityRatio",
  "cue",
  "runDuration",
  "fishInRun",
] as const;

/** A rule with the columns that it reads. */
type NamedRule = Rule<never> & { readonly columns: readonly string[] };

const rules: readonly NamedRule[] = [
  ...labels.map(withoutSpaces),
  timeWhereOneIs,
  timeWithinRun,
  ...sameWithin<string>("runId", ofTheRun),
  asManyAsFish,
];

/** The rules for records with these columns: those whose columns are all there. */
export function rulesFor(columns: readonly string[]): readonly NamedRule[] {
  return rules.filter((rule) => rule.columns.every((name) => columns.includes(name)));
}
