import { execFile, spawnSync } from "node:child_process";
import { mkdtempSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { basename, dirname, join } from "node:path";
import { promisify } from "node:util";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { differences } from "../../kernel-helpers/src/workshop/compare";
import {
  jupyterPathVariable,
  kernelName,
  writeKernelSpecification,
} from "../../kernel-helpers/src/workshop/jupyter";
import { codeCells, readNotebook } from "../../kernel-helpers/src/workshop/notebookFile";
import { courseNotebooks, notebookName } from "../../kernel-helpers/src/workshop/notebookNames";
import { requireOnCI } from "../browser/requireOnCI";

// Debian's Python, for which Debian packages Jupyter.
const python = "/usr/bin/python3";
const hasJupyter = requireOnCI(
  `nbclient (for ${python})`,
  spawnSync(python, ["-c", "import nbclient"], { stdio: "ignore" }).status === 0,
);

/** Runs a notebook as Jupyter does and writes it with its outputs. */
const runner = `
import sys, nbformat
from nbclient import NotebookClient
source, folder, result, kernel = sys.argv[1:]
notebook = nbformat.read(source, as_version=4)
NotebookClient(notebook, timeout=120, kernel_name=kernel, resources={"metadata": {"path": folder}}).execute()
nbformat.write(notebook, result)
`;

// The solutions run through the project's own runner; what Jupyter adds is the same for them.
const notebooks = courseNotebooks()
  .map((path) => [notebookName(path), path] as const)
  .filter(([name]) => /^\d+-[^/]*$/.test(name));

let folder: string;
let jupyterPath: string;
beforeAll(() => {
  folder = mkdtempSync(join(tmpdir(), "nbclient-test-"));
  jupyterPath = jupyterPathVariable(writeKernelSpecification());
});
afterAll(() => rmSync(folder, { recursive: true }));

describe.skipIf(!hasJupyter)(
  "the course in Jupyter's own client, with the project's kernel specification",
  () => {
    test.each(notebooks)(
      "%s runs without a complaint and gives its stored outputs",
      async (_name, path) => {
        const result = join(folder, basename(path));
        const words = ["-c", runner, path, dirname(path), result, kernelName];
        await promisify(execFile)(python, words, { env: { ...process.env, JUPYTER_PATH: jupyterPath } });
        const [stored, fresh] = [codeCells(readNotebook(path)), codeCells(readNotebook(result))];
        const differing = stored.flatMap((cell, at) =>
          differences(cell.outputs, fresh[at]?.outputs ?? []).map((what) => `cell ${at + 1}: ${what}`),
        );
        expect(differing).toEqual([]);
        const complaints = fresh.flatMap(({ outputs }) =>
          outputs.filter(
            (output) =>
              output.output_type === "error" || (output.output_type === "stream" && output.name === "stderr"),
          ),
        );
        expect(complaints).toEqual([]);
      },
      180_000,
    );
  },
);
