import { describe, expect, test } from "vitest";
import { energy, river, u } from "kernel-helpers";

const off = (value: number, printed: number): number => Math.abs(value - printed);

describe("power lost to a head loss: Çengel & Cimbala, Fluid Mechanics, example 5-13 (inputs printed)", () => {
  const given = { discharge: u.m3ps(100), efficiency: 0.8 };

  test("120 m less 35 m of irreversible losses at 100 m³/s and 80 % leave 66.7 MW", () => {
    expect(off(u.to.MW(energy.power({ ...given, head: u.m(120 - 35) })), 66.7)).toBeLessThanOrEqual(0.05);
  });

  test("a plant's day books those 35 m as the rack's loss", () => {
    const fixed = energy.efficiencyCurve([
      { discharge: u.m3ps(10), efficiency: 0.8 },
      { discharge: u.m3ps(100), efficiency: 0.8 },
    ]);
    const { days, total } = energy.operation({
      record: [{ date: "2026-01-01", discharge: u.m3ps(100) }],
      units: [fixed],
      residualFlow: u.m3ps(0),
      bypassFlow: u.m3ps(0),
      grossHead: u.m(120),
      channelWidth: u.m(10),
      channelDepth: u.m(5),
      rackLoss: () => u.m(35),
    });
    expect(off(u.to.MW(days[0].power), 66.7)).toBeLessThanOrEqual(0.05);
    expect(total.losses.rack / total.potential).toBeCloseTo(35 / 120, 12);
  });
});

describe("flow capture of ten days, author not identified, recomputed by hand", () => {
  const flows = [4.5, 3.0, 2.4, 1.9, 1.6, 1.3, 1.0, 0.6, 0.4, 0.25];
  const record = flows.map((flow, at) => ({
    date: `2026-03-${String(at + 1).padStart(2, "0")}`,
    discharge: u.m3ps(flow),
  }));

  test("a plant of 1.9 m³/s without other claims makes its potential of the 75.22 % that it captures", () => {
    const unit = energy.efficiencyCurve([
      { discharge: u.m3ps(0.2), efficiency: 1 },
      { discharge: u.m3ps(1.9), efficiency: 1 },
    ]);
    const { total } = energy.operation({
      record,
      units: [unit],
      residualFlow: u.m3ps(0),
      bypassFlow: u.m3ps(0),
      grossHead: u.m(10),
      channelWidth: u.m(2),
      channelDepth: u.m(1),
      rackLoss: () => u.m(0),
    });
    const allWater = 1000 * 9.81 * 10 * 86_400 * 16.95;
    expect(off(total.produced / allWater, 0.7522)).toBeLessThanOrEqual(0.00005);
    expect(total.produced / allWater).toBeCloseTo(river.capturedShare(record, u.m3ps(1.9)), 12);
  });
});

describe("annuity factor", () => {
  test("200,000 over 15 years at 7.5 % a year take 1,854.02 a month (NumPy 1.3 documentation, numpy.pmt; printed -1854.0247200054619)", () => {
    const monthly = energy.annuityFactor({ interestRate: 0.075 / 12, years: 12 * 15 });
    expect(off(200_000 * monthly, 1854.0247200054619)).toBeLessThanOrEqual(1e-6);
  });

  test("10 % over 10 years make 0.163, so that 1,000 are paid back with 163 a year (Wikipedia, Capital recovery factor; printed)", () => {
    const factor = energy.annuityFactor({ interestRate: 0.1, years: 10 });
    expect(off(factor, 0.163)).toBeLessThanOrEqual(0.0005);
    expect(off(1000 * factor, 163)).toBeLessThanOrEqual(0.5);
  });
});
