import type { PlannedRun } from "./plannedRun";

/** A delivery of fish. */
export interface Batch {
  readonly name: string;
  /** Fish that are there to be used. */
  readonly fish: number;
}

/** Fish that swim more than once. */
export interface Reuse {
  /** Runs that a fish may make. */
  readonly times: number;
  /** Whole days of rest between two of them. */
  readonly restDays: number;
}

/** Fish that the runs of a batch need, against those that are there. */
export interface FishOfBatch {
  readonly batch: string;
  readonly runs: number;
  /** Fish put into runs and controls, each time counted. */
  readonly handled: number;
  /** Different fish, the spare ones included. */
  readonly needed: number;
  readonly available: number;
  readonly missing: number;
  /** The same in a sentence. */
  readonly sentence: string;
}

/** The fish of each batch. With reuse, a fish rests; so the fish of neighbouring days must be different ones. */
export function fishOfBatches(
  batches: readonly Batch[],
  runs: readonly PlannedRun[],
  { reuse, spareShare }: { readonly reuse: Reuse | undefined; readonly spareShare: number },
): readonly FishOfBatch[] {
  return batches.map(({ name, fish: available }) => {
    const own = runs.filter((run) => run.batch === name);
    const handled = sumOf(own);
    const different = reuse === undefined ? handled : differentFish(own, handled, reuse);
    const needed = Math.ceil(different * (1 + spareShare) - 1e-9);
    const missing = Math.max(0, needed - available);
    const how = reuse === undefined ? "each fish once" : `each fish at most ${reuse.times} times`;
    const spare = needed === different ? "" : `, ${needed - different} of them spare`;
    return {
      batch: name,
      runs: own.length,
      handled,
      needed,
      available,
      missing,
      sentence:
        `Batch ${name} needs ${needed} fish (${own.length} runs, ${how}${spare}) and has ${available}: ` +
        (missing === 0
          ? `${available - needed} are left.`
          : `${missing} too few. Fewer replicates, fewer fish a run or another delivery would do.`),
    };
  });
}

const sumOf = (runs: readonly PlannedRun[]): number => runs.reduce((sum, run) => sum + run.fish, 0);

function differentFish(runs: readonly PlannedRun[], handled: number, { times, restDays }: Reuse): number {
  const days = [...new Set(runs.map((run) => run.day))];
  const resting = days.map((day) => sumOf(runs.filter((run) => run.day >= day && run.day <= day + restDays)));
  return Math.max(Math.ceil(handled / times), ...resting);
}
