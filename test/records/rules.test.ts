import { describe, expect, expectTypeOf, test } from "vitest";
import { checkRecords, readTable, type Records } from "../../kernel-helpers/src/records";
import {
  defineSchema,
  type RowOf,
  sameWithin,
  type Schema,
  uniqueTogether,
  withRules,
} from "../../kernel-helpers/src/schema";
import { refusal } from "./fixtures";

const catches = withRules(
  defineSchema({
    title: "catches",
    columns: {
      night: { kind: "day" },
      net: { kind: "choice", oneOf: ["bypass", "turbine"] },
      flow: { kind: "quantity", unit: "m3ps", atLeast: 0 },
      caught: { kind: "number", whole: true, atLeast: 0 },
      dead: { kind: "number", whole: true, atLeast: 0 },
    },
  }),
  [
    {
      columns: ["dead", "caught"],
      allowed: "no more than were caught",
      fault: ({ dead, caught }) =>
        dead > caught ? `${dead} are dead of ${caught} caught; check both counts.` : undefined,
    },
    uniqueTogether("night", "net"),
    ...sameWithin("night", ["flow"]),
  ],
);
const head = "night,net,flow [m3/s],caught,dead";

const readWith = async <const S extends Schema>(
  text: string,
  schema: S,
  options?: { readonly setAside?: boolean },
): Promise<Records<S>> =>
  checkRecords(await readTable(new TextEncoder().encode(text), "nets.csv"), schema, options);

const faulty = [
  head,
  "2026-10-02,bypass,3.0,7,1",
  "2026-10-02,turbine,3.0,7,9",
  "2026-10-02,bypass,3.0,2,0",
  "2026-10-03,bypass,30,4,0",
  "2026-10-03,turbine,3.0,4,0",
  "2026-10-04,bypass,3.0,four,5",
  "",
].join("\n");

describe("rules of a schema", () => {
  test("leave sound records alone, typed as before", async () => {
    const { rows } = await readWith(`${head}\n2026-10-02,bypass,3.0,7,1\n`, catches);
    expect(rows).toEqual([{ night: "2026-10-02", net: "bypass", flow: 3, caught: 7, dead: 1 }]);
    expectTypeOf<RowOf<typeof catches>["net"]>().toEqualTypeOf<"bypass" | "turbine">();
  });

  test("are told with every other fault, in the order of the lines, a fault once", async () => {
    const { offences } = await refusal(readWith(faulty, catches));
    expect(offences.map(({ sentence }) => sentence)).toEqual([
      "nets.csv:3, column dead: 9 are dead of 7 caught; check both counts. Allowed: no more than were caught.",
      "nets.csv:4, column night: line 2 has the same night, net; take one of them out. Allowed: in no two records the same night, net.",
      "nets.csv:6, column flow [m3/s]: night 2026-10-03 has another flow in line 5; correct one of them, or give the records another night. Allowed: one flow for each night.",
      'nets.csv:7, column caught: "four" is no number. Allowed: a whole number at least 0.',
    ]);
    expect(offences[0].value).toBe("9");
  });

  test("wait until the head of the file is in order", async () => {
    const { offences } = await refusal(readWith("night,net,caught,dead\n2026-10-02,bypass,1,2\n", catches));
    expect(offences).toHaveLength(1);
  });
});

describe("with setAside", () => {
  test("records at fault are left out, and each of their faults is listed", async () => {
    const records = await readWith(faulty, catches, { setAside: true });
    expect(records.column("night")).toEqual(["2026-10-02", "2026-10-03"]);
    expect(records.rows.map(({ net }) => net)).toEqual(["bypass", "bypass"]);
    expect(records.count).toBe(2);
    expect(records.setAside.map(({ line, value }) => [line, value])).toEqual([
      [3, "9"],
      [4, "2026-10-02"],
      [6, "3.0"],
      [7, "four"],
    ]);
    expect(records.setAside[0]).toEqual({
      line: 3,
      column: "dead",
      value: "9",
      fault: "9 are dead of 7 caught; check both counts.",
      allowed: "no more than were caught",
    });
  });

  test("a line with too few entries is listed as well", async () => {
    const records = await readWith(`${head}\n2026-10-02,bypass,3.0,7,1\n2026-10-03,bypass,3.0\n`, catches, {
      setAside: true,
    });
    expect(records.count).toBe(1);
    expect(records.setAside.map(({ line }) => line)).toEqual([3]);
  });

  test("a sound file has nothing set aside", async () => {
    const records = await readWith(`${head}\n2026-10-02,bypass,3.0,7,1\n`, catches, { setAside: true });
    expect(records.setAside).toEqual([]);
  });

  test("a wrong head, or a file without a sound record, is refused all the same", async () => {
    const wrongHead = readWith("night,net,flow,caught,dead\n2026-10-02,bypass,3,7,1\n", catches, {
      setAside: true,
    });
    expect((await refusal(wrongHead)).message).toContain("the head names no unit");
    const noneSound = readWith(`${head}\n2026-10-02,bypass,3,7,9\n`, catches, { setAside: true });
    expect((await refusal(noneSound)).message).toContain("9 are dead of 7 caught");
  });
});
