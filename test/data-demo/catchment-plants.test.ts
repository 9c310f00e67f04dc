import { describe, expect, it } from "vitest";
import {
  catchmentPlantsCsv,
  catchmentSpacings,
  catchmentTruth,
} from "../../data-demo/generators/catchment-plants";
import { demoRows, readmeTables } from "./files";
import { deviation, mean } from "./numbers";

const rows = demoRows("catchment-plants.csv");

/** The rows of a larger draw, of which shares and spreads can be told. */
const many = catchmentPlantsCsv({ ...catchmentTruth, plants: 4000 })
  .trimEnd()
  .split("\n")
  .slice(1)
  .map((line) => line.split(","));
const of = (...types: string[]) => many.filter(([, type]) => types.includes(type));
const logs = (cells: readonly string[]) => cells.map((cell) => Math.log(Number(cell)));

describe("catchment-plants.csv", () => {
  it("names every plant once and gives each runner the sizes of its type", () => {
    expect(new Set(rows.map(({ plant }) => plant)).size).toBe(catchmentTruth.plants);
    for (const row of rows) {
      const axial = row.type !== "francis";
      expect(row["runnerDiameter [m]"] !== "").toBe(axial);
      expect(row["inletHeight [m]"] !== "").toBe(!axial);
    }
  });

  it("turns every runner at a speed of a 50 Hz grid", () => {
    for (const row of rows) {
      const polePairs = 3000 / Number(row["rotationalSpeed [rpm]"]);
      expect(Math.abs(polePairs - Math.round(polePairs))).toBeLessThan(0.05);
    }
  });

  it("comes from the stated shares, medians and spreads", () => {
    expect(of("kaplan").length / many.length).toBeCloseTo(catchmentTruth.kaplanShare, 1);
    expect(of("propeller").length / many.length).toBeCloseTo(catchmentTruth.propellerShare, 1);
    const axial = logs(of("kaplan", "propeller").map((cells) => cells[2]));
    expect(Math.abs(mean(axial) - Math.log(catchmentTruth.medianAxialDischarge))).toBeLessThan(0.06);
    expect(Math.abs(deviation(axial) - catchmentTruth.dischargeSpread)).toBeLessThan(0.04);
    const heads = logs(of("francis").map((cells) => cells[4]));
    expect(Math.abs(mean(heads) - Math.log(catchmentTruth.medianFrancisHead))).toBeLessThan(0.05);
    expect(Math.abs(deviation(heads) - catchmentTruth.headSpread)).toBeLessThan(0.03);
    for (const [spacing, share] of Object.entries(catchmentSpacings)) {
      const found = many.filter((cells) => cells[13] === spacing).length / many.length;
      expect(Math.abs(found - share)).toBeLessThan(0.03);
    }
  });

  it("has its true parameters in the README", () => {
    const [table, spacings] = readmeTables("The truth behind the catchment");
    expect(
      Object.fromEntries(table.slice(1).map(([name, value]) => [name.replaceAll("`", ""), Number(value)])),
    ).toEqual(catchmentTruth);
    expect(Object.fromEntries(spacings.slice(1).map(([spacing, share]) => [spacing, Number(share)]))).toEqual(
      catchmentSpacings,
    );
  });
});
