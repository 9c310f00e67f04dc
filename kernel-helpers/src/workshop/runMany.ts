/** Running many notebooks, each in a kernel of its own, two at a time. */
import { availableParallelism } from "node:os";
import { runNotebook, type NotebookRun, type RunOptions } from "./run";

export interface RunManyOptions extends Omit<RunOptions, "onCell"> {
  /** Kernels at the same time; as many as there are processors, at most 2, unless given. */
  readonly kernels?: number;
  /** Called after each code cell of any notebook. */
  readonly onCell?: (path: string) => void;
  /** Called for each notebook, in the order of the paths, as soon as it and all before it have run. */
  readonly onNotebook?: (run: NotebookRun) => void;
}

/** Returns the runs of the notebooks, in the order of the paths, whichever finished first. */
export async function runNotebooks(
  paths: readonly string[],
  options: RunManyOptions = {},
): Promise<NotebookRun[]> {
  const kernels = options.kernels ?? Math.min(2, availableParallelism());
  const waiting = [...paths.entries()];
  const runs: (NotebookRun | undefined)[] = paths.map(() => undefined);
  let reported = 0;
  const worker = async (): Promise<void> => {
    for (let next = waiting.shift(); next !== undefined; next = waiting.shift()) {
      const [index, path] = next;
      runs[index] = await runNotebook(path, { ...options, onCell: () => options.onCell?.(path) });
      for (let run = runs[reported]; run !== undefined; run = runs[++reported]) options.onNotebook?.(run);
    }
  };
  // All settled: when one gives up, the others' kernels are gone too before this returns.
  const ends = await Promise.allSettled(Array.from({ length: Math.max(1, kernels) }, worker));
  for (const end of ends) if (end.status === "rejected") throw end.reason;
  return runs.filter((run): run is NotebookRun => run !== undefined);
}
