/** The command `npm start [-- --once] [-- --port N]`: the course, run where it changed, as pages on this machine. */
import { existsSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { parseArgs } from "node:util";
import { catalogue } from "../formula/catalogue";
import { runCommand, UsageError } from "./command";
import { messageOf } from "./failureText";
import { freshCourse } from "./freshCourse";
import { keyResultLines } from "./keyResults";
import { courseNotebooks, notebookName, repositoryRoot } from "./notebookNames";
import { writeCourse } from "./pages/course";
import { progress } from "./progress";
import { failureSentence } from "./report";
import { RunCache, surroundings } from "./runCache";
import { serveFolder } from "./serve";

const usualPort = 8640;

const usage = `Usage: npm start [-- [--once] [--port N]]

  --once    stops when the pages are written
  --port N  serves them at port N of 127.0.0.1 instead of ${usualPort}`;

export interface Order {
  readonly once: boolean;
  readonly port: number;
}

/** Returns what the command line asks for. Throws a `UsageError` in a sentence when it cannot be understood. */
export function readOrder(words: readonly string[]): Order {
  let parsed;
  try {
    parsed = parseArgs({
      args: [...words],
      options: { once: { type: "boolean", default: false }, port: { type: "string" } },
    });
  } catch (cause) {
    throw new UsageError(messageOf(cause), { cause });
  }
  const { once, port } = parsed.values;
  if (port !== undefined && !(/^\d+$/.test(port) && Number(port) <= 65_535)) {
    throw new UsageError(`--port is "${port}"; it must be a whole number from 0 (any free port) to 65535.`);
  }
  return { once, port: port === undefined ? usualPort : Number(port) };
}

/**
 * Brings the notebooks below `root` up to date, writes their pages to `root`/build/course and serves them until `signal`
 * is aborted.
 *
 * Returns the exit code: 1 where a notebook failed.
 */
export async function start(
  { once, port }: Order,
  signal: AbortSignal,
  root = repositoryRoot,
): Promise<number> {
  const dist = join(repositoryRoot, "kernel-helpers", "dist");
  const around = surroundings(
    [dist, join(repositoryRoot, "data-demo"), join(repositoryRoot, "package-lock.json")],
    [join(dist, "workshop", "pages")],
  );
  // Only what has a number is the course. The solutions have no page, which would give the answers away.
  const paths = courseNotebooks(root).filter((path) => /^\d+-[^/]*$/.test(notebookName(path, root)));
  const { notebooks, ran, kept } = await freshCourse(
    paths,
    new RunCache(join(root, "build", "cache"), around),
    {
      progress,
      signal,
    },
  );
  console.log(`${ran === 1 ? "1 notebook" : `${ran} notebooks`} run, ${kept} unchanged since the last run.`);

  const folder = join(root, "build", "course");
  const readme = join(root, "README.md");
  const pages = writeCourse(folder, {
    notebooks,
    formulas: catalogue.list(),
    readme: existsSync(readme) ? readFileSync(readme, "utf8") : undefined,
  });

  console.log("");
  for (const line of await keyResultLines()) console.log(line);
  console.log("");

  const failures = notebooks.flatMap((notebook) => notebook.failures);
  for (const failure of failures) console.error(`Failed: ${failureSentence(failure)}`);
  console.log(`${pages.length} pages are written; the first is ${join(folder, "index.html")}`);
  const code = failures.length === 0 ? 0 : 1;
  if (once) return code;

  signal.throwIfAborted();
  const serving = await serveFolder(folder, port);
  if (serving.moved) console.log(`Port ${port} is taken; a free one serves instead.`);
  console.log(`The course is at ${serving.address} (Ctrl-C stops).`);
  await new Promise<void>((resolve) => {
    signal.addEventListener("abort", () => resolve(), { once: true });
    if (signal.aborted) resolve();
  });
  await serving.close();
  console.log("Stopped.");
  return code;
}

if (require.main === module) {
  void runCommand(usage, (words, signal) => start(readOrder(words), signal)).then((code) => {
    process.exitCode = code;
  });
}
