import { describe, expect, test } from "vitest";
import { bypassFigures, bypassStructure, bypassWater, section } from "./bypassFigures";
import { u } from "../../kernel-helpers/src/quantity";

/** The points of the series with this name. */
const series = (name: string, { data } = section()): readonly (readonly [number, number])[] => {
  const trace = data.find((one) => one.name === name);
  const [x, y] = [trace?.x, trace?.y] as [number[], number[]]; // as the builder wrote them
  return x.map((along, at) => [along, y[at]]);
};

const scaleOf = ({ layout } = section()): unknown => Reflect.get(Object(layout.yaxis), "scaleratio");

describe("figures.bypassSection", () => {
  test("draws crest, lip and pool where they are built, and the water at both levels", () => {
    const floor = series("floor, gates and walls");
    expect(floor).toContainEqual([3, 2.6]);
    expect(floor).toContainEqual([63, -1]);
    expect(floor.at(-1)?.[1]).toBe(-3);
    const surface = series("water surface");
    expect(surface[0][1]).toBe(3.6);
    expect(surface.at(-1)?.[1]).toBe(-1.8);
  });

  test("keeps the water above the floor all along the chute", () => {
    const levels = series("water surface").filter(([along]) => along > 3 && along < 63);
    expect(levels.length).toBeGreaterThan(10);
    for (const [along, level] of levels) expect(level).toBeGreaterThan(2.6 - 0.06 * (along - 3));
  });

  test("draws a part to one scale, and says how much larger the whole's heights are", () => {
    expect(scaleOf(section({}, { part: "entrance" }))).toBe(1);
    expect(scaleOf(section({}, { part: "outfall" }))).toBe(1);
    expect(scaleOf()).toBe(5);
    expect(section().alt).toContain("Heights are drawn 5 times as large as lengths.");
  });

  test("says in words what control, fall and pool are like", () => {
    expect(section().alt).toContain("falls 1.1 m and meets a pool 1.2 m deep at 7.35 m/s");
    expect(bypassFigures.bypassGate.alt).toContain("gate 0.5 m open");
    expect(bypassFigures.bypassSectionDrowned.alt).toContain("runs out below the tailwater");
  });

  test("a bypass without its ramp's rise still has a straight floor", () => {
    const narrow = { ...bypassStructure.entrance, width: u.m(0.14) };
    expect(section({ entrance: narrow }, {}, bypassWater).alt).toContain("Long section");
  });
});
