import { refuse } from "../statistics/checks";
import { type EfficiencyDefinition, efficiencyDefinitions, type EfficiencyName } from "./efficiency";
import { type Outcome, outcomes } from "./outcome";

/** What a trial must say of a fish: which run it was in, and what it did. */
export interface TrialFish {
  readonly runId: string;
  readonly outcome: Outcome;
}

/** Refuses what is no list, no fish, an unknown outcome and a run without a name: a cell may hand over any rows. */
export function checkFish(where: string, fish: readonly TrialFish[]): void {
  if (!Array.isArray(fish))
    refuse(where, "the fish are no list; give one record for each, such as the rows of readRecords");
  if (fish.length === 0) refuse(where, "there are no fish; give one record for each");
  fish.forEach(({ runId, outcome }, at) => {
    if (!outcomes.includes(outcome))
      refuse(
        where,
        `outcome of fish[${at}] is ${JSON.stringify(outcome)}; it must be one of ${outcomes.join(", ")}`,
      );
    if (typeof runId !== "string" || runId === "")
      refuse(
        where,
        `runId of fish[${at}] is ${JSON.stringify(runId)}; it must name the fish's run by a text, such as "R1"`,
      );
  });
}

/** The definition of that name; refuses one that there is not. */
export function definitionOf(where: string, name: EfficiencyName): EfficiencyDefinition {
  if (!Object.hasOwn(efficiencyDefinitions, name)) {
    const names = Object.keys(efficiencyDefinitions).join(", ");
    refuse(where, `efficiency is "${String(name)}"; it must be one of ${names}`);
  }
  return efficiencyDefinitions[name];
}

/** Fish in the order in which their runs first appear, run by run. */
export function byRun<Fish extends TrialFish>(fish: readonly Fish[]): ReadonlyMap<string, readonly Fish[]> {
  const runs = new Map<string, Fish[]>();
  for (const one of fish) {
    const run = runs.get(one.runId);
    if (run === undefined) runs.set(one.runId, [one]);
    else run.push(one);
  }
  return runs;
}
