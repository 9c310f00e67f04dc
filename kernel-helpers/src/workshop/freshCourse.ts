/** The course with today's results: what has not changed is kept, the rest is run. */
import { basename } from "node:path";
import { codeCells, type Notebook, readNotebook } from "./notebookFile";
import type { CourseNotebook } from "./pages/course";
import type { Progress } from "./progress";
import { runLines } from "./report";
import type { NotebookRun } from "./run";
import { type RunCache, withResults } from "./runCache";
import { runNotebooks } from "./runMany";

export interface FreshCourse {
  /** In the order of the paths, with fresh results. */
  readonly notebooks: readonly CourseNotebook[];
  /** How many were run, and how many were kept as nothing had changed. */
  readonly ran: number;
  readonly kept: number;
}

/** What is told while the course is brought up to date. */
export interface Telling {
  /** Returns the display for a run of so many cells. */
  readonly progress: (cells: number) => Progress;
  readonly signal?: AbortSignal;
}

/**
 * Brings the notebooks of `paths` up to date.
 *
 * Returns them with their results and with what failed. Rejects when `signal` is aborted; every kernel has ended then.
 */
export async function freshCourse(
  paths: readonly string[],
  cache: RunCache,
  { progress, signal }: Telling,
): Promise<FreshCourse> {
  const course = new Map<string, CourseNotebook>();
  const changed: string[] = [];
  let cells = 0;
  for (const path of paths) {
    const notebook = readable(path);
    const results = notebook === undefined ? undefined : cache.get(path, notebook);
    if (notebook !== undefined && results !== undefined) {
      course.set(path, { name: nameOf(path), notebook: withResults(notebook, results), failures: [] });
    } else {
      changed.push(path);
      cells += notebook === undefined ? 0 : codeCells(notebook).length;
    }
  }
  const display = progress(cells);
  try {
    await runNotebooks(changed, {
      signal,
      onCell: (path) => display.step(nameOf(path)),
      onNotebook: (run) => {
        for (const line of runLines(run)) display.line(line);
        cache.put(run);
        course.set(run.path, asRun(run));
      },
    });
  } finally {
    display.stop();
  }
  return {
    notebooks: paths.flatMap((path) => course.get(path) ?? []),
    ran: changed.length,
    kept: paths.length - changed.length,
  };
}

const nameOf = (path: string): string => basename(path, ".ipynb");

/** A file that cannot be read is reported by its run, which fails for that reason. */
function readable(path: string): Notebook | undefined {
  try {
    return readNotebook(path);
  } catch {
    return undefined;
  }
}

const empty: Notebook = { nbformat: 4, nbformat_minor: 5, metadata: {}, cells: [] };

function asRun({ path, notebook, cells, failures }: NotebookRun): CourseNotebook {
  return {
    name: nameOf(path),
    notebook: notebook === undefined ? empty : withResults(notebook, cells),
    failures,
  };
}
