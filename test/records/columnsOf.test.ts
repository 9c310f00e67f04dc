import { columnsOf, trial } from "kernel-helpers";
import { expect, test } from "vitest";

test("columns are described as a file heads them, with what is allowed and what they mean", () => {
  const described = columnsOf(trial.runRecord);
  expect(described.map(({ column }) => column)).toContain("approachVelocity [m/s]");
  expect(described.find(({ column }) => column === "outcome")).toEqual({
    column: "outcome",
    allowed: "one of bypassed, rackPassed, refused, impinged, inactive",
    meaning: "what the fish did",
  });
});
