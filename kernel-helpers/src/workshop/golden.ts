/** The stored outputs of a notebook are its golden results: checked against a run, or refreshed from one. */
import { differences } from "./compare";
import { codeCells, formatNotebook, readNotebook, writeNotebook } from "./notebookFile";
import { numberChanges, type OutputChanges } from "./numberChanges";
import type { NotebookRun } from "./run";

/** Returns a sentence for each difference between the run and the stored outputs, naming the cell. */
export function checkStored(run: NotebookRun): string[] {
  const stored = run.notebook === undefined ? [] : codeCells(run.notebook);
  return stored.flatMap((cell, index) =>
    differences(cell.outputs, run.cells[index]?.outputs ?? []).map((what) => `cell ${index + 1}: ${what}`),
  );
}

export interface Refresh {
  readonly written: boolean;
  /** What changed, cell by cell; cells without a change are left out. */
  readonly cells: readonly {
    readonly cell: number;
    readonly differences: readonly string[];
    readonly changes: OutputChanges;
  }[];
}

/**
 * Stores a run's outputs in its notebook. A cell whose outputs agree with the stored ones keeps them, so that
 * the file changes only where a result does.
 *
 * Returns what changed. Throws an `Error` in a sentence when the run failed, or when the file was edited
 * since the run began.
 */
export function refreshStored(run: NotebookRun): Refresh {
  if (run.notebook === undefined || run.failures.length > 0) {
    throw new Error(`${run.path} keeps its stored outputs, because its run failed.`);
  }
  const notebook = structuredClone(run.notebook);
  const before = formatNotebook(notebook);
  if (formatNotebook(readNotebook(run.path)) !== before) {
    throw new Error(
      `${run.path} was edited while it ran; it keeps its stored outputs. Run the refresh again.`,
    );
  }
  const cells = codeCells(notebook).flatMap((cell, index) => {
    const result = run.cells[index];
    if (result === undefined) return [];
    cell.execution_count = result.executionCount;
    const found = differences(cell.outputs, result.outputs);
    if (found.length === 0) return [];
    const changes = numberChanges(cell.outputs, result.outputs);
    cell.outputs = [...result.outputs];
    return [{ cell: index + 1, differences: found, changes }];
  });
  const written = formatNotebook(notebook) !== before;
  if (written) writeNotebook(run.path, notebook);
  return { written, cells };
}
