/** The command `npm run note -- NAME [--timeout seconds]`: a note as one page that prints. */
import { existsSync, mkdirSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { basename, dirname, join, relative } from "node:path";
import { parseArgs } from "node:util";
import { runCommand, UsageError } from "./command";
import { messageOf } from "./failureText";
import { codeCells, readNotebook } from "./notebookFile";
import { findNotebooks, notebookName, repositoryRoot } from "./notebookNames";
import { notePage } from "./note/notePage";
import { progress } from "./progress";
import { projectFolder } from "./project/makeProject";
import { failureSentence } from "./report";
import { runNotebook } from "./run";
import { withResults } from "./runCache";

const usage = `Usage: npm run note -- NAME [--timeout seconds]

  Runs the design note of the project NAME and writes notebooks/projects/NAME/design-note.html: one file that
  loads nothing and prints on A4. NAME may also be a notebook: its number, projects/NAME/trial, or the path of an
  .ipynb file. A notebook of the course is written to build/notes/. --timeout is the longest that a cell may run (60 s).`;

interface Order {
  readonly path: string;
  /** What stands at the foot of every page. */
  readonly name: string;
  readonly target: string;
  /** Whether the code comes at the end; a notebook of the course leaves it to the course. */
  readonly withCode: boolean;
  readonly timeoutSeconds: number;
}

/** Returns what the command line asks for. Throws a `UsageError` in a sentence when it cannot be understood. */
export function readOrder(words: readonly string[], root = repositoryRoot): Order {
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
  const { positionals, values } = parsed;
  const [asked] = positionals;
  if (asked === undefined) throw new UsageError("No project is named.");
  if (positionals.length > 1)
    throw new UsageError(`${positionals.length} projects are named; a note has one.`);
  const timeoutSeconds = Number(values.timeout);
  if (!(timeoutSeconds > 0 && timeoutSeconds <= 86_400)) {
    throw new UsageError(`--timeout is "${values.timeout}"; it must be above 0 and at most 86400 seconds.`);
  }
  const path = pathOf(asked, root);
  const full = notebookName(path, root);
  const ofProject = full.startsWith("projects/");
  const file = `${basename(path, ".ipynb")}.html`;
  return {
    path,
    name: ofProject ? basename(dirname(path)) : "Bar Rack Notebooks",
    target: ofProject ? join(dirname(path), file) : join(root, "build", "notes", file),
    withCode: ofProject,
    timeoutSeconds,
  };
}

function pathOf(asked: string, root: string): string {
  const note = join(
    projectFolder(asked.replace(/^projects\//, "").replace(/\/$/, ""), root),
    "design-note.ipynb",
  );
  if (!asked.endsWith(".ipynb") && existsSync(note)) return note;
  let found: readonly string[];
  try {
    found = findNotebooks([asked], root, process.env["INIT_CWD"]);
  } catch (cause) {
    if (!(cause instanceof RangeError)) throw cause;
    throw new UsageError(cause.message, { cause });
  }
  const [path] = found;
  if (found.length === 1 && path !== undefined) return path;
  const names = found.map((one) => notebookName(one, root)).join(", ");
  throw new UsageError(
    `"${asked}" has no design-note.ipynb and means ${found.length} notebooks: ${names}; name one.`,
  );
}

/** Runs the notebook and writes its page. Returns the exit code: 1 where a cell failed; then nothing is written. */
export async function writeNote(order: Order, signal: AbortSignal): Promise<number> {
  const { path, name, target, withCode, timeoutSeconds } = order;
  const bar = progress(codeCells(readNotebook(path)).length);
  const run = await runNotebook(path, {
    timeoutSeconds,
    signal,
    onCell: () => bar.step(notebookName(path)),
  }).finally(() => bar.stop());
  if (run.notebook === undefined || run.failures.length > 0) {
    for (const failure of run.failures) console.error(`Failed: ${failureSentence(failure)}`);
    console.error("No note is written.");
    return 1;
  }
  writeWhole(target, notePage(name, withResults(run.notebook, run.cells), { withCode }));
  console.log(
    `The note is ${relative(process.cwd(), target)}; open it in a browser and print it, or save it as PDF.`,
  );
  return 0;
}

/** Replaces the file in one step, so that an interruption leaves the old one whole. */
function writeWhole(target: string, text: string): void {
  mkdirSync(dirname(target), { recursive: true });
  const unfinished = `${target}.${process.pid}.unfinished`;
  try {
    writeFileSync(unfinished, text);
    renameSync(unfinished, target);
  } catch (error) {
    rmSync(unfinished, { force: true });
    throw error;
  }
}

if (require.main === module) {
  void runCommand(usage, (words, signal) => writeNote(readOrder(words), signal)).then((code) => {
    process.exitCode = code;
  });
}
