import { spawn, spawnSync, type ChildProcess } from "node:child_process";
import { once } from "node:events";
import { existsSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { repositoryRoot } from "../../kernel-helpers/src/workshop/notebookNames";
import { isRunning, notebookFile, temporaryFolder, until } from "./tinyNotebooks";

// The command as `npm run notebooks` starts it: compiled.
const command = join(repositoryRoot, "kernel-helpers", "dist", "workshop", "notebooks.js");
let folder: string;

beforeAll(() => {
  folder = temporaryFolder();
});

afterAll(() => rmSync(folder, { recursive: true }));

function notebooks(...words: string[]): { code: number | null; out: string; err: string } {
  const { INIT_CWD: _, ...env } = process.env;
  const { status, stdout, stderr } = spawnSync(process.execPath, [command, ...words], {
    cwd: folder,
    env,
    encoding: "utf8",
  });
  return {
    code: status,
    out: stdout.replaceAll(/build\/workshop-test-\w+\//g, "").replaceAll(/[\d.]+ s\b/g, "T s"),
    err: stderr,
  };
}

describe("npm run notebooks", () => {
  test("refresh stores outputs, check then passes, and fails with exit code 1 once a result differs", () => {
    const path = notebookFile(folder, "loss", ["const loss = 0.12;", "console.log(`head loss ${loss} m`)"]);
    expect(notebooks("refresh", "loss.ipynb")).toEqual({
      code: 0,
      out: "loss: 2 cells in T s.\n  cell 2: + head loss 0.12 m\nThe notebook passed.\n",
      err: "",
    });
    expect(notebooks("check", "loss.ipynb").out).toBe(
      "loss: 2 cells in T s.\n  agrees with the stored outputs.\nThe notebook passed.\n",
    );
    const stored = readFileSync(path, "utf8").replace("const loss = 0.12;", "const loss = 0.13;");
    writeFileSync(path, stored);
    expect(notebooks("check", "loss.ipynb")).toEqual({
      code: 1,
      out:
        "loss: 2 cells in T s.\n  differs from the stored outputs:\n" +
        '    cell 2: output: text: line 1 was "head loss 0.12 m", is now "head loss 0.13 m".\n' +
        "1 of 1 notebooks failed: loss.\n",
      err: "",
    });
  });

  test("a failed run gives exit code 1, names notebook, cell and message, and keeps the stored outputs", () => {
    const path = notebookFile(folder, "wrong", ["1", `throw new Error("bad spacing")`]);
    const before = readFileSync(path, "utf8");
    expect(notebooks("refresh", "wrong.ipynb")).toEqual({
      code: 1,
      out:
        "wrong: failed (2 cells in T s).\n  wrong, cell 2: Error: bad spacing\n" +
        "  the stored outputs are kept, because the run failed.\n1 of 1 notebooks failed: wrong.\n",
      err: "",
    });
    expect(readFileSync(path, "utf8")).toBe(before);
  });

  test("--timeout is the longest that a cell may run", () => {
    notebookFile(folder, "endless", ["while (true) {}"]);
    expect(notebooks("run", "endless.ipynb", "--timeout", "0.4").out).toContain(
      "endless, cell 1: ran longer than T s and was interrupted.",
    );
  });

  test("a command line that means nothing is answered with what is allowed, and exit code 2", () => {
    expect(notebooks()).toMatchObject({
      code: 2,
      err: expect.stringContaining("No command is given; allowed are run, check, refresh."),
    });
    expect(notebooks("play")).toMatchObject({
      code: 2,
      err: expect.stringContaining('There is no command "play"; allowed are run, check, refresh.'),
    });
    expect(notebooks("run", "--timeout", "soon")).toMatchObject({
      code: 2,
      err: expect.stringContaining('--timeout is "soon"; it must be above 0 and at most 86400 seconds.'),
    });
    expect(notebooks("run", "--fast")).toMatchObject({ code: 2, err: expect.stringContaining("--fast") });
    expect(notebooks("run", "no-such")).toMatchObject({
      code: 2,
      err: expect.stringContaining('There is no notebook "no-such". Allowed are a number such as 00'),
    });
  });
});

/** Starts the command on a notebook whose second cell never ends; returns it and the kernel's process. */
async function startEndless(
  name: string,
): Promise<{ runner: ChildProcess; kernelId: number; grandchildId: number }> {
  const idFile = join(folder, `${name}.txt`);
  const path = notebookFile(folder, name, [
    `import { spawn } from "node:child_process";
     import { writeFileSync } from "node:fs";
     const child = spawn(process.execPath, ["-e", "setInterval(() => {}, 1000)"]);
     writeFileSync(${JSON.stringify(idFile)}, process.pid + " " + child.pid + ".");`,
    "await Promise.resolve(); while (true) {}",
  ]);
  const runner = spawn(process.execPath, [command, "run", path], { cwd: folder, stdio: "ignore" });
  await until(
    "the first cell has run",
    () => existsSync(idFile) && readFileSync(idFile, "utf8").endsWith("."),
  );
  const [kernelId = 0, grandchildId = 0] = readFileSync(idFile, "utf8").split(" ").map(Number);
  expect([kernelId, grandchildId].map(isRunning)).toEqual([true, true]);
  return { runner, kernelId, grandchildId };
}

describe("a run that is stopped from outside", () => {
  test.for([
    ["SIGINT", 130],
    ["SIGTERM", 143],
  ] as const)("by %s leaves no kernel, and ends with exit code %i", async ([signal, code]) => {
    const { runner, kernelId, grandchildId } = await startEndless(`stopped-by-${signal}`);
    const ended = once(runner, "exit");
    runner.kill(signal);
    expect(await ended).toEqual([code, null]);
    expect(isRunning(kernelId)).toBe(false);
    await until("the kernel's child has ended", () => !isRunning(grandchildId));
  });

  test("by SIGKILL, which it cannot hear, leaves no kernel either", async () => {
    const { runner, kernelId, grandchildId } = await startEndless("killed");
    runner.kill("SIGKILL");
    await until("both processes have ended", () => !isRunning(kernelId) && !isRunning(grandchildId));
    expect([kernelId, grandchildId].map(isRunning)).toEqual([false, false]);
  });
});
