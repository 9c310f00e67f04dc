import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { readRecords, RecordsError, trial } from "kernel-helpers";
import { afterEach, beforeEach, describe, expect, test } from "vitest";

// Files as somebody else keeps them, in a project's folder.
const start = process.cwd();
let folder = "";

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "own-"));
  mkdirSync(join(folder, "projects/mill"), { recursive: true });
  process.chdir(folder);
});

afterEach(() => {
  process.chdir(start);
  rmSync(folder, { recursive: true });
});

const write = (lines: readonly string[]): void =>
  writeFileSync("projects/mill/trial.csv", `${lines.join("\r\n")}\r\n`);

const faultsOf = async (reading: Promise<unknown>): Promise<string[]> => {
  const error: unknown = await reading.then(
    () => undefined,
    (reason: unknown) => reason,
  );
  if (!(error instanceof RecordsError)) throw new Error(`expected a RecordsError, got ${String(error)}`);
  return error.offences.map(({ line, column, value, fault }) => `${line} ${column} ${value}: ${fault}`);
};

describe("fish by fish, with semicolons, decimal commas and words of one's own", () => {
  const schema = trial.runRecordFor({
    without: ["batch", "temperature", "entranceVelocityRatio"],
    having: ["fishInRun"],
  });
  const read = (): ReturnType<typeof readRecords<typeof schema>> =>
    readRecords("projects/mill/trial.csv", schema, {
      separator: ";",
      decimalComma: true,
      missing: ["-"],
      ignore: ["Observer"],
      columns: {
        runId: "Test no.",
        fishId: "Tag",
        date: { head: "Day", days: "d.m.yyyy" },
        species: "Kind",
        totalLength: "TL [cm]",
        clearSpacing: { head: "Gap", unit: "mm" },
        approachVelocity: { head: "U", unit: "cm/s" },
        cue: { head: "Lamp", words: { on: "light", off: "none" } },
        runDuration: { head: "Length of test", unit: "min" },
        fishInRun: "Fish",
        outcome: {
          head: "Seen",
          words: {
            bypass: "bypassed",
            bars: "rackPassed",
            "turned back": "refused",
            stuck: "impinged",
            slept: "inactive",
          },
        },
        outcomeTime: { head: "After", unit: "min" },
      },
    });
  const head = "Test no.;Tag;Day;Kind;TL [cm];Gap;U;Lamp;Length of test;Fish;Seen;After;Observer";

  test("become the records of a trial, and give efficiencies", async () => {
    write([
      head,
      "1;A1;3.4.2026;roach;12,5;18;45;on;20;2;bypass;3,5;first",
      "1;A2;3.4.2026;roach;11;18;45;on;20;2;turned back;-;first",
      "2;A3;3.4.2026;roach;9,8;18;45;off;20;2;bars;12;second",
      "2;A4;3.4.2026;roach;10,1;18;45;off;20;2;slept;-;second",
    ]);
    const { rows } = await read();
    expect(rows[0]).toMatchObject({
      runId: "1",
      date: "2026-04-03",
      totalLength: 0.125,
      cue: "light",
      outcome: "bypassed",
    });
    expect(rows[0].approachVelocity).toBeCloseTo(0.45, 12);
    expect(rows[0].outcomeTime).toBeCloseTo(210, 9);
    const [all] = trial.efficiencies(rows);
    expect([all.active, all.inactive, all.guidance.successes, all.guidance.trials]).toEqual([3, 1, 1, 3]);
  });

  test("have every fault told with line, column, value and remedy", async () => {
    write([
      head,
      "1;A1;3.4.2026;roach;12,5;18;45;on;20;2;bypass;3,5;first",
      "1;A2;3.4.2026;roach;-11;18;45;on;20;2;jumped;-;first",
      "1;A5;3.4.2026;perch;11;18;45;on;20;2;bars;21;first",
      "2;A3;3.4.2026;roach;98 mm;18;45;off;20;2;bars;12;second",
      "2;A3;4.4.2026;roach;10,1;18;45;off;20;2;slept;4;second",
    ]);
    expect(await faultsOf(read())).toEqual([
      '3 TL [cm] -11: "-11" cm is outside the limits.',
      '3 Seen jumped: "jumped" is not in the list.',
      "4 After 21: 21 min is after the end of the run, which lasted 20 min; correct one of them.",
      "4 Kind perch: runId 1 has another species in line 2; correct one of them, or give the records another runId.",
      "4 Fish 2: run 1 has 2 fish and 3 records, in lines 2, 3, 4; take out what is too much, or correct the number of fish.",
      '5 TL [cm] 98 mm: "98 mm" has a unit of its own, and the column is in cm; write 9.8.',
      '6 Tag A3: "A3" stands already in line 5.',
      "6 After 4: a fish that is inactive has no time at which it happened; empty the cell, or correct the outcome.",
      "6 Day 4.4.2026: runId 2 has another date in line 5; correct one of them, or give the records another runId.",
    ]);
  });
});

test("a label with spaces around it is refused: it would count as another run, cue or species", async () => {
  write([
    "runId,fishId,cue,outcome",
    "1,A1,light,bypassed",
    "1 ,A2,light,bypassed",
    "1,A3, light,refused",
    "1,A4,light,refused",
  ]);
  const schema = trial.runRecordFor({
    without: [
      "date",
      "batch",
      "species",
      "totalLength",
      "temperature",
      "clearSpacing",
      "approachVelocity",
      "entranceVelocityRatio",
      "runDuration",
      "outcomeTime",
    ],
  });
  expect(await faultsOf(readRecords("projects/mill/trial.csv", schema))).toEqual([
    '3 runId 1 : "1 " has spaces around it and would count as another runId than "1"; take them out.',
    '4 cue  light: " light" has spaces around it and would count as another cue than "light"; take them out.',
    "4 cue  light: runId 1 has another cue in line 2; correct one of them, or give the records another runId.",
  ]);
});

describe("run by run, fish counted", () => {
  const schema = trial.runCountsWith({
    species: { kind: "text" },
    clearSpacing: { kind: "quantity", unit: "mm", above: 0 },
  });
  const head = "runId,fish,bypassed,rackPassed,refused,impinged,inactive,species,clearSpacing [mm]";

  test("give the same efficiencies as fish by fish", async () => {
    write([head, "R1,5,2,1,1,0,1,roach,18", "R2,5,4,0,0,1,0,roach,12"]);
    const { rows } = await readRecords("projects/mill/trial.csv", schema);
    const fish = trial.fishOfCounts(rows);
    expect(fish).toHaveLength(10);
    expect(fish[0]).toEqual({ runId: "R1", species: "roach", clearSpacing: 0.018, outcome: "bypassed" });
    const bySpacing = trial.efficiencies(fish, { by: "clearSpacing" });
    expect(
      bySpacing.map(({ group, protection }) => [group, protection.successes, protection.trials]),
    ).toEqual([
      ["0.012", 4, 5],
      ["0.018", 3, 4],
    ]);
  });

  test("with more outcomes than fish, or a run twice, are refused", async () => {
    write([head, "R1,4,2,1,1,0,1,roach,18", "R1,5,4,0,0,1,0,roach,12"]);
    expect(await faultsOf(readRecords("projects/mill/trial.csv", schema))).toEqual([
      "2 fish 4: 4 fish have 5 outcomes (2 bypassed, 1 rackPassed, 1 refused, 0 impinged, 1 inactive); correct a count.",
      '3 runId R1: "R1" stands already in line 2.',
    ]);
  });

  test("with spaces around a label, of the run or of a column of your own, are refused", async () => {
    write([head, "R1,5,2,1,1,0,1,roach,18", "R1 ,5,4,0,0,1,0, roach,12"]);
    expect(await faultsOf(readRecords("projects/mill/trial.csv", schema))).toEqual([
      '3 runId R1 : "R1 " has spaces around it and would count as another runId than "R1"; take them out.',
      '3 species  roach: " roach" has spaces around it and would count as another species than "roach"; take them out.',
    ]);
  });

  test("must add up in a cell as well", () => {
    const run = { runId: "R1", fish: 3, bypassed: 2, rackPassed: 1, refused: 0, impinged: 0, inactive: 0 };
    expect(() => trial.fishOfCounts([{ ...run, fish: 4 }])).toThrow(
      /^trial\.fishOfCounts: run R1: 4 fish have 3 outcomes \(.*\); correct a count\.$/,
    );
    expect(() => trial.fishOfCounts([{ ...run, bypassed: 1.5 }])).toThrow("bypassed of run R1 is 1.5");
    expect(() => trial.runCountsWith({ fish: { kind: "number" } })).toThrow('columns has "fish"');
  });
});
