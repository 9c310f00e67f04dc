import { describe, expect, test } from "vitest";
import { energy, exercise, u } from "kernel-helpers";
import { plant, record, unit } from "../../energy/plant";
import { collectOutputs } from "../emitted";

describe("exercises of notebook 14", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");

  test("14.1 accepts half the bypass water's revenue, refuses all of it, and follows the price", () => {
    const inputs = { bypassLoss: u.MWh(300), pricePerMWh: 80 };
    exercise("14.1", inputs, 12_000);
    expect(verdict()).toContain("✓");
    exercise("14.1", inputs, 24_000);
    expect(verdict()).toContain("Hint");
    exercise("14.1", { ...inputs, pricePerMWh: 40 }, 6000);
    expect(verdict()).toContain("✓");
  });

  test("14.2 accepts the flow from which two units give more power than one, and spots litres", () => {
    // One unit at full discharge, the rest over the weir, or both at half the flow.
    let flow = 17;
    while (17 * unit(u.m3ps(17)) > flow * unit(u.m3ps(flow / 2))) flow += 0.001;
    exercise("14.2", { units: [unit, unit] }, u.m3ps(flow));
    expect(verdict()).toContain("✓");
    exercise("14.2", { units: [unit, unit] }, u.m3ps(17));
    expect(verdict()).toContain("Hint");
    exercise("14.2", { units: [unit, unit] }, u.Lps(flow));
    expect(verdict()).toContain("1/1000 times");
  });

  test("14.3 accepts the season with a weir that draws twice its share, refuses it without", () => {
    const season = {
      days: energy.operation({ ...plant, record: record(60) }).days,
      migration: [{ date: "2026-01-01", species: "eel", byDay: 0, byNight: 10 }],
      species: [{ species: "eel", bodyRatio: 0.03, classes: [{ totalLength: u.mm(400), count: 1 }] }],
      clearSpacing: u.mm(18),
      protection: () => 0.5,
      turbineSurvival: () => 0.6,
      protectedSurvival: 0.9,
      bypassSurvival: 1,
      weirSurvival: 1,
    };
    const weir = (2 * (60 - 34 - 1.36)) / 60;
    const atRack = ((1 - weir) * 34) / 35.36;
    exercise("14.3", { season }, 1 - atRack + atRack * 0.75);
    expect(verdict()).toContain("✓");
    exercise("14.3", { season }, energy.seasonSurvival(season).byNumbers);
    expect(verdict()).toContain("Hint");
  });

  test("14.4 accepts the investment whose annuity the points pay, refuses it without the lost revenue", () => {
    const inputs = { points: 5, worthOfPoint: 8000, lostRevenue: 4000, interestRate: 0.04, years: 30 };
    const factor = (0.04 * 1.04 ** 30) / (1.04 ** 30 - 1);
    exercise("14.4", inputs, 36_000 / factor);
    expect(verdict()).toContain("✓");
    exercise("14.4", inputs, 40_000 / factor);
    expect(verdict()).toContain("Hint");
  });
});
