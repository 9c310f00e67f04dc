import { checkNumber, checkWhole, refuse } from "../../statistics/checks";
import { checkSeed, uniforms } from "../../statistics/random";
import { balance, type Balance, orderBalance, type OrderBalance } from "./balance";
import { dealt, evenSizes, shuffled } from "./blocks";
import { checkRules, type ExclusionRule, usualExclusionRules } from "./exclusionRules";
import { type Batch, type FishOfBatch, fishOfBatches, type Reuse } from "./fishNeeded";
import { cautionsOf, notesOf } from "./planInWords";
import { type Factors, type Level, ownColumns, type PlannedRun } from "./plannedRun";
import { welfareChecklist, type WelfarePoint } from "./welfare";

/** Runs that are no condition of the factorial, and show what rack, cue or handling alone do. */
export interface ControlRuns {
  /** What it is: "no rack", "no cue", "handled only". */
  readonly name: string;
  readonly per: "day" | "batch";
  readonly runs: number;
}

/** What a plan is made from. */
export interface PlanOptions<F extends Factors> {
  readonly factors: F;
  /** Runs of each combination of levels. */
  readonly replicates: number;
  readonly fishPerRun: number;
  /** Runs that fit into a day, controls included. */
  readonly runsPerDay: number;
  readonly batches: readonly Batch[];
  readonly controls?: readonly ControlRuns[];
  /** Fish that swim more than once; each fish once where it is not given. */
  readonly reuse?: Reuse;
  /** Fish held beyond those needed, over these: 0.1 for one in ten. 0 unless told otherwise. */
  readonly spareShare?: number;
  readonly exclusionRules?: readonly ExclusionRule[];
  readonly seed: number;
}

/** A randomised plan of runs. */
export interface TrialPlan<F extends Factors = Factors> {
  readonly factors: F;
  readonly runs: readonly PlannedRun<F>[];
  readonly conditions: number;
  readonly days: number;
  readonly balance: readonly Balance[];
  readonly order: readonly OrderBalance[];
  readonly fish: readonly FishOfBatch[];
  readonly exclusionRules: readonly ExclusionRule[];
  readonly welfare: readonly WelfarePoint[];
  /** How the runs lie in batches and days, in sentences. */
  readonly notes: readonly string[];
  readonly cautions: readonly string[];
  readonly seed: number;
}

const where = "trial.plan";

/** A run before it has a day: its levels, or the control that it is. */
interface Unit {
  readonly levels: Readonly<Record<string, Level>>;
  readonly control: string | undefined;
  readonly replicate: number | undefined;
  readonly features: readonly string[];
}

/**
 * A factorial plan of runs, randomised with a seed and blocked by batch and day.
 *
 * Returns the runs in their order with batch, day, place, levels and fish; how evenly levels lie in batches, days and the
 * order of the day; the fish that each batch needs against those that it has; the exclusion rules fixed beforehand; the
 * points of welfare to settle; and in sentences where blocks are incomplete. Whole replicates go to a batch as far as they
 * divide. Days are dealt at random and then evened out by random exchanges; the order of a day is random. The same seed
 * gives the same plan. Throws a RangeError for a factor without two different levels, days too short for their controls, and
 * more batches than runs.
 *
 * @example
 * trial.plan({ factors: { cue: ["none", "light"], velocity: [0.3, 0.6] }, replicates: 3, fishPerRun: 4, runsPerDay: 4,
 *   batches: [{ name: "roach-1", fish: 60 }], seed: 1 }).days // => 3
 */
export function plan<const F extends Factors>(options: PlanOptions<F>): TrialPlan<F> {
  check(options);
  const { factors, batches, controls = [], fishPerRun, runsPerDay, seed, spareShare = 0, reuse } = options;
  const uniform = uniforms(seed);
  const perDay = controls.filter((one) => one.per === "day").flatMap(controlUnits);
  const perBatch = controls.filter((one) => one.per === "batch").flatMap(controlUnits);
  const room = runsPerDay - perDay.length;

  const rows: PlannedRun<F>[] = [];
  let day = 0;
  dealtToBatches(unitsOf(factors, options.replicates), batches.length, uniform).forEach((units, at) => {
    const all = [...units, ...perBatch];
    const sizes = evenSizes(all.length, Math.ceil(all.length / room));
    for (const ofDay of dealt(all, sizes, uniform)) {
      day += 1;
      shuffled([...ofDay, ...perDay], uniform).forEach((unit, place) => {
        const run = {
          runId: `R${String(rows.length + 1).padStart(3, "0")}`,
          batch: batches[at].name,
          day,
          place: place + 1,
          control: unit.control,
          replicate: unit.replicate,
          fish: fishPerRun,
          ...Object.fromEntries(Object.keys(factors).map((factor) => [factor, unit.levels[factor]])),
        };
        // The levels were taken from the factors above, each under its name.
        rows.push(run as unknown as PlannedRun<F>);
      });
    }
  });

  const { exclusionRules = usualExclusionRules } = options;
  const made = {
    factors,
    runs: rows,
    conditions: conditionsOf(factors).length,
    days: day,
    balance: balance(factors, rows),
    order: orderBalance(factors, rows),
    fish: fishOfBatches(batches, rows, { reuse, spareShare }),
    exclusionRules,
    welfare: welfareChecklist,
    seed,
  };
  return { ...made, notes: notesOf(made, options), cautions: cautionsOf(made, options) };
}

/** Every combination of levels. */
function conditionsOf(factors: Factors): Readonly<Record<string, Level>>[] {
  return Object.entries(factors).reduce<Readonly<Record<string, Level>>[]>(
    (some, [factor, levels]) => some.flatMap((one) => levels.map((level) => ({ ...one, [factor]: level }))),
    [{}],
  );
}

function unitsOf(factors: Factors, replicates: number): readonly (readonly Unit[])[] {
  return Array.from({ length: replicates }, (_, at) =>
    conditionsOf(factors).map((levels) => ({
      levels,
      control: undefined,
      replicate: at + 1,
      features: Object.entries(levels).map(([factor, level]) => `${factor}: ${level}`),
    })),
  );
}

const controlUnits = ({ name, runs }: ControlRuns): readonly Unit[] =>
  Array.from({ length: runs }, () => ({
    levels: {},
    control: name,
    replicate: undefined,
    features: [`control: ${name}`],
  }));

/** Whole replicates to a batch as far as there are enough; otherwise the runs are dealt as evenly as they go. */
function dealtToBatches(
  replicates: readonly (readonly Unit[])[],
  batches: number,
  uniform: () => number,
): readonly (readonly Unit[])[] {
  if (replicates.length < batches) {
    const units = replicates.flat();
    return dealt(units, evenSizes(units.length, batches), uniform);
  }
  let next = 0;
  return evenSizes(replicates.length, batches).map((count) => {
    const own = replicates.slice(next, next + count).flat();
    next += count;
    return own;
  });
}

function check<F extends Factors>(options: PlanOptions<F>): void {
  const {
    factors,
    replicates,
    fishPerRun,
    runsPerDay,
    batches,
    controls = [],
    reuse,
    spareShare = 0,
  } = options;
  checkFactors(factors);
  checkWhole(where, "replicates", replicates, 1, 1000);
  checkWhole(where, "fishPerRun", fishPerRun, 1, 1000);
  checkWhole(where, "runsPerDay", runsPerDay, 1, 1000);
  checkNumber(where, "spareShare", spareShare, { atLeast: 0, atMost: 5 });
  checkSeed(where, options.seed);
  checkRules(where, options.exclusionRules ?? usualExclusionRules);
  checkBatches(batches, conditionsOf(factors).length * replicates);
  controls.forEach((one, at) => {
    if (one.per !== "day" && one.per !== "batch")
      refuse(where, `controls[${at}].per is "${String(one.per)}"; it must be "day" or "batch"`);
    checkWhole(where, `controls[${at}].runs`, one.runs, 1, 1000);
  });
  const taken = controls.filter((one) => one.per === "day").reduce((sum, one) => sum + one.runs, 0);
  if (taken >= runsPerDay)
    refuse(
      where,
      `runsPerDay is ${runsPerDay} and the controls take ${taken} of them; no run of the factorial fits in`,
    );
  if (reuse === undefined) return;
  checkWhole(where, "reuse.times", reuse.times, 2, 100);
  checkWhole(where, "reuse.restDays", reuse.restDays, 0, 365);
}

function checkBatches(batches: readonly Batch[], runs: number): void {
  if (batches.length === 0) refuse(where, "batches is empty; fish come in at least one batch");
  if (batches.length > runs)
    refuse(
      where,
      `batches has ${batches.length} of them and the factorial ${runs} runs; a batch needs a run at least`,
    );
  batches.forEach(({ name, fish }, at) => {
    checkWhole(where, `batches[${at}].fish`, fish, 0);
    if (batches.findIndex((other) => other.name === name) !== at)
      refuse(where, `two batches are named "${name}"; each needs a name of its own`);
  });
}

function checkFactors(factors: Factors): void {
  const names = Object.keys(factors);
  if (names.length === 0) refuse(where, "factors is empty; a plan needs at least one factor");
  for (const name of names) {
    const levels = factors[name];
    if (ownColumns.some((own) => own === name))
      refuse(where, `a factor is named "${name}", as a column of the plan is; call it otherwise`);
    if (levels.length < 2) refuse(where, `factor ${name} has ${levels.length} levels; it needs at least 2`);
    const twice = levels.find((level, at) => levels.indexOf(level) !== at);
    if (twice !== undefined) refuse(where, `factor ${name} has the level ${twice} twice`);
  }
}
