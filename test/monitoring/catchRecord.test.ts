import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { describe, expect, test } from "vitest";
import { monitoring, u } from "../../kernel-helpers/src";
import { plantedErrors } from "../../data-demo/generators/planted-catches";
import { readTable } from "../../kernel-helpers/src/records/readTable";
import { checkRecords } from "../../kernel-helpers/src/records/records";

const file = fileURLToPath(new URL("../../data-demo/monitoring-catches.csv", import.meta.url));
const lines = readFileSync(file, "utf8").trimEnd().split("\n");
const head = lines[0];

const read = async (text: readonly string[], schema = monitoring.catchRecord) =>
  checkRecords(await readTable(new TextEncoder().encode([head, ...text].join("\n")), "catches.csv"), schema, {
    setAside: true,
  });

const sound = lines[1].split(",");
const columns = head.split(",").map((name) => name.replace(/ \[.*/, ""));
/** A sound row with some cells changed. */
const row = (cells: Readonly<Record<string, string>>): string =>
  sound.map((cell, at) => cells[columns[at]] ?? cell).join(",");
const faultsOf = async (...rows: string[]) =>
  (await read([row({ catchId: "A", species: "burbot" }), ...rows])).setAside.map(
    ({ column, fault }) => `${column?.replace(/ \[.*/, "")}: ${fault}`,
  );

describe("the record of net catches", () => {
  test("finds every planted error of the demo record in one reading, at its column, and nothing else", async () => {
    const { setAside, count } = await read(lines.slice(1));
    const found = setAside.map(
      ({ line, column }) => `${lines[line - 1].split(",")[0]} ${column?.replace(/ \[.*/, "")}`,
    );
    expect(found.toSorted()).toEqual(
      plantedErrors.map(({ catchId, column }) => `${catchId} ${column}`).toSorted(),
    );
    expect(plantedErrors.length).toBe(17);
    expect(count).toBe(lines.length - 1 - plantedErrors.length);
  });

  test("counts dead fish among the severely injured", async () => {
    expect(await faultsOf(row({ deadAtOnce: "1" }))).toEqual([
      "deadAtOnce: 1 were dead and 0 severely injured, dead ones included; correct one of the counts.",
    ]);
  });

  test("asks for the number released of treated and control fish", async () => {
    expect(await faultsOf(row({ group: "treated" }))).toEqual([
      "released: treated fish are released; say how many.",
    ]);
  });

  test("finds a flow that differs from that of the night, even below the full flow", async () => {
    const rows = lines.slice(1, 6).map((line) => line.replace(/^N/, "M"));
    const slipped = rows[0].replace("23.06", "2.306");
    const { setAside } = await read([slipped, ...rows.slice(1)]);
    expect(setAside.map(({ line, column, value }) => [line, column, value])).toEqual([
      [2, "turbineFlow [m3/s]", "2.306"],
    ]);
  });

  test("finds a catch that was written down twice under two labels", async () => {
    expect(await faultsOf(row({}), row({ catchId: "B" }))).toEqual([
      "catchId: line 3 holds the same catch under another label; take one of them out.",
    ]);
  });

  test("lets control fish lie in the net of a turbine that stands still", async () => {
    const still = { net: "turbine", turbineLoad: "0", turbineFlow: "0", night: "2023-10-30" };
    expect(await faultsOf(row({ ...still, group: "control", released: "50" }))).toEqual([]);
    expect((await faultsOf(row({ ...still, group: "wild" }))).length).toBe(1);
  });

  test("takes other plants and species", async () => {
    const schema = monitoring.catchRecordFor({
      plants: [{ plant: "Sorrel Lock", fullFlow: u.m3ps(20) }],
      species: ["dace"],
    });
    const given = row({ plant: "Sorrel Lock", species: "dace" });
    const { setAside } = await read([given], schema).catch((error: unknown) => {
      if (error instanceof Error && "offences" in error)
        return { setAside: error.offences as { readonly fault: string }[] };
      throw error;
    });
    expect(setAside.map(({ fault }) => fault)).toEqual([
      "the turbines of Sorrel Lock take 20 m³/s at full flow; look for a slipped decimal point.",
    ]);
  });
});
