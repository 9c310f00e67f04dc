import { expect, test } from "vitest";
import { largestCellOutput, OutputCollector } from "../../kernel-helpers/src/workshop/outputs";

const collector = (): OutputCollector => new OutputCollector(new Map());

test("pieces of one stream become one output whose lines keep their ends", () => {
  const cell = collector();
  for (const text of ["a", "b\nc", "\n", "", "d"]) cell.add("stream", { name: "stdout", text });
  expect(cell.outputs).toEqual([{ output_type: "stream", name: "stdout", text: ["ab\n", "c\n", "d"] }]);
});

test("text of a mime bundle is stored in lines, JSON as it is", () => {
  const cell = collector();
  const figure = { data: [1, 2] };
  cell.add("display_data", { data: { "text/html": "<p>\n</p>", "application/vnd.plotly.v1+json": figure } });
  expect(cell.outputs).toEqual([
    {
      output_type: "display_data",
      data: { "text/html": ["<p>\n", "</p>"], "application/vnd.plotly.v1+json": figure },
      metadata: {},
    },
  ]);
});

test("a result and an error keep what a notebook file stores of them", () => {
  const cell = collector();
  cell.add("execute_result", { execution_count: 4, data: { "text/plain": "1" }, metadata: {} });
  cell.add("error", { ename: "RangeError", evalue: "too small", traceback: ["at cell 1"] });
  expect(cell.outputs).toEqual([
    { output_type: "execute_result", execution_count: 4, data: { "text/plain": ["1"] }, metadata: {} },
    { output_type: "error", ename: "RangeError", evalue: "too small", traceback: ["at cell 1"] },
  ]);
});

test("what comes after the largest output of a cell is not kept", () => {
  const cell = collector();
  cell.add("stream", { name: "stdout", text: "x".repeat(largestCellOutput) });
  expect(cell.overflowed).toBe(false);
  cell.add("stream", { name: "stdout", text: "y" });
  cell.add("stream", { name: "stderr", text: "z" });
  expect(cell.overflowed).toBe(true);
  expect(cell.outputs).toHaveLength(1);
});
