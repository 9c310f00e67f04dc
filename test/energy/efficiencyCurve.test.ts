import { energy, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";
import { curve, unit } from "./plant";

describe("energy.efficiencyCurve", () => {
  test("passes through its points and runs straight between them", () => {
    for (const { discharge, efficiency } of unit.points) expect(unit(discharge)).toBe(efficiency);
    expect(unit(u.m3ps(9))).toBeCloseTo((0.872 + 0.888) / 2, 12);
  });

  test("knows its ends and its best point", () => {
    expect([unit.smallest, unit.largest, unit.best.discharge]).toEqual([4, 17, 14.5]);
  });

  test("refuses a discharge outside, naming technical minimum and full discharge", () => {
    expect(() => unit(u.m3ps(3))).toThrow(
      "energy.efficiencyCurve: the unit's discharge is 3 m³/s; its curve runs from 4 m³/s, the technical minimum, to 17 m³/s, full discharge.",
    );
    expect(() => unit(u.m3ps(Number.NaN))).toThrow("NaN");
  });

  test("refuses points that are too few, out of order or no shares", () => {
    expect(() => curve([4, 0.8])).toThrow("there is one point; give at least two");
    expect(() => energy.efficiencyCurve([])).toThrow("there are no points");
    expect(() => curve([4, 0.8], [4, 0.9])).toThrow(
      "points[1] is 4 m³/s, not above that of the point before",
    );
    expect(() => curve([4, 0.8], [8, 90])).toThrow(RangeError);
    expect(() => curve([0, 0.8], [8, 0.9])).toThrow(RangeError);
  });
});
