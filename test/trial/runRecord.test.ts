import { readRecords, trial, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";
import { readTable } from "../../kernel-helpers/src/records/readTable";
import { checkRecords } from "../../kernel-helpers/src/records/records";

const head =
  "runId,fishId,date,batch,species,totalLength [mm],temperature [degC],clearSpacing [mm],approachVelocity [m/s]," +
  "entranceVelocityRatio,cue,runDuration [min],outcome,outcomeTime [min]";

/** A line of a file: a fish of run R1 unless told otherwise. */
function line(fish: Readonly<Record<string, string | number>>): string {
  const usual = {
    runId: "R1",
    fishId: "R1-1",
    date: "2023-04-03",
    batch: "b1",
    species: "roach",
    totalLength: 120,
    temperature: 9,
    clearSpacing: 18,
    approachVelocity: 0.45,
    entranceVelocityRatio: 1.2,
    cue: "none",
    runDuration: 20,
    outcome: "refused",
    outcomeTime: "",
  };
  return Object.values({ ...usual, ...fish }).join(",");
}

async function faultsIn(
  lines: readonly string[],
  schema: Parameters<typeof checkRecords>[1] = trial.runRecord,
  heads = head,
): Promise<string[]> {
  const sound = line({ runId: "R0", fishId: "R0-1" }) + ",1".repeat(heads === head ? 0 : 1);
  const bytes = new TextEncoder().encode([heads, sound, ...lines].join("\n"));
  const records = checkRecords(await readTable(bytes, "trial.csv", {}), schema, { setAside: true });
  return records.setAside.map(({ line: at, column, value, fault }) => `${at} ${column}: ${value}: ${fault}`);
}

test("the record of the demo trial fits its schema and its rules", async () => {
  const records = await readRecords("trial-runs.csv", trial.runRecord);
  expect(records.count).toBe(960);
  expect(new Set(records.column("outcome"))).toEqual(new Set(trial.outcomes));
  expect(records.rows[0]).toMatchObject({
    species: "silver eel",
    outcome: "bypassed",
    runDuration: u.min(40),
  });
});

describe("rules between the columns of a trial", () => {
  test("what happens at a moment has a time, and what does not has none", async () => {
    expect(
      await faultsIn([
        line({ outcome: "bypassed" }),
        line({ fishId: "R1-2", outcome: "inactive", outcomeTime: 7 }),
        line({ fishId: "R1-3", outcome: "impinged", outcomeTime: 7 }),
      ]),
    ).toEqual([
      "3 outcomeTime [min]: : the fish is bypassed and has no time; enter when it happened, or correct the outcome.",
      "4 outcomeTime [min]: 7: a fish that is inactive has no time at which it happened; empty the cell, or correct the outcome.",
    ]);
  });

  test("nothing happens after the end of the run", async () => {
    expect(
      await faultsIn([
        line({ outcome: "bypassed", outcomeTime: 20 }),
        line({ fishId: "R1-2", outcome: "bypassed", outcomeTime: 20.5 }),
      ]),
    ).toEqual([
      "4 outcomeTime [min]: 20.5: 20.5 min is after the end of the run, which lasted 20 min; correct one of them.",
    ]);
  });

  test("the same run on two days, or of two species, is two runs", async () => {
    const faults = await faultsIn([
      line({}),
      line({ fishId: "R1-2", date: "2023-04-04" }),
      line({ fishId: "R1-3", species: "perch" }),
    ]);
    expect(faults).toEqual([
      "4 date: 2023-04-04: runId R1 has another date in line 3; correct one of them, or give the records another runId.",
      "5 species: perch: runId R1 has another species in line 3; correct one of them, or give the records another runId.",
    ]);
  });

  test("an unknown outcome, a negative length and a fish entered twice are told with their lines", async () => {
    const faults = await faultsIn([
      line({ outcome: "guided" }),
      line({ fishId: "R1-2", totalLength: -120 }),
      line({ fishId: "R1-2" }),
    ]);
    expect(faults.map((fault) => fault.split(":")[0])).toEqual([
      "3 outcome",
      "4 totalLength [mm]",
      "5 fishId",
    ]);
  });
});

describe("runRecordFor", () => {
  const counted = trial.runRecordFor({ having: ["fishInRun"] });
  const heads = `${head},fishInRun`;

  test("a run with more records than fish, or with fewer, is refused", async () => {
    const faults = await faultsIn(
      [
        ...[1, 2, 3].map((n) => `${line({ fishId: `R1-${n}` })},2`),
        `${line({ runId: "R2", fishId: "R2-1" })},2`,
      ],
      counted,
      heads,
    );
    expect(faults).toEqual([
      "5 fishInRun: 2: run R1 has 2 fish and 3 records, in lines 3, 4, 5; take out what is too much, or correct the number of fish.",
      "6 fishInRun: 2: run R2 has 2 fish and 1 records, in lines 6; add what is missing, or correct the number of fish.",
    ]);
  });

  test("a file may lack columns, and then the rules that read them", () => {
    const small = trial.runRecordFor({ without: ["batch", "temperature", "outcomeTime"] });
    expect(Object.keys(small.columns)).not.toContain("batch");
    const read = (small.rules ?? []).flatMap(({ columns }) => columns);
    expect(read).toContain("date");
    expect(read).not.toContain("outcomeTime");
  });

  test("names that are no columns are refused", () => {
    // @ts-expect-error a run can't lack its name
    expect(() => trial.runRecordFor({ without: ["runId"] })).toThrow(
      'trial.runRecordFor: without names "runId"; it may name date, batch,',
    );
  });
});
