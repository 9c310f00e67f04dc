import { type Column, defineSchema, type Schema } from "../schema";
import { refuse } from "../statistics/checks";
import { outcomes } from "./outcome";
import { rulesFor } from "./runRules";

const { columns } = defineSchema({
  title: "fish of a live-fish trial",
  columns: {
    runId: { kind: "text", note: "the run; its fish were in the flume together" },
    fishId: { kind: "text", unique: true, note: "the fish's label" },
    date: { kind: "day", note: "the day of the run" },
    batch: { kind: "text", note: "the delivery or catch that the fish came with" },
    species: { kind: "text", note: "a name in the species table" },
    totalLength: { kind: "quantity", unit: "mm", above: 0, note: "total length" },
    temperature: { kind: "quantity", unit: "degC", atLeast: 0, atMost: 40, note: "of the water" },
    clearSpacing: { kind: "quantity", unit: "mm", above: 0, note: "clear spacing of the rack's bars" },
    approachVelocity: {
      kind: "quantity",
      unit: "mps",
      above: 0,
      note: "mean velocity in the flume upstream of the rack",
    },
    entranceVelocityRatio: {
      kind: "number",
      atLeast: 0,
      note: "velocity at the bypass entrance over approach velocity",
    },
    cue: { kind: "text", note: "the added cue, such as light; none without one" },
    runDuration: { kind: "quantity", unit: "min", above: 0, note: "from the release to the end of the run" },
    outcome: { kind: "choice", oneOf: outcomes, note: "what the fish did" },
    outcomeTime: {
      kind: "quantity",
      unit: "min",
      atLeast: 0,
      optional: true,
      note: "from the release to bypass, passage or impingement; empty for refused and inactive fish",
    },
  },
});

/** Columns that a trial may have besides. */
const more = {
  fishInRun: { kind: "number", whole: true, atLeast: 1, note: "how many fish were in the run" },
  closestDistance: {
    kind: "quantity",
    unit: "m",
    atLeast: 0,
    optional: true,
    note: "the least distance to rack or bypass at which the fish was seen; empty if it was not followed",
  },
} as const satisfies Readonly<Record<string, Column>>;

type UsualColumns = typeof columns;
type MoreColumns = typeof more;

/** What no trial can do without. */
const needed = ["runId", "fishId", "outcome"] as const;

/** A column that a trial may lack. */
export type LackableColumn = Exclude<keyof UsualColumns, (typeof needed)[number]>;

/** A column that a trial may have besides. */
export type MoreColumn = keyof MoreColumns;

/** The record of a trial: the usual columns without some and with others. */
export interface RunRecord<
  Lacking extends LackableColumn = never,
  Having extends MoreColumn = never,
> extends Schema {
  readonly columns: Omit<UsualColumns, Lacking> & Pick<MoreColumns, Having>;
}

/**
 * The record of a live-fish trial as you keep it: the usual columns without those that you lack, with those that you have
 * besides, and the rules that hold between them.
 *
 * Returns a schema for `readRecords`. `without` names columns of `runRecord` that the file lacks: all but runId, fishId and
 * outcome. `having` names columns that it has besides: `fishInRun`, so that a run with more or fewer records than fish is
 * refused, and `closestDistance`, so that the distance which makes a fish active can be chosen. Throws a RangeError for
 * other names.
 *
 * @example
 * Object.keys(trial.runRecordFor({ without: ["batch"], having: ["fishInRun"] }).columns).length // => 14
 */
export function runRecordFor<
  const Lacking extends LackableColumn = never,
  const Having extends MoreColumn = never,
>({
  without = [],
  having = [],
}: {
  readonly without?: readonly Lacking[];
  readonly having?: readonly Having[];
} = {}): RunRecord<Lacking, Having> {
  const where = "trial.runRecordFor";
  const lackable = Object.keys(columns).filter((name) => !needed.some((one) => one === name));
  checkNames(where, "without", without, lackable);
  checkNames(where, "having", having, Object.keys(more));
  const kept = Object.fromEntries([
    ...Object.entries(columns).filter(([name]) => !without.some((one) => one === name)),
    ...having.map((name) => [name, more[name]] as const),
  ]);
  return {
    title: "fish of a live-fish trial",
    // The columns are those that the type says: the usual ones, less some and plus others.
    columns: kept as unknown as RunRecord<Lacking, Having>["columns"],
    rules: rulesFor(Object.keys(kept)),
  };
}

function checkNames(where: string, list: string, names: readonly string[], allowed: readonly string[]): void {
  const other = names.find((name) => !allowed.includes(name));
  if (other !== undefined) refuse(where, `${list} names "${other}"; it may name ${allowed.join(", ")}`);
}

/** The record of a live-fish trial: one row a fish. */
export const runRecord = runRecordFor();
