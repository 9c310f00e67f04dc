/** Tiny notebooks in a folder of their own, inside the repository so that a cell finds what it imports. */
import { existsSync, mkdirSync, mkdtempSync, readFileSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { setTimeout as sleep } from "node:timers/promises";
import { repositoryRoot } from "../../kernel-helpers/src/workshop/notebookNames";

export function temporaryFolder(): string {
  mkdirSync(join(repositoryRoot, "build"), { recursive: true });
  return mkdtempSync(join(repositoryRoot, "build", "workshop-test-"));
}

/** Returns the text of a notebook with these code cells. */
export function notebookText(sources: readonly string[]): string {
  const cells = sources.map((source, index) => ({
    cell_type: "code",
    id: `cell-${index + 1}`,
    metadata: {},
    source,
    execution_count: null,
    outputs: [],
  }));
  return JSON.stringify({ nbformat: 4, nbformat_minor: 5, metadata: {}, cells });
}

/** Writes a notebook with these code cells; returns its path. */
export function notebookFile(folder: string, name: string, sources: readonly string[]): string {
  const path = join(folder, `${name}.ipynb`);
  writeFileSync(path, notebookText(sources));
  return path;
}

/** Returns whether a process runs; one that has ended but was not yet collected by its parent does not. */
export function isRunning(processId: number): boolean {
  try {
    process.kill(processId, 0);
  } catch {
    return false;
  }
  const status = `/proc/${processId}/stat`;
  return !existsSync(status) || !/\) Z /.test(readFileSync(status, "utf8"));
}

/** Waits until something is true; fails with `what` after 20 s. */
export async function until(what: string, isTrue: () => boolean): Promise<void> {
  const deadline = Date.now() + 20_000;
  while (!isTrue()) {
    if (Date.now() > deadline) throw new Error(`Waited 20 s in vain until ${what}.`);
    await sleep(20);
  }
}
