/** Running one notebook from top to bottom in a kernel of its own. */
import { dirname } from "node:path";
import { isLateError, messageOf, shortError } from "./failureText";
import { Kernel, type CellRun } from "./kernel";
import { awaitLeftovers, type Leftovers } from "./leftovers";
import { codeCells, readNotebook, sourceText, type Notebook } from "./notebookFile";
import { stderrText, type Output } from "./outputs";

export interface Failure {
  readonly notebook: string;
  /** Number among the code cells, from 1; undefined when no single cell failed. */
  readonly cell: number | undefined;
  readonly kind: "file" | "kernel" | "error" | "timeout" | "skipped" | "stderr" | "late";
  /** A sentence without notebook and cell. */
  readonly message: string;
}

export interface CellResult {
  readonly outputs: readonly Output[];
  readonly executionCount: number | null;
  readonly seconds: number;
}

export interface NotebookRun {
  readonly path: string;
  /** Undefined when the file could not be read. */
  readonly notebook: Notebook | undefined;
  /** One for each code cell, in order; a cell that did not run has no outputs and took 0 s. */
  readonly cells: readonly CellResult[];
  /** Empty when every cell ran, said "ok" and printed nothing to stderr. */
  readonly failures: readonly Failure[];
  readonly seconds: number;
}

export interface RunOptions {
  /** The longest that a cell may run; 60 s unless given. */
  readonly timeoutSeconds?: number;
  /** The longest wait, after the last cell, for work that no cell awaited; 10 s unless given. */
  readonly leftoverSeconds?: number;
  /** Called after each code cell. */
  readonly onCell?: (done: number, total: number) => void;
  /** Aborted to give up: the kernel is ended and the run rejects with the signal's reason. */
  readonly signal?: AbortSignal;
}

/**
 * Runs a notebook in a fresh kernel, in the notebook's folder.
 *
 * Returns its outputs, times and failures. A notebook fails when a cell ends with any status but "ok", is
 * skipped, runs too long or prints to stderr, and when work that no cell awaited fails or does not end. It
 * stops at the first cell that does not end with "ok". The kernel has ended when this returns.
 */
export async function runNotebook(path: string, options: RunOptions = {}): Promise<NotebookRun> {
  const started = performance.now();
  const seconds = (): number => (performance.now() - started) / 1000;
  let notebook: Notebook;
  let kernel: Kernel;
  try {
    notebook = readNotebook(path);
  } catch (error) {
    const failures = [failure(path, undefined, "file", messageOf(error))];
    return { path, notebook: undefined, cells: [], failures, seconds: seconds() };
  }
  options.signal?.throwIfAborted();
  try {
    kernel = await Kernel.start(dirname(path));
  } catch (error) {
    const failures = [failure(path, undefined, "kernel", messageOf(error))];
    return { path, notebook, cells: [], failures, seconds: seconds() };
  }
  const giveUp = (): void => void kernel.shutdown();
  options.signal?.addEventListener("abort", giveUp);
  try {
    options.signal?.throwIfAborted();
    const { cells, failures } = await runCells(path, notebook, kernel, options);
    options.signal?.throwIfAborted();
    return { path, notebook, cells, failures, seconds: seconds() };
  } finally {
    options.signal?.removeEventListener("abort", giveUp);
    await kernel.shutdown();
  }
}

async function runCells(
  path: string,
  notebook: Notebook,
  kernel: Kernel,
  options: RunOptions,
): Promise<Pick<NotebookRun, "cells" | "failures">> {
  const timeoutSeconds = options.timeoutSeconds ?? 60;
  const sources = codeCells(notebook).map(sourceText);
  const runs: CellRun[] = [];
  for (const source of sources) {
    // An empty cell is not sent, as in Jupyter.
    runs.push(source.trim() === "" ? emptyCell : await kernel.execute(source, timeoutSeconds));
    options.onCell?.(runs.length, sources.length);
    if (runs.at(-1)?.status !== "ok") break;
  }
  const stopped = runs.length > 0 && runs.at(-1)?.status !== "ok";
  const leftoverSeconds = options.leftoverSeconds ?? 10;
  const leftovers = stopped ? undefined : await awaitLeftovers(kernel, leftoverSeconds);

  // Looked at only now: outputs go on growing while later cells run.
  const failures = runs.flatMap((run, index) => cellFailures(path, index + 1, run, timeoutSeconds));
  if (stopped && runs.length < sources.length) {
    const first = runs.length + 1;
    const others = first === sources.length ? "" : `, and those after it to cell ${sources.length},`;
    failures.push(
      failure(path, first, "skipped", `this cell${others} did not run, because cell ${runs.length} failed.`),
    );
  }
  if (leftovers !== undefined) failures.push(...leftoverFailures(path, leftovers, leftoverSeconds));
  return { cells: sources.map((_, index) => cellResult(runs[index])), failures };
}

function leftoverFailures(path: string, leftovers: Leftovers, leftoverSeconds: number): Failure[] {
  const failures: Failure[] = [];
  const printed = stderrText(leftovers.outputs);
  if (printed !== "") {
    const message = `after the last cell, work failed that no cell had awaited: ${shortError(printed)}`;
    failures.push(failure(path, undefined, "late", message));
  }
  if (leftovers.unfinished.length > 0) {
    const kinds = leftovers.unfinished.join(", ");
    const message = `${leftoverSeconds} s after the last cell, work that a cell had started was still going on (${kinds}); await it in its cell.`;
    failures.push(failure(path, undefined, "late", message));
  }
  if (leftovers.ending !== undefined) {
    failures.push(
      failure(path, undefined, "kernel", `after the last cell, the kernel ended. ${leftovers.ending}`),
    );
  }
  return failures;
}

const emptyCell: CellRun = {
  status: "ok",
  ending: undefined,
  executionCount: null,
  outputs: [],
  seconds: 0,
  interrupted: undefined,
};

function cellResult(run: CellRun | undefined): CellResult {
  const { outputs, executionCount, seconds } = run ?? emptyCell;
  return { outputs, executionCount, seconds };
}

function cellFailures(path: string, cell: number, run: CellRun, timeoutSeconds: number): Failure[] {
  const printed = stderrText(run.outputs);
  const said = printed === "" ? "" : `: ${shortError(printed)}`;
  const fail = (kind: Failure["kind"], message: string): Failure[] => [failure(path, cell, kind, message)];
  if (run.interrupted === "output") return fail("timeout", "printed without end and was interrupted.");
  if (run.interrupted === "time") {
    const how =
      run.status === "ended" ? "did not stop when interrupted, so its kernel was ended" : "was interrupted";
    return fail("timeout", `ran longer than ${timeoutSeconds} s and ${how}.`);
  }
  if (run.status === "ended") return fail("kernel", `ended its kernel. ${run.ending ?? ""}${said}`);
  if (run.status === "abort") return fail("skipped", "was skipped by the kernel (status abort).");
  if (run.status === "error" && printed !== "") return fail("error", shortError(printed));
  if (run.status !== "ok") return fail("error", `failed (status ${run.status})${said}`);
  if (printed === "") return [];
  if (isLateError(printed)) {
    return fail("late", `while it ran, or just after, work failed that no cell had awaited${said}`);
  }
  return fail("stderr", `printed to stderr${said}`);
}

function failure(
  notebook: string,
  cell: number | undefined,
  kind: Failure["kind"],
  message: string,
): Failure {
  return { notebook, cell, kind, message };
}
