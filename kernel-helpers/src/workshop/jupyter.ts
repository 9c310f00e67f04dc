/** The command `npm run jupyter [-- --print-env] [-- --no-browser …]`: the notebooks in Jupyter, nothing installed globally. */
import { spawn, spawnSync } from "node:child_process";
import { mkdirSync, writeFileSync } from "node:fs";
import { constants } from "node:os";
import { delimiter, join } from "node:path";
import { messageOf } from "./failureText";
import { loopback } from "./loopback";
import { repositoryRoot } from "./notebookNames";

/** The name by which the notebooks ask for their kernel. */
export const kernelName = "tslab";

/** A Jupyter that this machine has: the command that starts it, and which of the two it is. */
export interface FoundJupyter {
  readonly command: readonly [string, ...string[]];
  readonly kind: "lab" | "notebook";
}

const known: readonly FoundJupyter[] = [
  { command: ["jupyter-lab"], kind: "lab" },
  { command: ["jupyter-notebook"], kind: "notebook" },
  { command: ["python3", "-m", "jupyterlab"], kind: "lab" },
  { command: ["python3", "-m", "notebook"], kind: "notebook" },
  { command: ["python", "-m", "jupyterlab"], kind: "lab" },
  { command: ["python", "-m", "notebook"], kind: "notebook" },
];

/** Returns the first Jupyter that answers when asked for its version, or undefined where there is none. */
export function findJupyter(environment: NodeJS.ProcessEnv = process.env): FoundJupyter | undefined {
  return known.find(({ command: [program, ...words] }) => {
    const asked = spawnSync(program, [...words, "--version"], {
      env: environment,
      stdio: "ignore",
      timeout: 20_000,
    });
    return asked.status === 0;
  });
}

export const howToGetJupyter =
  'No Jupyter was found; install it with "pip install jupyterlab" (or your system\'s package jupyter-notebook) and run ' +
  '"npm run jupyter" again. The pages of "npm start" need none.';

/**
 * Writes the kernel specification into the project, under `build/`.
 *
 * Returns the folder that JUPYTER_PATH must name for a front-end to find it.
 */
export function writeKernelSpecification(root = repositoryRoot): string {
  const jupyterPath = join(root, "build", "jupyter");
  const folder = join(jupyterPath, "kernels", kernelName);
  const program = join(root, "kernel-helpers", "dist", "workshop", "kernelProgram.js");
  const specification = {
    // The very Node that runs now: a front-end may be started where another one comes first.
    argv: [process.execPath, program, "kernel", "--config-path={connection_file}"],
    display_name: "TypeScript",
    language: "typescript",
  };
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, "kernel.json"), `${JSON.stringify(specification, undefined, 2)}\n`);
  return jupyterPath;
}

/** Returns the value of JUPYTER_PATH: our folder first, then what the person already has there. */
export function jupyterPathVariable(ours: string, theirs = process.env["JUPYTER_PATH"]): string {
  return theirs === undefined || theirs === "" ? ours : `${ours}${delimiter}${theirs}`;
}

/** Returns the line that a shell takes to let VS Code, or any other front-end started from it, find the kernel. */
export function environmentLine(value: string, platform: NodeJS.Platform = process.platform): string {
  return platform === "win32"
    ? `$env:JUPYTER_PATH = '${value.replaceAll("'", "''")}'`
    : `export JUPYTER_PATH='${value.replaceAll("'", `'\\''`)}'`;
}

/** Returns the whole command line. `more` goes to Jupyter as it is, as in `--no-browser`. */
export function jupyterCommand(found: FoundJupyter, root: string, more: readonly string[]): string[] {
  return [
    ...found.command,
    `--ip=${loopback}`,
    // The project's root, so that a figure's script may ask the same server for plotly.js.
    found.kind === "lab" ? `--ServerApp.root_dir=${root}` : `--notebook-dir=${root}`,
    found.kind === "lab"
      ? "--LabApp.default_url=/lab/tree/notebooks"
      : "--NotebookApp.default_url=/tree/notebooks",
    ...more,
  ];
}

async function main(words: readonly string[]): Promise<number> {
  const value = jupyterPathVariable(writeKernelSpecification());
  if (words.includes("--print-env")) {
    console.log(environmentLine(value));
    return 0;
  }
  const found = findJupyter();
  if (found === undefined) {
    console.error(howToGetJupyter);
    return 1;
  }
  const [program = "", ...rest] = jupyterCommand(found, repositoryRoot, words);
  const child = spawn(program, rest, {
    cwd: repositoryRoot,
    stdio: "inherit",
    env: { ...process.env, JUPYTER_PATH: value },
  });
  // Ctrl-C in a terminal reaches Jupyter too, which asks or stops; we wait for it. Other signals are passed on.
  process.on("SIGINT", () => {});
  for (const signal of ["SIGTERM", "SIGHUP"] as const) process.on(signal, () => child.kill(signal));
  return new Promise((resolve, reject) => {
    child.once("error", reject);
    child.once("exit", (code, signal) =>
      resolve(code ?? (signal === null ? 1 : 128 + constants.signals[signal])),
    );
  });
}

if (require.main === module) {
  main(process.argv.slice(2)).then(
    (code) => {
      process.exitCode = code;
    },
    (error: unknown) => {
      console.error(messageOf(error));
      process.exitCode = 1;
    },
  );
}
