/** Keeping the runs of notebooks that nothing has changed for, so that a second start is quick. */
import { createHash } from "node:crypto";
import { mkdirSync, readdirSync, readFileSync, renameSync, rmSync, statSync, writeFileSync } from "node:fs";
import { basename, join, relative, sep } from "node:path";
import { inOrder } from "./order";
import { codeCells, type Notebook, sourceText } from "./notebookFile";
import type { CellResult, NotebookRun } from "./run";

/**
 * Returns a digest of everything that a notebook's results depend on beside its own code: the files and folders of
 * `paths`, without those that `besides` names, and the Node that runs them.
 */
export function surroundings(paths: readonly string[], besides: readonly string[] = []): string {
  const hash = createHash("sha256").update(`node ${process.version} ${process.arch}\n`);
  for (const path of paths) {
    for (const file of filesIn(path)) {
      if (besides.some((folder) => file.startsWith(folder + sep))) continue;
      hash.update(`${relative(path, file)}\n`);
      hash.update(createHash("sha256").update(readFileSync(file)).digest());
    }
  }
  return hash.digest("hex");
}

function filesIn(path: string): string[] {
  if (!statSync(path).isDirectory()) return [path];
  const entries = readdirSync(path, { withFileTypes: true, recursive: true });
  const files = entries.filter((entry) => entry.isFile()).map((entry) => join(entry.parentPath, entry.name));
  // What the compiler writes for itself and for debuggers changes no result.
  return inOrder(files.filter((file) => !/\.(?:map|tsbuildinfo)$/.test(file)));
}

/** The runs kept from earlier starts, in one folder, a file a notebook. */
export class RunCache {
  constructor(
    private readonly folder: string,
    private readonly around: string,
  ) {}

  /** Returns the notebook's kept results, or undefined where it, or anything around it, has changed since. */
  get(path: string, notebook: Notebook): readonly CellResult[] | undefined {
    let kept: unknown;
    try {
      kept = JSON.parse(readFileSync(this.fileOf(path), "utf8"));
    } catch {
      // Not there, or cut short: the notebook runs again, and the file is written anew.
      return undefined;
    }
    if (typeof kept !== "object" || kept === null || Reflect.get(kept, "key") !== this.keyOf(notebook)) {
      return undefined;
    }
    // Written by `put` under this very key.
    return (kept as { readonly cells: readonly CellResult[] }).cells;
  }

  /** Keeps a run without failures; one with failures is forgotten, and runs again the next time. */
  put({ path, notebook, cells, failures }: NotebookRun): void {
    if (notebook === undefined || failures.length > 0) {
      rmSync(this.fileOf(path), { force: true });
      return;
    }
    mkdirSync(this.folder, { recursive: true });
    const unfinished = `${this.fileOf(path)}.${process.pid}.unfinished`;
    writeFileSync(unfinished, JSON.stringify({ key: this.keyOf(notebook), cells }));
    renameSync(unfinished, this.fileOf(path));
  }

  private fileOf(path: string): string {
    return join(this.folder, `${basename(path, ".ipynb")}.json`);
  }

  /** The code alone: an edit of the text changes the page, and no result. */
  private keyOf(notebook: Notebook): string {
    return createHash("sha256")
      .update(JSON.stringify([this.around, ...codeCells(notebook).map(sourceText)]))
      .digest("hex");
  }
}

/** Returns a copy of a notebook that holds the results of a run in place of the stored ones. */
export function withResults(notebook: Notebook, cells: readonly CellResult[]): Notebook {
  const fresh = structuredClone(notebook);
  for (const [at, cell] of codeCells(fresh).entries()) {
    const result = cells[at];
    cell.outputs = [...(result?.outputs ?? [])];
    cell.execution_count = result?.executionCount ?? null;
  }
  return fresh;
}
