import { spawnSync } from "node:child_process";
import {
  chmodSync,
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { delimiter, join } from "node:path";
import { afterEach, beforeEach, describe, expect, test } from "vitest";
import {
  environmentLine,
  findJupyter,
  howToGetJupyter,
  jupyterCommand,
  jupyterPathVariable,
  kernelName,
  writeKernelSpecification,
} from "../../kernel-helpers/src/workshop/jupyter";
import { courseNotebooks, repositoryRoot } from "../../kernel-helpers/src/workshop/notebookNames";
import { readNotebook } from "../../kernel-helpers/src/workshop/notebookFile";

const command = join(repositoryRoot, "kernel-helpers", "dist", "workshop", "jupyter.js");

let folder: string;
beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "jupyter-test-"));
});
afterEach(() => rmSync(folder, { recursive: true }));

/** Puts a program of this name, which does this, into the folder. */
function program(name: string, script: string): void {
  writeFileSync(join(folder, name), `#!/bin/sh\n${script}\n`);
  chmodSync(join(folder, name), 0o755);
}

describe("the kernel specification", () => {
  test("stands in the project and starts the project's kernel with the Node that runs now", () => {
    const jupyterPath = writeKernelSpecification(folder);
    expect(jupyterPath).toBe(join(folder, "build", "jupyter"));
    const written: unknown = JSON.parse(
      readFileSync(join(jupyterPath, "kernels", kernelName, "kernel.json"), "utf8"),
    );
    expect(written).toEqual({
      argv: [
        process.execPath,
        join(folder, "kernel-helpers", "dist", "workshop", "kernelProgram.js"),
        "kernel",
        "--config-path={connection_file}",
      ],
      display_name: "TypeScript",
      language: "typescript",
    });
  });

  test("has the name that every notebook of the course asks for", () => {
    const asked = courseNotebooks().map((path) => readNotebook(path).metadata["kernelspec"]);
    expect(asked.length).toBeGreaterThan(0);
    for (const kernelspec of asked)
      expect(kernelspec).toMatchObject({ name: kernelName, language: "typescript" });
  });
});

describe("JUPYTER_PATH", () => {
  test("names our folder first and keeps what the person has there", () => {
    expect(jupyterPathVariable("/ours", undefined)).toBe("/ours");
    expect(jupyterPathVariable("/ours", "")).toBe("/ours");
    expect(jupyterPathVariable("/ours", "/theirs")).toBe(`/ours${delimiter}/theirs`);
  });

  test("is printed as a line that a shell reads back whatever the folder is called", () => {
    const value = "/home/a person's/rack & $HOME";
    const { stdout } = spawnSync(
      "sh",
      ["-c", `${environmentLine(value, "linux")}; printf %s "$JUPYTER_PATH"`],
      {
        encoding: "utf8",
      },
    );
    expect(stdout).toBe(value);
    expect(environmentLine("C:\\it's", "win32")).toBe("$env:JUPYTER_PATH = 'C:\\it''s'");
  });

  test("is what --print-env prints, and nothing else starts", () => {
    const { status, stdout } = spawnSync(process.execPath, [command, "--print-env"], {
      encoding: "utf8",
      env: { PATH: "" },
    });
    expect(status).toBe(0);
    expect(stdout).toBe(`export JUPYTER_PATH='${join(repositoryRoot, "build", "jupyter")}'\n`);
    expect(existsSync(join(repositoryRoot, "build", "jupyter", "kernels", kernelName, "kernel.json"))).toBe(
      true,
    );
  });
});

describe("finding Jupyter", () => {
  test("prefers Lab to Notebook, and takes only one that answers", () => {
    program("jupyter-notebook", "exit 0");
    expect(findJupyter({ PATH: folder })).toEqual({ command: ["jupyter-notebook"], kind: "notebook" });
    program("jupyter-lab", "exit 1");
    expect(findJupyter({ PATH: folder })?.kind).toBe("notebook");
    program("jupyter-lab", "exit 0");
    expect(findJupyter({ PATH: folder })).toEqual({ command: ["jupyter-lab"], kind: "lab" });
  });

  test("asks Python where there is no program of its own", () => {
    program("python3", '[ "$2" = notebook ]');
    expect(findJupyter({ PATH: folder })).toEqual({
      command: ["python3", "-m", "notebook"],
      kind: "notebook",
    });
  });

  test("where there is none, says in one sentence how to get it", () => {
    expect(findJupyter({ PATH: folder })).toBeUndefined();
    const { status, stderr } = spawnSync(process.execPath, [command], {
      encoding: "utf8",
      env: { PATH: folder },
    });
    expect(status).toBe(1);
    expect(stderr).toBe(`${howToGetJupyter}\n`);
  });
});

describe("starting Jupyter", () => {
  test("roots it at the project, opens the notebooks, and listens on this machine alone", () => {
    const lab = jupyterCommand({ command: ["jupyter-lab"], kind: "lab" }, "/project", ["--no-browser"]);
    expect(lab).toEqual([
      "jupyter-lab",
      "--ip=127.0.0.1",
      "--ServerApp.root_dir=/project",
      "--LabApp.default_url=/lab/tree/notebooks",
      "--no-browser",
    ]);
    const notebook = jupyterCommand(
      { command: ["python3", "-m", "notebook"], kind: "notebook" },
      "/project",
      [],
    );
    expect(notebook).toEqual([
      "python3",
      "-m",
      "notebook",
      "--ip=127.0.0.1",
      "--notebook-dir=/project",
      "--NotebookApp.default_url=/tree/notebooks",
    ]);
  });

  test("hands on words, the variable and the exit code, and leaves nothing in the person's home", () => {
    const home = join(folder, "home");
    mkdirSync(home);
    program("jupyter-lab", '[ "$1" = --version ] || { echo "$JUPYTER_PATH $PWD $*"; exit 7; }');
    const { status, stdout } = spawnSync(process.execPath, [command, "--port=9999"], {
      encoding: "utf8",
      env: { PATH: folder, HOME: home },
    });
    expect(status).toBe(7);
    expect(stdout).toContain(`${join(repositoryRoot, "build", "jupyter")} ${repositoryRoot} --ip=127.0.0.1`);
    expect(stdout).toContain("--port=9999");
    expect(readdirSync(home)).toEqual([]);
  });
});
