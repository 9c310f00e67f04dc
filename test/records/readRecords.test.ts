import { mkdirSync, mkdtempSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { afterEach, beforeEach, expect, test } from "vitest";
import writeWorkbook from "write-excel-file/node";
import { readRecords } from "../../kernel-helpers/src/records";
import { defineSchema } from "../../kernel-helpers/src/schema";

const flow = defineSchema({
  title: "daily mean flow",
  columns: {
    date: { kind: "day", unique: true },
    discharge: { kind: "quantity", unit: "m3ps", atLeast: 0 },
  },
});

const rows = (discharge: number): (string | number)[][] => [
  ["date", "discharge [m3/s]"],
  ["2020-01-01", discharge],
];

const start = process.cwd();
let folder = "";

beforeEach(() => {
  folder = mkdtempSync(join(tmpdir(), "records-"));
  process.chdir(folder);
});

afterEach(() => {
  process.chdir(start);
  rmSync(folder, { recursive: true });
});

test("readRecords reads a CSV file beside the notebook", async () => {
  writeFileSync("flow.csv", "date,discharge [L/s]\n2020-01-01,34000\n");
  expect((await readRecords("flow.csv", flow)).rows).toEqual([{ date: "2020-01-01", discharge: 34 }]);
});

test("readRecords reads the named worksheet of a workbook", async () => {
  await writeWorkbook([
    { data: rows(1), sheet: "Winter" },
    { data: rows(2), sheet: "Summer" },
  ]).toFile("flow.xlsx");
  expect((await readRecords("flow.xlsx", flow, { sheet: "Summer" })).column("discharge")).toEqual([2]);
  await expect(readRecords("flow.xlsx", flow)).rejects.toThrow(
    'the workbook has 2 worksheets: "Winter", "Summer"',
  );
});

test("readRecords says which files there are when there is none of that name", async () => {
  writeFileSync("flow.csv", "date,discharge [m3/s]\n2020-01-01,34\n");
  await expect(readRecords("flows.csv", flow)).rejects.toThrow(
    /there is no file "flows\.csv" in .*There are flow\.csv\./s,
  );
});

test("readRecords names the file as the reader would write it", async () => {
  writeFileSync("flow.csv", "date,discharge [m3/s]\n2020-01-01,-1\n");
  await expect(readRecords("flow.csv", flow)).rejects.toThrow(
    'flow.csv:2, column discharge [m3/s]: "-1" m³/s is outside the limits. Allowed: a number at least 0 m³/s.',
  );
});

const countIn = async (name: string): Promise<number> => (await readRecords(name, flow)).count;

test("readRecords reads a project's file from the course's folder, from its own and from another project", async () => {
  mkdirSync("projects/mill", { recursive: true });
  mkdirSync("projects/weir");
  writeFileSync("projects/mill/trial.csv", "date,discharge [m3/s]\n2020-01-01,34\n");
  expect(await countIn("projects/mill/trial.csv")).toBe(1);
  process.chdir("projects/weir");
  expect(await countIn("projects/mill/trial.csv")).toBe(1);
  process.chdir("../mill");
  expect(await countIn("trial.csv")).toBe(1);
});

test("readRecords says which files a project has, or that there is no such project", async () => {
  mkdirSync("projects/mill", { recursive: true });
  writeFileSync("projects/mill/trial.csv", "date,discharge [m3/s]\n2020-01-01,34\n");
  await expect(readRecords("projects/mill/trail.csv", flow)).rejects.toThrow(
    /there is no file "trail\.csv" in .*mill\. There are trial\.csv\./s,
  );
  await expect(readRecords("projects/mile/trial.csv", flow)).rejects.toThrow(
    /there is no folder "projects\/mile" in .*Make notebooks\/projects\/mile and put the file there\./s,
  );
});

test.each([
  "../flow.csv",
  "projects/../flow.csv",
  "/etc/flow.csv",
  "projects/mill/a/b.csv",
  ".flow.csv",
  "a\\b.csv",
  "",
])("readRecords refuses a way out of its folders: %s", async (name) => {
  await expect(readRecords(name, flow)).rejects.toThrow("must be a file's name, such as");
});
