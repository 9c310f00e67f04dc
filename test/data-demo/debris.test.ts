import { describe, expect, it } from "vitest";
import { dailyFlow } from "../../data-demo/generators/daily-flow";
import {
  debrisCsv,
  debrisDays,
  debrisTruth,
  debrisTypes,
  expectedMass,
} from "../../data-demo/generators/debris";
import { demoRows } from "./files";
import { deviation, mean } from "./numbers";

const rows = demoRows("debris.csv");
const flows = dailyFlow();

/** ln(mass over what season and flow give), with the masses as drawn: a tenth of a kilogram is much of a small one. */
function ownEffects(type: string): number[] {
  const which = debrisTypes.findIndex((one) => one.type === type);
  return debrisDays().map(({ masses }, at) => {
    const { day, discharge } = flows[at];
    const before = flows[Math.max(at - 1, 0)].discharge;
    return Math.log(masses[which] / expectedMass(debrisTypes[which], { day, flow: discharge, before }));
  });
}

const monthOf = (row: Record<string, string>): number => Number(row.date.slice(5, 7));
const massIn = (column: string, months: readonly number[]): number =>
  rows.filter((row) => months.includes(monthOf(row))).reduce((sum, row) => sum + Number(row[column]), 0);

/** The file without its third column. */
const without = (csv: string): string[] =>
  csv.split("\n").map((line) => line.split(",").toSpliced(2, 1).join(","));

describe("debris.csv", () => {
  it("has a row for every day of the flow record, in its order", () => {
    expect(rows.map(({ date }) => date)).toEqual(demoRows("daily-flow.csv").map(({ date }) => date));
  });

  it("brings most leaves in autumn, most water plants in summer, and ice in winter only", () => {
    const all = [1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11, 12];
    expect(massIn("leaves [kg]", [10, 11]) / massIn("leaves [kg]", all)).toBeGreaterThan(0.5);
    expect(massIn("waterPlants [kg]", [6, 7, 8, 9]) / massIn("waterPlants [kg]", all)).toBeGreaterThan(0.7);
    expect(massIn("ice [kg]", [4, 5, 6, 7, 8, 9, 10, 11])).toBe(0);
  });

  it("brings wood with the floods: a tenth of the days with the highest flow bring most of it", () => {
    const ranked = flows
      .map(({ discharge }, at) => ({ discharge, wood: Number(rows[at]["wood [kg]"]) }))
      .toSorted((one, other) => other.discharge - one.discharge);
    const sum = (days: typeof ranked) => days.reduce((total, { wood }) => total + wood, 0);
    expect(sum(ranked.slice(0, Math.round(ranked.length / 10))) / sum(ranked)).toBeGreaterThan(0.35);
  });

  it.each(debrisTypes)(
    "has days of $type that scatter about season and flow as the truth says",
    ({ type }) => {
      const effects = ownEffects(type);
      const error = debrisTruth.daySpread / Math.sqrt(effects.length);
      expect(Math.abs(mean(effects) + debrisTruth.daySpread ** 2 / 2)).toBeLessThan(3 * error);
      expect(Math.abs(deviation(effects) - debrisTruth.daySpread)).toBeLessThan(3 * error);
    },
  );

  it("has as many days of ice as the spells give, within what twelve winters can differ", () => {
    const iced = debrisDays().filter(({ ice }) => ice > 0).length;
    const meanSpell = (debrisTruth.shortestSpell + debrisTruth.longestSpell) / 2;
    const spells = 12 * debrisTruth.spellsPerWinter;
    expect(Math.abs(iced / meanSpell - spells)).toBeLessThan(4 * Math.sqrt(spells));
  });

  it("changes one type only when only that type changes", () => {
    const more = debrisTypes.map((one) => (one.type === "wood" ? { ...one, baseMass: 24 } : one));
    expect(without(debrisCsv(debrisTruth, more))).toEqual(without(debrisCsv()));
    expect(debrisCsv(debrisTruth, more)).not.toBe(debrisCsv());
  });
});
