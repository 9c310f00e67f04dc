import { rmSync, writeFileSync } from "node:fs";
import { join } from "node:path";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { failureSentence } from "../../kernel-helpers/src/workshop/report";
import { runNotebook, type RunOptions } from "../../kernel-helpers/src/workshop/run";
import { runNotebooks } from "../../kernel-helpers/src/workshop/runMany";
import { notebookFile, temporaryFolder } from "./tinyNotebooks";

let folder: string;
let count = 0;

beforeAll(() => {
  folder = temporaryFolder();
});

afterAll(() => rmSync(folder, { recursive: true }));

/** Returns the failures of a notebook with these cells as sentences. */
async function failures(cells: readonly string[], options: RunOptions = {}): Promise<string[]> {
  const path = notebookFile(folder, `case-${++count}`, cells);
  const run = await runNotebook(path, options);
  return run.failures.map((failure) => failureSentence(failure).replace(/^.*case-\d+/, ""));
}

describe("runNotebook", () => {
  test("gives the outputs, counts and times of every code cell, and no failure for a sound notebook", async () => {
    const path = notebookFile(folder, "sound", ["const a = 2;", "", "console.log(a * 3)"]);
    const done: string[] = [];
    const run = await runNotebook(path, { onCell: (cell, total) => done.push(`${cell}/${total}`) });
    expect(run.failures).toEqual([]);
    expect(run.cells.map(({ outputs }) => outputs)).toEqual([
      [],
      [],
      [{ output_type: "stream", name: "stdout", text: ["6\n"] }],
    ]);
    expect(run.cells.map(({ executionCount }) => executionCount)).toEqual([1, null, 2]);
    expect(run.cells[2]?.seconds).toBeGreaterThan(0);
    expect(done).toEqual(["1/3", "2/3", "3/3"]);
  });

  test("fails at the first error, with its message, and names the cells that did not run for it", async () => {
    expect(await failures(["1", `throw new RangeError("clearSpacing is -5 mm");`, "2", "3"])).toEqual([
      ", cell 2: RangeError: clearSpacing is -5 mm",
      ", cell 3: this cell, and those after it to cell 4, did not run, because cell 2 failed.",
    ]);
  });

  test("fails at a wrong type, with its place in the cell", async () => {
    expect(await failures(["const width: number = 'wide';", "1"])).toEqual([
      ", cell 1: line 1, column 7: Type 'string' is not assignable to type 'number'.",
      ", cell 2: this cell did not run, because cell 1 failed.",
    ]);
  });

  test("fails on text on stderr and on work that fails unawaited, at once or later, although the kernel says ok", async () => {
    const cells = [
      `console.error("a warning");`,
      `void Promise.reject(new Error("at once"));`,
      `let release = () => {};
       void new Promise<void>((resolve) => { release = resolve; }).then(() => { throw new Error("later"); });`,
      "release(); await new Promise((resolve) => setTimeout(resolve, 50));",
      `setTimeout(() => { throw new Error("last"); }, 1000); 1`,
    ];
    expect(await failures(cells)).toEqual([
      ", cell 1: printed to stderr: a warning",
      ", cell 2: while it ran, or just after, work failed that no cell had awaited: Error: at once",
      ", cell 4: while it ran, or just after, work failed that no cell had awaited: Error: later",
      ": after the last cell, work failed that no cell had awaited: Error: last",
    ]);
  });

  test("fails when work that a cell started does not end", async () => {
    expect(await failures(["setInterval(() => {}, 50); 1"], { leftoverSeconds: 0.5 })).toEqual([
      ": 0.5 s after the last cell, work that a cell had started was still going on (Timeout); await it in its cell.",
    ]);
  });

  test("fails when a cell runs too long, stopping it", async () => {
    expect(await failures(["while (true) {}", "1"], { timeoutSeconds: 0.5 })).toEqual([
      ", cell 1: ran longer than 0.5 s and was interrupted.",
      ", cell 2: this cell did not run, because cell 1 failed.",
    ]);
    expect(await failures(["await Promise.resolve(); while (true) {}"], { timeoutSeconds: 0.5 })).toEqual([
      ", cell 1: ran longer than 0.5 s and did not stop when interrupted, so its kernel was ended.",
    ]);
  });

  test("fails when a cell ends its kernel", async () => {
    expect(await failures(["process.exit(4)", "1"])).toEqual([
      ", cell 1: ended its kernel. The kernel ended with exit code 4.",
      ", cell 2: this cell did not run, because cell 1 failed.",
    ]);
  });

  test("fails on a broken file without starting a kernel", async () => {
    const path = join(folder, "broken.ipynb");
    writeFileSync(path, `{"cells": [`);
    const run = await runNotebook(path);
    expect(run.failures.map(({ kind, message }) => [kind, message])).toEqual([
      ["file", expect.stringContaining("broken.ipynb is not a notebook: it is not JSON")],
    ]);
    expect(run.seconds).toBeLessThan(0.5);
  });

  test("gives up when told to, and rejects with the reason", async () => {
    const path = notebookFile(folder, "endless", ["while (true) {}"]);
    const stop = new AbortController();
    setTimeout(() => stop.abort(new Error("enough")), 1500);
    await expect(runNotebook(path, { signal: stop.signal })).rejects.toThrow("enough");
  });
});

describe("runNotebooks", () => {
  test("runs notebooks side by side, each in a kernel of its own, and reports them in the given order", async () => {
    const slow = notebookFile(folder, "slow", [
      "const spacing = 'slow'; await new Promise((resolve) => setTimeout(resolve, 2500));",
      "console.log(spacing)",
    ]);
    const quick = notebookFile(folder, "quick", ["console.log(spacing)"]);
    const reported: string[] = [];
    const runs = await runNotebooks([slow, quick], {
      kernels: 2,
      onNotebook: ({ path }) => reported.push(path),
    });
    expect(reported).toEqual([slow, quick]);
    expect(runs.map(({ path }) => path)).toEqual([slow, quick]);
    expect(runs.map(({ failures: found }) => found)).toEqual([
      [],
      [expect.objectContaining({ kind: "error" })],
    ]);
    expect((runs[1]?.seconds ?? 0) < (runs[0]?.seconds ?? 0)).toBe(true);
  });
});
