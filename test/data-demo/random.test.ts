import { describe, expect, it } from "vitest";
import { seededDraws } from "../../data-demo/generators/random";

const COUNT = 20_000;

function mean(values: readonly number[]): number {
  return values.reduce((sum, value) => sum + value, 0) / values.length;
}

function deviation(values: readonly number[]): number {
  const middle = mean(values);
  return Math.sqrt(mean(values.map((value) => (value - middle) ** 2)));
}

function stream(seed: number): number[] {
  const draws = seededDraws(seed);
  return Array.from({ length: 20 }, () => draws.uniform());
}

describe("seededDraws", () => {
  it("repeats a stream for the same seed and parts it for the next seed", () => {
    expect(stream(11)).toEqual(stream(11));
    const other = stream(12);
    expect(stream(11).filter((value, index) => Math.abs(value - other[index]) < 1e-6)).toEqual([]);
  });

  it("normal keeps its mean and standard deviation within four standard errors", () => {
    const draws = seededDraws(1);
    const values = Array.from({ length: COUNT }, () => draws.normal(3, 2));
    expect(Math.abs(mean(values) - 3)).toBeLessThan((4 * 2) / Math.sqrt(COUNT));
    expect(Math.abs(deviation(values) - 2)).toBeLessThan((4 * 2) / Math.sqrt(2 * COUNT));
  });

  it("normal has the tails of the bell: 4.55 % beyond two standard deviations", () => {
    const draws = seededDraws(2);
    const beyond = Array.from({ length: COUNT }, () => draws.normal(0, 1)).filter((x) => Math.abs(x) > 2);
    expect(beyond.length / COUNT).toBeCloseTo(0.0455, 2);
  });

  it("lognormal has the stated median and spread of its logarithm", () => {
    const draws = seededDraws(3);
    const logs = Array.from({ length: COUNT }, () => Math.log(draws.lognormal(120, 0.3)));
    expect(Math.abs(mean(logs) - Math.log(120))).toBeLessThan((4 * 0.3) / Math.sqrt(COUNT));
    expect(Math.abs(deviation(logs) - 0.3)).toBeLessThan((4 * 0.3) / Math.sqrt(2 * COUNT));
  });

  it("categorical draws each index by its share, and one with share 0 never", () => {
    const draws = seededDraws(4);
    const counts = [0, 0, 0];
    for (let index = 0; index < COUNT; index++) counts[draws.categorical([1, 0, 3])]++;
    expect(counts[1]).toBe(0);
    expect(counts[2] / COUNT).toBeCloseTo(0.75, 1);
    expect(Math.abs(counts[2] / COUNT - 0.75)).toBeLessThan(4 * Math.sqrt((0.75 * 0.25) / COUNT));
  });

  it("categorical refuses shares that are negative, not numbers or all zero", () => {
    const draws = seededDraws(5);
    for (const shares of [[], [0, 0], [1, -1, 2], [Number.NaN, 1]]) {
      expect(() => draws.categorical(shares)).toThrow(`the shares are ${shares.join(", ")}; each must be`);
    }
  });

  it("integer reaches both ends and nothing beyond them", () => {
    const draws = seededDraws(6);
    const seen = new Set(Array.from({ length: 1000 }, () => draws.integer(2, 5)));
    expect([...seen].toSorted()).toEqual([2, 3, 4, 5]);
  });
});
