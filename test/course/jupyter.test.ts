import { execFile, spawnSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import { promisify } from "node:util";
import { describe, expect, test } from "vitest";
import { writeKernelSpecification } from "../../kernel-helpers/src/workshop/jupyter";
import { courseNotebooks, notebookName } from "../../kernel-helpers/src/workshop/notebookNames";
import { requireOnCI } from "../browser/requireOnCI";

const run = promisify(execFile);
const hasJupyter = requireOnCI(
  "Jupyter with nbconvert and nbclient",
  spawnSync("jupyter", ["nbconvert", "--version"], { stdio: "ignore" }).status === 0,
);

interface Output {
  readonly output_type: string;
  readonly name?: string;
  readonly text?: string | readonly string[];
  readonly data?: Readonly<Record<string, unknown>>;
}

/** Runs a notebook through Jupyter's own client, with the project's kernel specification; gives all outputs. */
async function runInJupyter(path: string, folder: string): Promise<readonly Output[]> {
  const name = basename(path);
  await run(
    "jupyter",
    ["nbconvert", "--to", "notebook", "--execute", "--output-dir", folder, "--output", name, path],
    {
      cwd: dirname(path),
      env: { ...process.env, JUPYTER_PATH: writeKernelSpecification() },
      maxBuffer: 1e8,
    },
  );
  const notebook = JSON.parse(readFileSync(join(folder, name), "utf8")) as {
    readonly cells: readonly { readonly outputs?: readonly Output[] }[];
  }; // written by Jupyter just now
  return notebook.cells.flatMap((cell) => cell.outputs ?? []);
}

describe.runIf(hasJupyter)("through Jupyter's own client", () => {
  test.each(courseNotebooks().map((path) => [notebookName(path), path]))(
    "%s runs without a word of error and shows as many figures as stored",
    { timeout: 180_000 },
    async (_name, path) => {
      const folder = mkdtempSync(join(tmpdir(), "bar-rack-jupyter-"));
      try {
        const outputs = await runInJupyter(path, folder);
        expect(
          outputs.filter((output) => output.output_type === "error" || output.name === "stderr"),
        ).toEqual([]);
        const figures = (all: readonly Output[]) =>
          all.filter((output) => output.data?.["application/vnd.plotly.v1+json"] !== undefined).length;
        const stored = JSON.parse(readFileSync(path, "utf8")) as {
          readonly cells: readonly { readonly outputs?: readonly Output[] }[];
        }; // our own file, checked elsewhere
        expect(figures(outputs)).toBe(figures(stored.cells.flatMap((cell) => cell.outputs ?? [])));
        expect(outputs.length).toBeGreaterThan(0);
      } finally {
        rmSync(folder, { recursive: true });
      }
    },
  );
});
