import { describe, expect, it } from "vitest";
import { dailyFlow, dailyFlowTruth } from "../../data-demo/generators/daily-flow";
import { demoRows } from "./files";

const record = demoRows("daily-flow.csv").map((row) => ({
  date: row.date,
  discharge: Number(row["discharge [m3/s]"]),
}));
const flows = record.map(({ discharge }) => discharge);

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function meanWhere(prefix: RegExp): number {
  return mean(record.filter(({ date }) => prefix.test(date)).map(({ discharge }) => discharge));
}

function correlation(values: readonly number[], lag: number): number {
  const middle = mean(values);
  const product = mean(values.slice(lag).map((value, index) => (value - middle) * (values[index] - middle)));
  return product / mean(values.map((value) => (value - middle) ** 2));
}

describe("daily-flow.csv", () => {
  it("has every day of twelve years once, in order, leap days included", () => {
    expect(record).toHaveLength(9 * 365 + 3 * 366);
    record.forEach(({ date }, index) => {
      const expected = new Date(Date.UTC(2012, 0, 1 + index)).toISOString().slice(0, 10);
      expect(date).toBe(expected);
    });
    expect(record[59].date).toBe("2012-02-29");
    expect(record[record.length - 1].date).toBe("2023-12-31");
  });

  it("has a mean of 41 m³/s within 1 %", () => {
    expect(Math.abs(mean(flows) - 41)).toBeLessThan(0.41);
  });

  it("reaches the design discharge of 34 m³/s on 45 to 55 % of the days", () => {
    const share = flows.filter((flow) => flow >= 34).length / flows.length;
    expect(share).toBeGreaterThan(0.45);
    expect(share).toBeLessThan(0.55);
  });

  it("has several floods of 150 to 320 m³/s and none above", () => {
    const peaks = flows.filter(
      (flow, index) => flow > 150 && flow === Math.max(...flows.slice(Math.max(0, index - 10), index + 11)),
    );
    expect(peaks.length).toBeGreaterThanOrEqual(5);
    expect(Math.max(...flows)).toBeLessThanOrEqual(320);
    expect(Math.max(...flows)).toBeGreaterThan(200);
  });

  it("has several droughts: five days and more in a row below 8 m³/s", () => {
    const spells: number[] = [];
    let length = 0;
    for (const flow of [...flows, Infinity]) {
      if (flow < 8) length++;
      else {
        if (length >= 5) spells.push(length);
        length = 0;
      }
    }
    expect(spells.length).toBeGreaterThanOrEqual(4);
    expect(Math.min(...flows)).toBeGreaterThan(2);
  });

  it("is high in spring and low in late summer", () => {
    expect(meanWhere(/-0[34]-/)).toBeGreaterThan(2.5 * meanWhere(/-0[89]-/));
  });

  it("has dry and wet years that differ by half and more", () => {
    const years = Array.from({ length: 12 }, (_, index) => meanWhere(new RegExp(`^${2012 + index}-`)));
    expect(Math.max(...years)).toBeGreaterThan(1.5 * Math.min(...years));
    expect(Math.max(...years)).toBeGreaterThan(1.2 * 41);
    expect(Math.min(...years)).toBeLessThan(0.8 * 41);
  });

  it("remembers: neighbouring days are alike, days a season apart are not", () => {
    const logs = flows.map(Math.log);
    expect(correlation(logs, 1)).toBeGreaterThan(0.95);
    expect(correlation(logs, 30)).toBeLessThan(0.8);
    expect(correlation(logs, 180)).toBeLessThan(0);
  });
});

describe("dailyFlow", () => {
  // Long records, so that sampling error is small beside the tolerances.
  const long = { ...dailyFlowTruth, firstYear: 1600, lastYear: 1999, yearSpread: 0 };

  it("gives back season and wetness from a long record without floods", () => {
    const rows = dailyFlow({ ...long, floodsPerYear: 0 });
    const logs = rows.map(({ discharge }) => Math.log(discharge));
    const middle = mean(logs);
    // Day 1 of the year on 1 January; 400 years hold a whole number of periods but for the leap days.
    const angle = rows.map(({ day }) => (2 * Math.PI * (day - rows[0].day + 1)) / 365.2425);
    const harmonic = (order: number) => {
      const cosine = 2 * mean(logs.map((value, index) => value * Math.cos(order * angle[index])));
      const sine = 2 * mean(logs.map((value, index) => value * Math.sin(order * angle[index])));
      return { cosine, sine, amplitude: Math.hypot(cosine, sine), phase: Math.atan2(sine, cosine) };
    };
    const annual = harmonic(1);
    const halfYear = harmonic(2);
    expect(Math.abs(annual.amplitude - long.annualAmplitude)).toBeLessThan(0.06);
    expect(Math.abs((annual.phase / (2 * Math.PI)) * 365.25 - long.annualPeakDay)).toBeLessThan(5);
    expect(Math.abs(halfYear.amplitude - long.halfYearAmplitude)).toBeLessThan(0.05);

    const residual = logs.map(
      (value, index) =>
        value -
        middle -
        annual.cosine * Math.cos(angle[index]) -
        annual.sine * Math.sin(angle[index]) -
        halfYear.cosine * Math.cos(2 * angle[index]) -
        halfYear.sine * Math.sin(2 * angle[index]),
    );
    const spread = Math.sqrt(mean(residual.map((value) => value ** 2)));
    expect(Math.abs(spread - long.wetnessSpread)).toBeLessThan(0.03);
    // Lag-one correlation of a second-order autoregression with roots a and b: (a + b) / (1 + ab).
    const { wetnessPersistence: a, wetnessSmoothing: b } = long;
    expect(correlation(residual, 1)).toBeCloseTo((a + b) / (1 + a * b), 3);
  });

  it("gives back the number and the recession of floods where nothing else moves", () => {
    const calm = {
      ...long,
      annualAmplitude: 0,
      halfYearAmplitude: 0,
      wetnessSpread: 0,
      floodsPerYear: 2,
      floodSeasonality: 0,
    };
    const discharges = dailyFlow(calm).map(({ discharge }) => discharge);
    const rises = discharges.filter(
      (flow, index) =>
        index > 0 && flow > discharges[index - 1] && !(discharges[index - 1] > discharges[index - 2]),
    );
    // 800 floods expected; some rise into another and are not seen apart.
    expect(rises.length).toBeGreaterThan(700);
    expect(rises.length).toBeLessThan(860);

    const dryWeather = discharges.reduce((least, flow) => Math.min(least, flow));
    const peak = discharges.findIndex(
      (flow, index) =>
        flow > 3 * dryWeather &&
        discharges.slice(index, index + 40).every((next, k, fall) => k === 0 || next < fall[k - 1]),
    );
    expect(peak).toBeGreaterThan(0);
    const left = (days: number) => (discharges[peak + days] - dryWeather) / (discharges[peak] - dryWeather);
    const { recessionFastDays: fast, recessionSlowDays: slow, recessionSlowShare: share } = calm;
    for (const days of [1, 5, 15]) {
      expect(left(days)).toBeCloseTo(
        (1 - share) * Math.exp(-days / fast) + share * Math.exp(-days / slow),
        1,
      );
    }
  });

  it("changes only the floods when only the seed of the floods changes", () => {
    const dry = { ...dailyFlowTruth, floodsPerYear: 0 };
    expect(dailyFlow({ ...dry, floodSeed: 1 })).toEqual(dailyFlow({ ...dry, floodSeed: 2 }));
    expect(dailyFlow({ ...dailyFlowTruth, floodSeed: 1 })).not.toEqual(
      dailyFlow({ ...dailyFlowTruth, floodSeed: 2 }),
    );
  });

  it("has the stated mean whatever the seed, also in a record of one year", () => {
    for (const lastYear of [2012, 2015]) {
      const values = dailyFlow({ ...dailyFlowTruth, lastYear, wetnessSeed: 9 }).map(
        ({ discharge }) => discharge,
      );
      expect(mean(values)).toBeCloseTo(41, 9);
    }
  });
});
