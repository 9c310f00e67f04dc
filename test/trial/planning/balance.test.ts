import { trial } from "kernel-helpers";
import { describe, expect, it } from "vitest";

const factors = { cue: ["none", "light"] } as const;
const made = (batch: string, day: string, cue: "none" | "light" | undefined, control?: string) => ({
  batch,
  day,
  cue,
  control,
});

describe("trial.balance", () => {
  it("counts levels in batches and days of runs that were made, controls left out", () => {
    const rows = trial.balance(factors, [
      made("a", "2023-04-03", "none"),
      made("a", "2023-04-03", "none"),
      made("a", "2023-04-03", "none"),
      made("a", "2023-04-04", "light"),
      made("b", "2023-04-05", "light"),
      made("b", "2023-04-05", "none"),
      made("b", "2023-04-05", undefined, "no rack"),
    ]);
    expect(rows).toEqual([
      { block: "batch", factor: "cue", blocks: 2, largestDifference: 2, smallestPossible: 0, even: false },
      { block: "day", factor: "cue", blocks: 3, largestDifference: 3, smallestPossible: 1, even: false },
    ]);
  });

  it("refuses a level that the factor doesn't have: it would be counted nowhere", () => {
    const runs = [made("a", "1", "light"), { ...made("a", "1", "light"), cue: "bubbles" }];
    expect(() => trial.balance(factors, runs)).toThrow(
      "trial.balance: runs[1].cue is bubbles; the levels of cue are none, light.",
    );
  });
});
