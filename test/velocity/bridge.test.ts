import { describe, expect, test } from "vitest";
import { bridged } from "../../kernel-helpers/src/velocity/bridge";

describe("bridged", () => {
  const series = Array.from({ length: 60 }, (_, at) => 0.5 + 1e-5 * (at - 30) ** 3);

  test("follows a cubic across a gap exactly, and leaves good samples as they are", () => {
    const bad = series.map((_, at) => at >= 28 && at <= 31);
    const spoilt = series.map((value, at) => (bad[at] ? 99 : value));
    const found = bridged(spoilt, bad);
    found.forEach((value, at) => expect(value).toBeCloseTo(series[at], 9));
  });

  test("holds the level of the nearest good samples at an end, where a cubic would run away", () => {
    const bad = series.map((_, at) => at < 5);
    const found = bridged(series, bad);
    const level = series.slice(5, 17).reduce((sum, value) => sum + value, 0) / 12;
    found.slice(0, 5).forEach((value) => expect(value).toBeCloseTo(level, 12));
  });
});
