import { describe, expect, test } from "vitest";
import { measuredFish } from "../../data-demo/generators/fish-measurements";
import { demoSpecies, lengthSummary } from "../../data-demo/generators/species";
import { bodyTruths } from "../../data-demo/generators/fish-measurements";
import {
  bodyRatios,
  bodyRecord,
  type MeasuredBody,
  species as speciesNamed,
  speciesTable,
  withBodies,
} from "../../kernel-helpers/src/fish";
import type { Schema } from "../../kernel-helpers/src/schema";
import { u } from "../../kernel-helpers/src/quantity/u";

const body = (name: string, length: number, width: number, height: number): MeasuredBody => ({
  species: name,
  totalLength: u.mm(length),
  width: u.mm(width),
  height: u.mm(height),
});

describe("fish.bodyRatios", () => {
  test("recovers bodies that follow a power of length without scatter", () => {
    const lengths = [80, 120, 180, 270];
    const fish = lengths.map((length) =>
      body("ide", length, 0.1 * length * (length / 150) ** 0.2, 0.25 * length),
    );
    const [{ width, height, medianLength, shortest, longest }] = bodyRatios({ fish });
    expect(width.allometry.estimate).toBeCloseTo(0.2, 10);
    expect(width.spread).toBeCloseTo(0, 10);
    expect(width.at(u.mm(150))).toBeCloseTo(0.1, 10);
    expect(height.mean).toBeCloseTo(0.25, 10);
    expect(height.allometry.estimate).toBeCloseTo(0, 10);
    expect([shortest, medianLength, longest].map((length) => u.to.mm(length))).toEqual([80, 150, 270]);
  });

  test("the demo plant's truth lies in the 99.9 % intervals of all seven species", () => {
    const fish = measuredFish().map((one) => body(one.species, one.totalLength, one.width, one.height));
    for (const found of bodyRatios({ fish, level: 0.999 })) {
      const truth = bodyTruths.find((one) => one.species === found.species);
      const ofDemo = demoSpecies.find((one) => one.species === found.species);
      if (truth === undefined || ofDemo === undefined) throw new Error(`no truth for ${found.species}`);
      const middle = lengthSummary(ofDemo.ageClasses).medianLength / 1000;
      const expected = ofDemo.widthRatio * (found.medianLength / middle) ** truth.widthAllometry;
      expect(found.width.atMedianLength.lower).toBeLessThan(expected);
      expect(found.width.atMedianLength.upper).toBeGreaterThan(expected);
      expect(found.width.allometry.lower).toBeLessThan(truth.widthAllometry);
      expect(found.width.allometry.upper).toBeGreaterThan(truth.widthAllometry);
      expect(Math.abs(found.width.spread / truth.widthSpread - 1)).toBeLessThan(0.35);
      expect(found.correlation).toBeGreaterThan(0.2);
    }
  });

  test("measured ratios go into a species table, and only for species that it has", () => {
    const fish = [100, 120, 140, 160].map((length) => body("ide", length, 0.13 * length, 0.27 * length));
    const table = withBodies(speciesTable, bodyRatios({ fish }));
    expect(speciesNamed("ide", table).widthRatio).toBeCloseTo(0.13, 10);
    expect(speciesNamed("ide", table).turnsOnSide).toBe(speciesNamed("ide").turnsOnSide);
    expect(speciesNamed("roach", table)).toEqual(speciesNamed("roach"));
    const unknown = fish.map((one) => ({ ...one, species: "pike" }));
    expect(() => withBodies(speciesTable, bodyRatios({ fish: unknown }))).toThrow(
      'there is no species "pike"',
    );
  });

  test("a record whose body is as large as the fish is told by row and remedy", () => {
    const record: Schema = bodyRecord;
    const faults = (record.rules ?? []).flatMap((rule) =>
      "fault" in rule ? [rule.fault({ totalLength: 0.1, width: 0.12, height: 0.02 })] : [],
    );
    expect(faults).toEqual([
      "the width is not below the total length; check the decimal points and units of both.",
      undefined,
    ]);
  });

  test("refuses too few fish, one length only and bodies that can't be", () => {
    const three = [100, 120, 140].map((length) => body("ide", length, 11, 25));
    expect(() => bodyRatios({ fish: three })).toThrow(
      "fish.bodyRatios: ide has 3 fish; a spread needs at least 4.",
    );
    const alike = [11, 12, 13, 14].map((width) => body("ide", 100, width, 25));
    expect(() => bodyRatios({ fish: alike })).toThrow("all fish of ide are 100 mm long");
    expect(() => bodyRatios({ fish: [...three, body("ide", 160, 170, 40)] })).toThrow(
      "fish[3].width is 170 mm; it must be above 0 and below the total length, 160 mm.",
    );
    expect(() => bodyRatios({ fish: [] })).toThrow("fish is empty");
  });
});
