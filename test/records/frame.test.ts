import { spawnSync } from "node:child_process";
import { fileURLToPath } from "node:url";
import * as fc from "fast-check";
import { describe, expect, expectTypeOf, test } from "vitest";
import type { Length } from "../../kernel-helpers/src/quantity";
import { frame } from "../../kernel-helpers/src/records";
import { fish, fishHead, read } from "./fixtures";

const catchOfApril = (): ReturnType<typeof read<typeof fish>> =>
  read(
    [
      fishHead,
      "F1,2022-04-02,roach,100,10,2",
      "F2,2022-04-02,grayling,343,,",
      "F3,2022-04-03,roach,300,250,",
      "F4,2022-04-03,roach,200,90,3",
    ].join("\n"),
    fish,
  );

/** Mean and sample standard deviation by their definitions. */
function moments(values: readonly number[]): { readonly mean: number; readonly std: number } {
  const mean = values.reduce((sum, value) => sum + value, 0) / values.length;
  const squares = values.reduce((sum, value) => sum + (value - mean) ** 2, 0);
  return { mean, std: Math.sqrt(squares / (values.length - 1)) };
}

describe("a frame", () => {
  test("holds the rows and columns of records, in SI", async () => {
    const records = await catchOfApril();
    const table = await frame(records);
    expect(table.columnNames).toEqual(records.columnNames);
    expect(table.count).toBe(4);
    expect(table.rows).toEqual(records.rows);
    expect(table.column("totalLength")).toEqual([0.1, 0.343, 0.3, 0.2]);
    expectTypeOf(table.column("totalLength")).toEqualTypeOf<readonly Length[]>();
  });

  test("takes plain rows; what only some rows have is missing in the others", async () => {
    const table = await frame([{ a: 1, b: "x" }, { a: NaN, b: null, c: true }, { a: 3 }]);
    expect(table.rows).toEqual([
      { a: 1, b: "x", c: undefined },
      { a: undefined, b: undefined, c: true },
      { a: 3, b: undefined, c: undefined },
    ]);
  });

  test("refuses no rows and entries that are no number, text, true or false", async () => {
    await expect(frame([])).rejects.toThrow("frame was given no rows; it takes one row or more.");
    await expect(frame([{ day: new Date(0) }])).rejects.toThrow(
      "day of row 1 is a Date; it must be a number, a text",
    );
    await expect(frame([{ a: 1 }, { a: [1] }])).rejects.toThrow("a of row 2 is a list");
  });

  test("names its columns when one is asked for that it does not have", async () => {
    const table = await frame(await catchOfApril());
    const sentence =
      'the frame has no column "specis"; did you mean "species"? Its columns are fishId, date, species, totalLength, weight, age.';
    const missing = "specis" as "species";
    expect(() => table.column(missing)).toThrow(sentence);
    expect(() => table.groupBy(missing)).toThrow(sentence);
    expect(() => table.groupBy("species").aggregate({ [missing]: ["count"] })).toThrow(sentence);
    expect(() => table.sortBy(missing)).toThrow(sentence);
    expect(() => table.join(table, missing)).toThrow(sentence);
  });

  test("sorts by a column, missing entries last, and filters", async () => {
    const table = await frame(await catchOfApril());
    expect(table.sortBy("weight").column("fishId")).toEqual(["F1", "F4", "F3", "F2"]);
    expect(table.sortBy("weight", "descending").column("fishId")).toEqual(["F3", "F4", "F1", "F2"]);
    expect(table.sortBy("species").column("fishId")).toEqual(["F2", "F1", "F3", "F4"]);
    const none = table.filter(({ totalLength }) => totalLength > 1);
    expect(none.count).toBe(0);
    expect(none.columnNames).toEqual(table.columnNames);
    expect(none.groupBy("species").aggregate({ weight: ["mean"] }).rows).toEqual([]);
    expect(
      none.join(
        table.filter(({ age }) => age === 2),
        "fishId",
        "date",
        "species",
        "totalLength",
        "weight",
        "age",
      ).rows,
    ).toEqual([]);
  });
});

describe("groupBy", () => {
  test("gives the figures of each group without its missing entries", async () => {
    const table = await frame(await catchOfApril());
    const figures = table.groupBy("species").aggregate({
      weight: ["count", "mean", "std", "min", "median", "max", "sum"],
      fishId: ["count"],
    });
    expect(figures.columnNames).toEqual([
      "species",
      ..."count mean std min median max sum".split(" ").map((figure) => `${figure}Weight`),
      "countFishId",
    ]);
    const [roach, grayling] = figures.rows;
    const { mean, std } = moments([0.01, 0.25, 0.09]);
    expect(roach.countWeight).toBe(3);
    expect(roach.countFishId).toBe(3);
    expect(roach.meanWeight).toBeCloseTo(mean, 15);
    expect(roach.stdWeight).toBeCloseTo(std, 15);
    expect(roach.sumWeight).toBeCloseTo(0.35, 15);
    expect([roach.minWeight, roach.medianWeight, roach.maxWeight]).toEqual([0.01, 0.09, 0.25]);
    expect(grayling).toEqual({
      species: "grayling",
      countWeight: 0,
      meanWeight: undefined,
      stdWeight: undefined,
      minWeight: undefined,
      medianWeight: undefined,
      maxWeight: undefined,
      sumWeight: 0,
      countFishId: 1,
    });
  });

  test("gives one entry no standard deviation, also where the count is not asked for", async () => {
    const table = await frame([
      { g: "a", v: 1 },
      { g: "b", v: 2 },
      { g: "b", v: 4 },
    ]);
    expect(
      table
        .groupBy("g")
        .aggregate({ v: ["std"] })
        .column("stdV"),
    ).toEqual([undefined, Math.SQRT2]);
  });

  test("keeps the dimension of a quantity in its figures' types", async () => {
    const figures = (await frame(await catchOfApril()))
      .groupBy("species", "date")
      .aggregate({ totalLength: ["count", "mean"] });
    expectTypeOf(figures.rows[0].meanTotalLength).toEqualTypeOf<Length | undefined>();
    expectTypeOf(figures.rows[0].countTotalLength).toEqualTypeOf<number>();
    expectTypeOf(figures.rows[0].species).toEqualTypeOf<"roach" | "grayling" | "silver eel">();
    expect(figures.count).toBe(3);
  });

  test("keeps groups apart whose names look alike, and one for missing names", async () => {
    const table = await frame([
      { a: "x-y", b: "z", v: 1 },
      { a: "x", b: "y-z", v: 2 },
      { a: "1", b: "z", v: 3 },
      { a: 1, b: "z", v: 4 },
      { a: undefined, b: "__proto__", v: 5 },
      { a: "constructor", b: "z", v: 6 },
    ]);
    const figures = table.groupBy("a", "b").aggregate({ v: ["sum"] });
    expect(figures.column("sumV")).toEqual([1, 2, 3, 4, 5, 6]);
    expect(figures.column("a")).toEqual(["x-y", "x", "1", 1, undefined, "constructor"]);
  });

  test("refuses figures of text, unknown figures and columns that would collide", async () => {
    const table = await frame([{ g: "a", meanV: "x", v: 1 }]);
    expect(() => table.groupBy("g").aggregate({ meanV: ["mean"] })).toThrow(
      'aggregate: meanV of row 1 is "x"; it must be a number.',
    );
    expect(() => table.groupBy("g").aggregate({ v: ["average" as "mean"] })).toThrow(
      'aggregate: "average" of v is not known; it must be one of count, mean, std, min, median, max, sum.',
    );
    expect(() => table.groupBy("meanV").aggregate({ v: ["mean"] })).toThrow("two columns meanV");
    expect(() => table.groupBy("g").aggregate({ v: [] })).toThrow("aggregate: v has no figure");
  });

  test("has double precision", async () => {
    const values = fc.array(fc.double({ min: -1e6, max: 1e6, noNaN: true }), { minLength: 2, maxLength: 50 });
    await fc.assert(
      fc.asyncProperty(values, async (numbers) => {
        const offset = numbers.map((value) => 16_777_217 + value);
        const table = await frame(offset.map((v) => ({ g: "all", v })));
        const [row] = table.groupBy("g").aggregate({ v: ["mean", "std", "sum"] }).rows;
        const [described] = table.describe().rows;
        const { mean, std } = moments(offset);
        expect(row.meanV).toBeCloseTo(mean, 6);
        expect(described.mean).toBeCloseTo(mean, 6);
        expect(Math.abs((row.stdV ?? NaN) - std)).toBeLessThanOrEqual(1e-6 * std + 1e-6);
        expect(Math.abs((described.std ?? NaN) - std)).toBeLessThanOrEqual(1e-6 * std + 1e-6);
      }),
      { numRuns: 50 },
    );
  });
});

test("describe gives the figures of every column of numbers, without missing entries", async () => {
  const { rows } = (await frame(await catchOfApril())).describe();
  expect(rows.map(({ column }) => column)).toEqual(["totalLength", "weight", "age"]);
  expect(rows[1]).toEqual({
    column: "weight",
    count: 3,
    mean: expect.closeTo(0.35 / 3, 15),
    std: expect.closeTo(moments([0.01, 0.25, 0.09]).std, 15),
    min: 0.01,
    median: 0.09,
    max: 0.25,
  });
  expect((await frame([{ v: 5 }])).describe().rows[0].std).toBeUndefined();
  await expect(frame([{ a: "x" }]).then((table) => table.describe())).rejects.toThrow(
    "none of the columns a holds numbers",
  );
});

describe("join", () => {
  const bodies = [
    { species: "roach", widthRatio: 0.11 },
    { species: "silver eel", widthRatio: 0.035 },
  ] as const;

  test("looks up the columns of another frame and keeps every row in its place", async () => {
    const joined = (await frame(await catchOfApril())).join(await frame(bodies), "species");
    expect(joined.column("fishId")).toEqual(["F1", "F2", "F3", "F4"]);
    expect(joined.column("widthRatio")).toEqual([0.11, undefined, 0.11, 0.11]);
    expect(joined.columnNames.slice(-2)).toEqual(["age", "widthRatio"]);
  });

  test("refuses keys that stand twice and columns that both have", async () => {
    const table = await frame(await catchOfApril());
    const doubled = await frame([...bodies, { species: "roach", widthRatio: 0.12 }]);
    expect(() => table.join(doubled, "species")).toThrow(
      "join: species roach stands in rows 1 and 3 of the other frame; a frame to look things up in has each key once.",
    );
    const same = await frame([{ species: "roach", weight: 1 }]);
    expect(() => table.join(same, "species")).toThrow("join: both frames have a column weight");
  });

  test("on several columns keeps names apart that look alike", async () => {
    const ours = await frame([
      { a: "x_y", b: "z" },
      { a: "x", b: "y_z" },
    ]);
    const theirs = await frame([
      { a: "x", b: "y_z", v: 2 },
      { a: "x_y", b: "z", v: 1 },
    ]);
    expect(ours.join(theirs, "a", "b").column("v")).toEqual([1, 2]);
  });
});

test("a frame prints nothing of its own when it is made and used", () => {
  const script = `
    const { frame } = require(${JSON.stringify(fileURLToPath(new URL("../../kernel-helpers/dist/records/index.js", import.meta.url)))});
    frame([{ g: "a", v: 1 }, { g: "a", v: 2 }]).then((table) => {
      table.describe(); table.groupBy("g").aggregate({ v: ["mean"] }); table.join(table.groupBy("g").aggregate({ v: ["mean"] }), "g");
      console.log("done");
    });`;
  const { stdout, stderr } = spawnSync(process.execPath, ["-e", script], { encoding: "utf8" });
  expect(stderr).toBe("");
  expect(stdout).toBe("done\n");
});
