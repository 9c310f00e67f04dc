import { availableParallelism } from "node:os";
import { join } from "node:path";
import { Piscina } from "piscina";
import { checkPlants } from "./checkPlants";
import { joinParts } from "./join";
import { doneParts, openParts, partPath, partsFolder, removeParts } from "./parts";
import { checkBatch, textBatches } from "./plantsFile";
import type { Settings } from "./settings";
import type { PartTask } from "./worker";

const workerProgram = join(__dirname, "..", "..", "..", "dist", "workshop", "screening", "worker.js");

/** A screening as the command line asks for it. */
export interface Screening {
  readonly plantsPath: string;
  /** The file's name as the person wrote it, for sentences. */
  readonly place: string;
  readonly out: string;
  readonly settings: Settings;
  /** All cores unless told. */
  readonly workers?: number;
  /** The share of the parts that this run makes, the `number`-th of `of`; all of them where it is left out. */
  readonly share?: { readonly number: number; readonly of: number };
  /** Joins parts that other runs have made, and calculates nothing. */
  readonly mergeOnly?: boolean;
}

/** What a run says on its way. */
export interface ScreeningProgress {
  /** The rows are checked; so many plants are this run's, and so many of them were done before. */
  begin(plants: number, done: number): void;
  step(plants: number): void;
}

/** How a run ended. */
export interface ScreeningEnd {
  readonly plants: number;
  /** Parts of the whole screening that are still to be made, by this run or by others. */
  readonly missing: number;
  readonly joined: boolean;
}

/**
 * Screens the plants of a file, part by part over a pool of workers, and joins the parts once all are there.
 *
 * A part stands on the disk whole or not at all, and a run passes over those that are there, so it may be stopped and given
 * again. What a part holds depends on its plants and the settings alone. Throws an Error in sentences for rows that can't be
 * used, parts of another screening, and a disk that takes no more.
 */
export async function screen(
  { plantsPath, place, out, settings, workers = availableParallelism(), share, mergeOnly = false }: Screening,
  progress: ScreeningProgress,
  signal: AbortSignal,
): Promise<ScreeningEnd> {
  const { plants, parts, digest } = await checkPlants(plantsPath, place, settings.plantsInPart, signal);
  const folder = partsFolder(out);
  const done = await openParts(folder, `${JSON.stringify({ plants: digest, ...settings }, undefined, 2)}\n`);
  if (!mergeOnly) {
    const mine = (index: number): boolean => share === undefined || index % share.of === share.number - 1;
    await makeParts(
      { plantsPath, place, folder, settings, workers, mine, done, plants, parts },
      progress,
      signal,
    );
  }
  const there = new Set(doneParts(folder));
  const missing = Array.from({ length: parts }, (_, index) => index).filter(
    (index) => !there.has(index),
  ).length;
  // Runs of a share leave the joining to the one that comes after all of them.
  const joins = missing === 0 && share === undefined;
  if (joins) {
    await joinParts(folder, parts, out);
    removeParts(folder);
  }
  return { plants, missing, joined: joins };
}

interface PartsToMake {
  readonly plantsPath: string;
  readonly place: string;
  readonly folder: string;
  readonly settings: Settings;
  readonly workers: number;
  readonly mine: (index: number) => boolean;
  readonly done: ReadonlySet<number>;
  readonly plants: number;
  readonly parts: number;
}

async function makeParts(
  { plantsPath, place, folder, settings, workers, mine, done, plants, parts }: PartsToMake,
  progress: ScreeningProgress,
  signal: AbortSignal,
): Promise<void> {
  const { plantsInPart } = settings;
  const sizeOf = (index: number): number =>
    index === parts - 1 ? plants - index * plantsInPart : plantsInPart;
  const own = Array.from({ length: parts }, (_, index) => index).filter(mine);
  const count = (indices: readonly number[]): number =>
    indices.reduce((sum, index) => sum + sizeOf(index), 0);
  progress.begin(count(own), count(own.filter((index) => done.has(index))));
  if (own.every((index) => done.has(index))) return;

  const pool = new Piscina<PartTask, number>({
    filename: workerProgram,
    workerData: settings,
    minThreads: workers,
    maxThreads: workers,
  });
  const running = new Set<Promise<void>>();
  const failures: unknown[] = [];
  try {
    for await (const batch of textBatches(plantsPath, plantsInPart)) {
      signal.throwIfAborted();
      if (failures.length > 0) break;
      if (!mine(batch.index) || done.has(batch.index)) continue;
      const { plants: checked } = await checkBatch(place, batch);
      const task = { path: partPath(folder, batch.index), plants: checked };
      const made = pool
        .run(task, { signal })
        .then((written) => progress.step(written))
        .catch((error: unknown) => void failures.push(error));
      const settled = made.finally(() => running.delete(settled));
      running.add(settled);
      // A few parts ahead keep every worker busy; more would only fill the memory.
      while (running.size >= 2 * workers) await Promise.race(running);
    }
    await Promise.all(running);
  } finally {
    await pool.destroy();
  }
  signal.throwIfAborted();
  if (failures.length > 0) throw failures[0];
}
