import { readFileSync } from "node:fs";
import { fish } from "kernel-helpers";
import { describe, expect, it } from "vitest";

const csv = readFileSync(new URL("../../data-demo/species.csv", import.meta.url), "utf8");

describe("species table", () => {
  it("agrees with the species of the demo records, value by value", () => {
    const [header = "", ...rows] = csv.trim().split("\n");
    const columns = header.split(",");
    const inFile = rows.map((row) => {
      const cell = Object.fromEntries(row.split(",").map((value, at) => [columns[at], value]));
      return {
        name: cell["species"],
        widthRatio: Number(cell["widthRatio"]),
        heightRatio: Number(cell["heightRatio"]),
        turnsOnSide: cell["turnsOnSide"] === "yes",
        weightCoefficient: Number(cell["weightCoefficient"]),
        weightExponent: Number(cell["weightExponent"]),
      };
    });
    const { source, ...first } = fish.speciesTable[0];
    expect(source.provenance).toBe("practice");
    expect(inFile[0]).toEqual(first);
    expect(fish.speciesTable).toEqual(inFile.map((entry) => ({ ...entry, source })));
  });

  it("marks every entry as common practice", () => {
    expect(fish.speciesTable.map((entry) => entry.source.provenance)).toEqual(Array(7).fill("practice"));
  });

  it("species finds an entry by name and lists the names where there is none", () => {
    expect(fish.species("burbot").heightRatio).toBe(0.13);
    expect(() => fish.species("pike")).toThrow(
      'fish.species: there is no species "pike"; the table has roach, grayling, ide, perch, bleak, burbot, silver eel.',
    );
  });

  it("withSpecies replaces an entry of the same name and leaves the given table as it was", () => {
    const wider = { ...fish.species("roach"), widthRatio: 0.13 };
    const table = fish.withSpecies(fish.speciesTable, wider);
    expect(fish.species("roach", table).widthRatio).toBe(0.13);
    expect(table).toHaveLength(7);
    expect(fish.species("roach").widthRatio).toBe(0.11);
  });

  it("withSpecies adds a new species at the end", () => {
    const table = fish.withSpecies(fish.speciesTable, { ...fish.species("perch"), name: "ruffe" });
    expect(table.map((entry) => entry.name).at(-1)).toBe("ruffe");
    expect(table).toHaveLength(8);
  });

  it.each([
    ["widthRatio", 0, "it must be above 0 and at most 1"],
    ["heightRatio", 1.2, "it must be above 0 and at most 1"],
    ["heightRatio", Number.NaN, "it must be above 0 and at most 1"],
    ["weightCoefficient", -1, "it must be above 0"],
    ["weightExponent", Number.POSITIVE_INFINITY, "it must be above 0"],
  ])("withSpecies refuses %s %s", (key, value, allowed) => {
    expect(() => fish.withSpecies(fish.speciesTable, { ...fish.species("ide"), [key]: value })).toThrow(
      `fish.withSpecies: ${key} of "ide" is ${value}; ${allowed}.`,
    );
  });

  it("gapRatio is the width of fish that turn on their side and the height of fish that do not", () => {
    expect(fish.gapRatio(fish.species("roach"))).toBe(0.11);
    expect(fish.gapRatio(fish.species("perch"))).toBe(0.25);
  });
});
