import { readFileSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import { repositoryRoot } from "../../kernel-helpers/src/workshop/notebookNames";

const lines = (...path: string[]): string[] =>
  readFileSync(join(repositoryRoot, ...path), "utf8")
    .trimEnd()
    .split("\n");
const demo = (name: string): string[] => lines("data-demo", name);
const example = (name: string): string[] => lines("notebooks", "projects", "example", name);
const inItsYears = (line: string): boolean => /^(?:date|202[012]-)/.test(line);

// What the example's README says of its records.
test("the example's flow is 0.93 times that at Halvern Weir", () => {
  const [head, ...days] = demo("daily-flow.csv").filter(inItsYears);
  const reduced = days.map((day) => {
    const [date, flow] = day.split(",");
    return `${date},${(0.93 * Number(flow)).toFixed(2)}`;
  });
  expect(example("daily-flow.csv")).toEqual([head, ...reduced]);
});

test("the example's fish are those of Halvern Weir in the same years", () => {
  expect(example("migration-timing.csv")).toEqual(demo("migration-timing.csv").filter(inItsYears));
});

test("the example's units have Halvern Weir's curve at 15/17 of the discharge", () => {
  const [head, ...points] = demo("efficiency.csv");
  const scaled = points.map((point) => {
    const [discharge, efficiency] = point.split(",");
    return `${((Number(discharge) * 15) / 17).toFixed(2)},${efficiency}`;
  });
  expect(example("efficiency.csv")).toEqual([head, ...scaled]);
});

test("the example's trial has the course's runs at a clear spacing of 18 mm", () => {
  const [head, ...fish] = demo("trial-runs.csv");
  const place = head.split(",").indexOf("clearSpacing [mm]");
  expect(example("trial-runs.csv")).toEqual([head, ...fish.filter((row) => row.split(",")[place] === "18")]);
});
