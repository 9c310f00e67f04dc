import { spawn } from "node:child_process";
import {
  existsSync,
  mkdirSync,
  mkdtempSync,
  readdirSync,
  readFileSync,
  rmSync,
  writeFileSync,
} from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { setTimeout as pause } from "node:timers/promises";
import { fileURLToPath } from "node:url";
import { parquetReadObjects } from "hyparquet";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { diskError, DiskError, writeText } from "../../../kernel-helpers/src/workshop/screening/disk";

const path = (name: string): string => fileURLToPath(new URL(`../../../${name}`, import.meta.url));
const program = path("kernel-helpers/dist/workshop/screen.js");
const [head, ...demo] = readFileSync(path("data-demo/catchment-plants.csv"), "utf8").trimEnd().split("\n");
const folder = mkdtempSync(join(tmpdir(), "screening-"));
const has = (name: string): boolean => existsSync(join(folder, name));
const read = (name: string): string => readFileSync(join(folder, name), "utf8");
const partsOf = (name: string): string[] =>
  has(`${name}.parts`)
    ? readdirSync(join(folder, `${name}.parts`)).filter((one) => /^part-\d+\.csv$/.test(one))
    : [];

interface Ended {
  readonly code: number | null;
  readonly out: string;
  readonly err: string;
}

function start(...words: string[]) {
  const child = spawn(process.execPath, [program, ...words], {
    cwd: folder,
    env: { ...process.env, INIT_CWD: folder },
  });
  let out = "";
  let err = "";
  child.stdout.on("data", (text) => (out += String(text)));
  child.stderr.on("data", (text) => (err += String(text)));
  const end = new Promise<Ended>((resolve) => child.on("close", (code) => resolve({ code, out, err })));
  return { child, end };
}
const run = (...words: string[]): Promise<Ended> => start(...words).end;
const quick = ["plants.csv", "--draws", "40", "--classes", "10", "--plants-in-part", "7"];

let first: Ended;
beforeAll(async () => {
  writeFileSync(join(folder, "plants.csv"), `${[head, ...demo.slice(0, 40)].join("\n")}\n`);
  first = await run(...quick, "--workers", "1", "--out", "one.csv");
}, 60_000);
afterAll(() => rmSync(folder, { recursive: true }));

describe("npm run screen", () => {
  test("writes one row for each plant and species, in the order of the file, and leaves no parts", () => {
    expect(first.err).toBe("");
    expect(first.code).toBe(0);
    const rows = read("one.csv").trimEnd().split("\n");
    expect(rows[0]).toBe("plant,species,survival,lower,upper,worstLength [mm],worstSurvival");
    expect(rows).toHaveLength(1 + 40 * 7);
    expect(rows[8]).toMatch(/^C002,roach,0\.\d{6},/);
    for (const row of rows.slice(1)) {
      const [, , survival, lower, upper] = row.split(",").map(Number);
      expect(lower <= survival && survival <= upper && lower >= 0 && upper <= 1).toBe(true);
    }
    expect(has("one.csv.parts")).toBe(false);
  });

  test("gives the same bytes with any number of workers and any size of parts", async () => {
    await run(...quick, "--workers", "3", "--out", "three.csv");
    expect(read("three.csv")).toBe(read("one.csv"));
    await run(...quick.slice(0, 5), "--plants-in-part", "40", "--workers", "2", "--out", "parts.csv");
    expect(read("parts.csv")).toBe(read("one.csv"));
    await run(...quick, "--seed", "2", "--workers", "2", "--out", "seed.csv");
    expect(read("seed.csv")).not.toBe(read("one.csv"));
  }, 60_000);

  test.each([
    ["SIGINT", "the same command goes on from there"],
    // Nothing can be said by a process that is killed.
    ["SIGKILL", ""],
  ] as const)(
    "stopped by %s goes on where it was, to the same bytes",
    async (signal, told) => {
      const out = `${signal}.csv`;
      const words = [
        "plants.csv",
        "--draws",
        "40000",
        "--classes",
        "10",
        "--plants-in-part",
        "2",
        "--out",
        out,
        "--workers",
        "2",
      ];
      const { child, end } = start(...words);
      while (partsOf(out).length < 3) await pause(10);
      child.kill(signal);
      const { err } = await end;
      expect(err).toContain(told);
      const made = partsOf(out);
      expect(has(out)).toBe(false);
      expect(made.length).toBeLessThan(20);
      const before = read(join(`${out}.parts`, made[0]));

      writeFileSync(
        join(folder, `${out}.node-1.unfinished`),
        "left by a process that was killed while it joined",
      );
      const again = await run(...words);
      expect(again.out).toMatch(/\d+ of 40 plants were done before\./);
      expect(again.code).toBe(0);
      await run(...words.slice(0, -4), "--out", `whole-${out}`, "--workers", "1");
      expect(read(out)).toBe(read(`whole-${out}`));
      expect(read(out)).toContain(before);
      expect(has(`${out}.parts`) || has(`${out}.node-1.unfinished`)).toBe(false);
    },
    120_000,
  );

  test("as shares of an array job, then merged, gives the same bytes; before all are made nothing is joined", async () => {
    const share = await run(...quick, "--out", "array.csv", "--part", "1/3");
    expect(share.out).toContain("parts of other shares are still missing");
    const early = await run(...quick, "--out", "array.csv", "--merge");
    expect(early.code).toBe(1);
    expect(early.err).toContain("4 parts are missing; nothing was joined");
    await Promise.all([2, 3].map((one) => run(...quick, "--out", "array.csv", "--part", `${one}/3`)));
    expect(has("array.csv")).toBe(false);
    const merged = await run(...quick, "--out", "array.csv", "--merge");
    expect(merged.code).toBe(0);
    expect(read("array.csv")).toBe(read("one.csv"));
  }, 60_000);

  test("writes Parquet that holds the same numbers", async () => {
    const { code, err } = await run(...quick, "--out", "one.parquet");
    expect(err).toBe("");
    expect(code).toBe(0);
    const bytes = readFileSync(join(folder, "one.parquet"));
    const file = bytes.buffer.slice(bytes.byteOffset, bytes.byteOffset + bytes.byteLength);
    const rows = await parquetReadObjects({ file });
    const lines = rows.map((row) =>
      Object.entries(row)
        .map(([name, value]) =>
          typeof value === "number" ? value.toFixed(name.startsWith("worstLength") ? 1 : 6) : String(value),
        )
        .join(","),
    );
    expect(lines).toEqual(read("one.csv").trimEnd().split("\n").slice(1));
  }, 60_000);

  test("refuses parts of another screening, and a plants file that has changed", async () => {
    await run(...quick, "--out", "mixed.csv", "--part", "1/2");
    const other = await run(...quick, "--out", "mixed.csv", "--seed", "9");
    expect(other.code).toBe(1);
    expect(other.err).toContain("holds parts of a screening with other plants or other settings");
  }, 60_000);

  test.each([
    [[], "No plants file is given."],
    [["plants.csv", "more.csv"], "One plants file is screened at a time"],
    [["plants.csv", "--draws", "1.5"], '--draws is "1.5"; it must be a whole number from 1'],
    [["plants.csv", "--part", "4/3"], '--part is "4/3"; it must be like 2/8'],
    [["plants.csv", "--part", "1/3", "--merge"], "--part and --merge exclude each other"],
    [["plants.csv", "--out", "a.xlsx"], "its name must end in .csv or .parquet"],
    [["plants.csv", "--out", "plants.csv"], "--out is the plants file itself"],
    [["plants.csv", "--species", "none.csv"], "none.csv cannot be read"],
    [["plants.csv", "--colour"], "Unknown option '--colour'"],
  ])("explains a command line that means nothing: %j", async (words, sentence) => {
    const { code, err } = await run(...words);
    expect(code).toBe(2);
    expect(err).toContain(sentence);
    expect(err).toContain("Usage: npm run screen");
  });

  test("refuses a plants file that is not there, and one at fault, and writes nothing", async () => {
    const missing = await run("none.csv");
    expect(missing.code).toBe(1);
    expect(missing.err).toContain("none.csv");
    writeFileSync(join(folder, "bad.csv"), `${[head, demo[0].replace(",kaplan,", ",bulb,")].join("\n")}\n`);
    const bad = await run("bad.csv");
    expect(bad.code).toBe(1);
    expect(bad.err).toContain("bad.csv:2, column type");
    expect(readdirSync(folder).filter((name) => name.startsWith("bad-screened"))).toEqual([]);
  });

  test("takes ranges from a file, and refuses impossible ones", async () => {
    writeFileSync(
      join(folder, "ranges.csv"),
      "number,lowest,highest\nprotectedSurvival,1,1\nthreshold,0,0\n",
    );
    await run(...quick, "--out", "ranges-out.csv", "--ranges", "ranges.csv");
    expect(read("ranges-out.csv")).not.toBe(read("one.csv"));
    writeFileSync(join(folder, "wrong.csv"), "number,lowest,highest\nprotectedSurvival,0.9,1.2\n");
    const { code, err } = await run(...quick, "--ranges", "wrong.csv");
    expect(code).toBe(2);
    expect(err).toContain(
      "protectedSurvival is drawn from 0.9 to 1.2; lowest may not lie above highest, and highest not above 1",
    );
  }, 60_000);
});

describe("a disk that takes no more", () => {
  test("is told in a sentence, and leaves no half of a file", async () => {
    const within = join(folder, "stands");
    mkdirSync(join(within, "part.csv", "in the way"), { recursive: true });
    // The last step of writing fails: a folder that holds something can't be replaced by a file.
    await expect(writeText(join(within, "part.csv"), "text")).rejects.toThrow(/ENOTEMPTY|EISDIR|EEXIST/);
    expect(readdirSync(within)).toEqual(["part.csv"]);
    const full = Object.assign(new Error("ENOSPC: no space left on device, write"), { code: "ENOSPC" });
    const told = diskError("out.csv", full);
    expect(told).toBeInstanceOf(DiskError);
    expect(String(told)).toContain("out.csv could not be written: the disk is full");
    expect(String(told)).toContain("it goes on from there");
    const other = new Error("something else");
    expect(diskError("out.csv", other)).toBe(other);
  });
});
