import { readRecords, trial } from "kernel-helpers";
import { expect, test } from "vitest";

test("the record of the demo trial fits its schema", async () => {
  const records = await readRecords("trial-runs.csv", trial.runRecord);
  expect(records.count).toBe(960);
  expect(new Set(records.column("outcome"))).toEqual(new Set(trial.outcomes));
  expect(records.rows[0]).toMatchObject({ species: "silver eel", outcome: "bypassed", runDuration: 2400 });
});
