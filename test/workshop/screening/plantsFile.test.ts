import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { fileURLToPath } from "node:url";
import { afterAll, describe, expect, test } from "vitest";
import { checkPlants } from "../../../kernel-helpers/src/workshop/screening/checkPlants";
import { textBatches } from "../../../kernel-helpers/src/workshop/screening/plantsFile";

const demo = readFileSync(
  fileURLToPath(new URL("../../../data-demo/catchment-plants.csv", import.meta.url)),
  "utf8",
);
const lines = demo.trimEnd().split("\n");
const folder = mkdtempSync(join(tmpdir(), "screening-"));
afterAll(() => rmSync(folder, { recursive: true }));

const fileOf = (text: string): string => {
  const path = join(folder, "plants.csv");
  writeFileSync(path, text);
  return path;
};
const check = (text: string) => checkPlants(fileOf(text), "plants.csv", 50, new AbortController().signal);
const replaced = (line: number, from: string | RegExp, to: string): string =>
  lines.map((one, at) => (at === line - 1 ? one.replace(from, to) : one)).join("\n");

describe("a plants file", () => {
  test("is read a few records at a time, with the line of each", async () => {
    const batches = [];
    for await (const { index, records, firstLine } of textBatches(fileOf(demo), 100))
      batches.push([index, records.length, firstLine]);
    expect(batches).toEqual([
      [0, 100, 2],
      [1, 100, 102],
      [2, 40, 202],
    ]);
  });

  test("may hold a line break inside quotation marks, and line ends of Windows", async () => {
    const text = `${lines[0]}\r\n"a\n""b""",kaplan\r\nc,kaplan\r\n`;
    const batches = [];
    for await (const { records, firstLine } of textBatches(fileOf(text), 1))
      batches.push([records, firstLine]);
    expect(batches).toEqual([
      [['"a\n""b""",kaplan'], 2],
      [["c,kaplan"], 4],
    ]);
  });

  test("in order is counted", async () => {
    expect(await check(demo)).toMatchObject({ plants: 240, parts: 5 });
  });

  test.each([
    [replaced(161, /^C160,\w+/, "C160,bulb"), "plants.csv:161, column type:"],
    [replaced(3, ",2.48,", ",-2.48,"), "plants.csv:3, column head [m]:"],
    [replaced(3, ",2.48,", ",,"), "plants.csv:3, column head [m]:"],
    [replaced(2, ",1.864,", ",,"), "plants.csv:2, column type: a kaplan runner needs runnerDiameter"],
    [replaced(240, "C239", "C003"), 'there are two plants "C003"; a name stands for one plant.'],
    [replaced(1, "clearSpacing [mm]", "spacing"), "clearSpacing"],
    [replaced(1, "head [m]", "head [kg]"), "head"],
    [lines[0], "no records"],
    ["", "empty"],
    [replaced(7, /,[^,]*$/, ""), "plants.csv:7"],
  ])("at fault is refused with its line, before anything is calculated: case %#", async (text, sentence) => {
    await expect(check(text)).rejects.toThrow("nothing was calculated");
    await expect(check(text)).rejects.toThrow(sentence);
  });

  test("full of faults shows the first twenty and counts the others", async () => {
    const bad = lines.map((line, at) => (at === 0 ? line : line.replace(/,1,0\.97$/, ",1,9.7"))).join("\n");
    const message = await check(bad).catch(String);
    expect(String(message)).toContain("plants.csv:21, column spillSurvival");
    expect(
      String(message)
        .split("\n")
        .filter((line) => line.startsWith("plants.csv:")),
    ).toHaveLength(20);
    expect(message).toMatch(/… and \d+ more\./);
  });
});
