import { readFileSync, rmSync, statSync, writeFileSync } from "node:fs";
import { afterAll, beforeAll, expect, test } from "vitest";
import { checkStored, refreshStored } from "../../kernel-helpers/src/workshop/golden";
import { codeCells, readNotebook } from "../../kernel-helpers/src/workshop/notebookFile";
import type { Output } from "../../kernel-helpers/src/workshop/outputs";
import { checkLines, refreshLines, runLines } from "../../kernel-helpers/src/workshop/report";
import type { Failure, NotebookRun } from "../../kernel-helpers/src/workshop/run";
import { notebookFile, temporaryFolder } from "./tinyNotebooks";

let folder: string;

beforeAll(() => {
  folder = temporaryFolder();
});

afterAll(() => rmSync(folder, { recursive: true }));

const printed = (text: string): Output => ({ output_type: "stream", name: "stdout", text: [text] });

/** A run of the notebook as the kernel would give it, each cell printing one text. */
function runOf(path: string, texts: readonly string[], failures: Failure[] = []): NotebookRun {
  return {
    path,
    notebook: readNotebook(path),
    cells: texts.map((text, index) => ({
      outputs: [printed(text)],
      executionCount: index + 1,
      seconds: 0.02,
    })),
    failures,
    seconds: 1.26,
  };
}

test("a refresh stores the outputs and counts; a check then agrees", () => {
  const path = notebookFile(folder, "fresh", ["1", "2"]);
  const run = runOf(path, ["head loss 0.12 m\n", "eel\n"]);
  expect(checkStored(run)).toEqual([
    "cell 1: has no stored output, and now gives 1 output.",
    "cell 2: has no stored output, and now gives 1 output.",
  ]);
  expect(refreshLines(refreshStored(run))).toEqual(["  cell 1: + head loss 0.12 m", "  cell 2: + eel"]);
  expect(codeCells(readNotebook(path)).map((cell) => [cell.execution_count, cell.outputs])).toEqual([
    [1, [printed("head loss 0.12 m\n")]],
    [2, [printed("eel\n")]],
  ]);
  expect(checkStored(runOf(path, ["head loss 0.12 m\n", "eel\n"]))).toEqual([]);
});

test("a check says what differs, and a refresh prints each number old → new", () => {
  const path = notebookFile(folder, "changed", ["1", "2"]);
  refreshStored(runOf(path, ["head loss 0.12 m\n", "eel\n"]));
  const run = runOf(path, ["head loss 0.13 m\n", "eel\n"]);
  const found = checkStored(run);
  expect(checkLines(found)).toEqual([
    "  differs from the stored outputs:",
    '    cell 1: output: text: line 1 was "head loss 0.12 m", is now "head loss 0.13 m".',
  ]);
  expect(refreshLines(refreshStored(run))).toEqual(["  cell 1: head loss: 0.12 → 0.13"]);
});

test("a refresh without a change does not touch the file", () => {
  const path = notebookFile(folder, "same", ["1"]);
  refreshStored(runOf(path, ["1.234567890123456\n"]));
  const { mtimeMs } = statSync(path);
  const text = readFileSync(path, "utf8");
  const refresh = refreshStored(runOf(path, ["1.234567890123457\n"]));
  expect(refreshLines(refresh)).toEqual(["  nothing changed."]);
  expect([statSync(path).mtimeMs, readFileSync(path, "utf8")]).toEqual([mtimeMs, text]);
});

test("a failed run, and a file edited while it ran, keep the stored outputs", () => {
  const path = notebookFile(folder, "kept", ["1"]);
  const text = readFileSync(path, "utf8");
  const failure: Failure = { notebook: path, cell: 1, kind: "error", message: "failed." };
  expect(() => refreshStored(runOf(path, ["1\n"], [failure]))).toThrow(
    "keeps its stored outputs, because its run failed",
  );
  expect(readFileSync(path, "utf8")).toBe(text);

  const run = runOf(path, ["1\n"]);
  const edited = text.replace(`"source":"1"`, `"source":"2"`);
  expect(edited).not.toBe(text);
  writeFileSync(path, edited);
  expect(() => refreshStored(run)).toThrow("was edited while it ran");
  expect(readFileSync(path, "utf8")).toBe(edited);
});

test("a run is told in one line, and one more for each failure", () => {
  const path = notebookFile(folder, "told", ["1"]);
  const [line] = runLines(runOf(path, ["1\n"]));
  expect(line).toMatch(/told: 1 cells in 1\.3 s\.$/);
  const failure: Failure = { notebook: path, cell: 1, kind: "error", message: "failed: a\nb" };
  expect(
    runLines(runOf(path, ["1\n"], [failure])).map((text) => text.replace(/build\S*told/, "told")),
  ).toEqual(["told: failed (1 cells in 1.3 s).", "  told, cell 1: failed: a\n    b"]);
});
