import type { Balance, OrderBalance } from "./balance";
import type { FishOfBatch, Reuse } from "./fishNeeded";
import { type Factors, type PlannedRun } from "./plannedRun";

interface Made {
  readonly runs: readonly PlannedRun[];
  readonly conditions: number;
  readonly days: number;
  readonly balance: readonly Balance[];
  readonly order: readonly OrderBalance[];
  readonly fish: readonly FishOfBatch[];
}

interface Asked {
  readonly factors: Factors;
  readonly replicates: number;
  readonly fishPerRun: number;
  readonly runsPerDay: number;
  readonly batches: readonly { readonly name: string }[];
  readonly controls?: readonly {
    readonly name: string;
    readonly per: "day" | "batch";
    readonly runs: number;
  }[];
  readonly reuse?: Reuse;
}

const plural = (count: number, one: string): string => `${count} ${one}${count === 1 ? "" : "s"}`;

/** How the runs lie in batches and days. */
export function notesOf(made: Made, asked: Asked): readonly string[] {
  const { runs, conditions, days } = made;
  const { replicates, batches, controls = [], runsPerDay } = asked;
  const ofControls = runs.filter((run) => run.control !== undefined).length;
  return [
    `${plural(runs.length, "run")} on ${plural(days, "day")}: ${plural(conditions, "condition")} in ` +
      `${plural(replicates, "replicate")}, and ${ofControls === 0 ? "no control run" : plural(ofControls, "control run")}` +
      (controls.length === 0 ? "." : ` (${controls.map((one) => one.name).join(", ")}).`),
    batchNote(replicates, batches.length),
    ...dayNotes(made, conditions, runsPerDay),
  ];
}

function batchNote(replicates: number, batches: number): string {
  if (batches === 1) return "One batch holds every replicate: nothing can be said about other batches.";
  if (replicates < batches)
    return (
      `${plural(replicates, "replicate")} over ${batches} batches: a batch holds part of the conditions only, ` +
      "so that batch and conditions are partly mixed up. Levels are spread over batches as evenly as they go."
    );
  if (replicates % batches === 0)
    return `Every batch holds ${plural(replicates / batches, "whole replicate")}: batches and conditions are not mixed up.`;
  return (
    `${replicates} replicates do not divide over ${batches} batches: every batch holds whole replicates, ` +
    "some one more than others."
  );
}

function dayNotes({ runs, days }: Made, conditions: number, runsPerDay: number): readonly string[] {
  const sizes = Array.from({ length: days }, (_, at) => runs.filter((run) => run.day === at + 1));
  const ofFactorial = sizes.map((some) => some.filter((run) => run.control === undefined).length);
  const short = sizes.filter((some) => some.length < runsPerDay).length;
  const most = Math.max(...ofFactorial);
  return [
    most < conditions
      ? `A day holds at most ${most} of the ${conditions} conditions: days are incomplete blocks. The levels of each ` +
        "factor are evened out within days; effects of several factors together are not free of the day."
      : "A day can hold every condition.",
    ...(short === 0
      ? []
      : [`${plural(short, "day")} of ${days} stay below ${runsPerDay} runs: the runs do not fill them.`]),
  ];
}

/** What stands against the plan, or must be said with its results. */
export function cautionsOf(made: Made, asked: Asked): readonly string[] {
  const { balance, fish, order } = made;
  const uneven = balance.filter((one) => !one.even);
  const { controls = [], reuse, replicates } = asked;
  return [
    ...fish.filter((one) => one.missing > 0).map((one) => one.sentence),
    ...uneven.map(
      ({ factor, block, largestDifference, smallestPossible }) =>
        `The levels of ${factor} differ by ${plural(largestDifference, "run")} in a ${block}, where ${smallestPossible} is possible.`,
    ),
    ...order
      .filter((one) => one.difference > 1)
      .map(
        ({ factor, earliest, latest, difference }) =>
          `Within the day, ${factor} ${latest} comes ${difference.toFixed(1)} places later on average than ${earliest}: ` +
          "the hour may pass for an effect. Another seed deals the days anew.",
      ),
    ...(replicates === 1
      ? ["One replicate: chance between runs of one condition can't be told from its effect."]
      : []),
    ...(controls.length === 0
      ? [
          "No controls are planned: what the fish would have done without rack, or after handling alone, stays unknown.",
        ]
      : []),
    ...(reuse === undefined
      ? []
      : [
          `Fish that swim up to ${reuse.times} times are not new fish: they learn and tire, and their runs are not ` +
            "independent (pseudo-replication). Tag them, take the fish as a random effect, and show the result of first runs alone beside it.",
        ]),
    "A trial with live fish needs its permit and ethics approval first; local law and licensed practice decide. The list of " +
      "welfare points is a list of questions, no legal advice.",
  ];
}
