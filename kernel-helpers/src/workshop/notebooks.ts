/** The command `npm run notebooks -- run|check|refresh [names] [--timeout seconds]`. */
import { parseArgs } from "node:util";
import { runCommand, UsageError } from "./command";
import { messageOf } from "./failureText";
import { checkStored, refreshStored } from "./golden";
import { codeCells, readNotebook } from "./notebookFile";
import { findNotebooks, notebookName } from "./notebookNames";
import { progress } from "./progress";
import { refreshReadmePicture } from "./readmePicture";
import { checkLines, refreshLines, runLines } from "./report";
import type { NotebookRun } from "./run";
import { runNotebooks } from "./runMany";

const usage = `Usage: npm run notebooks -- COMMAND [names] [--timeout seconds]

  run      runs the notebooks
  check    runs them and compares their outputs with the stored ones
  refresh  runs them and stores their outputs; prints old → new for each number that changes

A name is a number (00), a name (00-start-here, solutions/00-start-here, projects/NAME) or the path of an
.ipynb file. Without names, the whole course. --timeout is the longest that a cell may run (60 s).`;

const commands = ["run", "check", "refresh"] as const;
type Command = (typeof commands)[number];

interface Order {
  readonly command: Command;
  readonly paths: readonly string[];
  readonly timeoutSeconds: number;
}

/** Returns what the command line asks for. Throws a `UsageError` in a sentence when it cannot be understood. */
function readOrder(words: readonly string[]): Order {
  let parsed;
  try {
    parsed = parseArgs({
      args: [...words],
      allowPositionals: true,
      options: { timeout: { type: "string", default: "60" } },
    });
  } catch (cause) {
    throw new UsageError(messageOf(cause), { cause });
  }
  const [word = "", ...names] = parsed.positionals;
  const command = commands.find((known) => known === word);
  if (command === undefined) {
    const what = word === "" ? "No command is given" : `There is no command "${word}"`;
    throw new UsageError(`${what}; allowed are ${commands.join(", ")}.`);
  }
  const timeoutSeconds = Number(parsed.values.timeout);
  // A timer of Node cannot run longer than 2^31 ms.
  if (!(timeoutSeconds > 0 && timeoutSeconds <= 86_400)) {
    throw new UsageError(
      `--timeout is "${parsed.values.timeout}"; it must be above 0 and at most 86400 seconds.`,
    );
  }
  return { command, paths: pathsOf(names), timeoutSeconds };
}

function pathsOf(names: readonly string[]): string[] {
  try {
    // npm runs its scripts at the root of the repository and says where the person stood.
    return findNotebooks(names, undefined, process.env["INIT_CWD"]);
  } catch (cause) {
    if (!(cause instanceof RangeError)) throw cause;
    throw new UsageError(cause.message, { cause });
  }
}

/** Returns whether the notebook passed, and prints what there is to say about it. */
function settle(command: Command, run: NotebookRun, print: (line: string) => void): boolean {
  runLines(run).forEach(print);
  if (run.failures.length > 0) {
    if (command === "refresh") print("  the stored outputs are kept, because the run failed.");
    return false;
  }
  if (command === "check") {
    const differences = checkStored(run);
    checkLines(differences).forEach(print);
    return differences.length === 0;
  }
  if (command === "refresh") {
    refreshLines(refreshStored(run)).forEach(print);
    if (refreshReadmePicture(run.path)) print("  README's picture follows.");
  }
  return true;
}

async function carryOut(order: Order, signal: AbortSignal): Promise<number> {
  const bar = progress(order.paths.reduce((sum, path) => sum + cellCount(path), 0));
  const failed: string[] = [];
  try {
    await runNotebooks(order.paths, {
      timeoutSeconds: order.timeoutSeconds,
      signal,
      onCell: (path) => bar.step(notebookName(path)),
      onNotebook: (run) => {
        if (!settle(order.command, run, bar.line)) failed.push(notebookName(run.path));
      },
    });
  } finally {
    bar.stop();
  }
  if (failed.length === 0) {
    console.log(
      order.paths.length === 1 ? "The notebook passed." : `All ${order.paths.length} notebooks passed.`,
    );
    return 0;
  }
  console.log(`${failed.length} of ${order.paths.length} notebooks failed: ${failed.join(", ")}.`);
  return 1;
}

function cellCount(path: string): number {
  try {
    return codeCells(readNotebook(path)).length;
  } catch {
    // The run itself reports a file that cannot be read; the bar only does not count it.
    return 0;
  }
}

if (require.main === module) {
  void runCommand(usage, (words, signal) => carryOut(readOrder(words), signal)).then((code) => {
    process.exitCode = code;
  });
}
