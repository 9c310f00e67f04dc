import { statistics } from "kernel-helpers";
import { describe, expect, it } from "vitest";
import { uniforms } from "../../../kernel-helpers/src/statistics/random";
import { drawClusters } from "../clusters";

const plan = { first: 0.5, second: 0.75, clusterSize: 4, intraclassCorrelation: 0.2, seed: 1 };

describe("statistics.clusteredPower", () => {
  it("is exact for clusters of one: the sum over all pairs of counts that raoScottComparison finds different", () => {
    const clusters = 12;
    const chances = (share: number): readonly number[] => {
      let chance = (1 - share) ** clusters;
      return Array.from({ length: clusters + 1 }, (_, count) => {
        const own = chance;
        chance *= ((clusters - count) / (count + 1)) * (share / (1 - share));
        return own;
      });
    };
    const single = (count: number) =>
      Array.from({ length: clusters }, (_, at) => ({ trials: 1, successes: at < count ? 1 : 0 }));
    let exact = 0;
    chances(0.3).forEach((one, count) =>
      chances(0.8).forEach((other, otherCount) => {
        if (count + otherCount === 0 || count + otherCount === 2 * clusters) return;
        const groups = [
          { name: "a", clusters: single(count) },
          { name: "b", clusters: single(otherCount) },
        ];
        if (statistics.raoScottComparison({ groups }).pValue < 0.05) exact += one * other;
      }),
    );
    const found = statistics.clusteredPower({
      ...plan,
      first: 0.3,
      second: 0.8,
      clusterSize: 1,
      clusters,
      simulations: 10_000,
    });
    expect(Math.abs(found.power - exact)).toBeLessThan(4 * found.monteCarloError);
  });

  it("is what another sampler and the public test find, run by run", () => {
    const uniform = uniforms(99);
    let found = 0;
    const studies = 1500;
    for (let done = 0; done < studies; done++) {
      const group = (mean: number) => drawClusters(uniform, { count: 15, size: 4, mean, correlation: 0.2 });
      const groups = [
        { name: "a", clusters: group(0.5) },
        { name: "b", clusters: group(0.75) },
      ];
      if (statistics.raoScottComparison({ groups }).pValue < 0.05) found += 1;
    }
    const { power, monteCarloError } = statistics.clusteredPower({ ...plan, clusters: 15 });
    const error = Math.hypot(monteCarloError, Math.sqrt((power * (1 - power)) / studies));
    expect(Math.abs(power - found / studies)).toBeLessThan(4 * error);
  });

  it("rises with the clusters and falls with the correlation", () => {
    const powers = [5, 10, 20, 40].map((clusters) => statistics.clusteredPower({ ...plan, clusters }).power);
    powers.slice(1).forEach((power, at) => expect(power).toBeGreaterThan(powers[at]));
    const alike = [0, 0.2, 0.5].map(
      (intraclassCorrelation) =>
        statistics.clusteredPower({ ...plan, intraclassCorrelation, clusters: 20 }).power,
    );
    alike.slice(1).forEach((power, at) => expect(power).toBeLessThan(alike[at]));
  });

  it("is the same from studies that grow, in the order asked for", () => {
    const points = statistics.powerByClusters({ ...plan, clusters: [20, 5] });
    expect(points.map((one) => one.clusters)).toEqual([20, 5]);
    for (const { clusters, power } of points)
      expect(power).toBe(statistics.clusteredPower({ ...plan, clusters }).power);
  });

  it("finds a difference where there is none in about 5 % of studies, in too many where clusters are few", () => {
    const many = statistics.clusteredPower({ ...plan, second: 0.5, clusters: 40 });
    expect(many.power).toBeGreaterThan(0.035);
    expect(many.power).toBeLessThan(0.07);
    const few = statistics.clusteredPower({
      ...plan,
      intraclassCorrelation: 0.5,
      clusters: 4,
      simulations: 5000,
    });
    expect(few.falseAlarms).toBeGreaterThan(0.06);
    expect(few.cautions.join(" ")).toContain("part of the power is false");
  });

  it("has the normal approximation of the effective trials beside it", () => {
    const { approximatePower, expectedEffect } = statistics.clusteredPower({ ...plan, clusters: 20 });
    expect(expectedEffect).toBeCloseTo(1.6, 12);
    expect(approximatePower).toBeCloseTo(
      statistics.independentPower({ first: 0.5, second: 0.75, trials: 80 / 1.6 }),
      12,
    );
  });

  it.each([
    [{ first: 0 }, "first is 0; it must be above 0 and below 1"],
    [{ second: 1.2 }, "second is 1.2; it must be above 0 and below 1"],
    [{ clusters: 1 }, "clusters is 1; it must be a whole number from 2 to 5000"],
  ])("refuses %o", (change, sentence) => {
    const attempt = () => statistics.clusteredPower({ ...plan, clusters: 10, ...change });
    expect(attempt).toThrow(RangeError);
    expect(attempt).toThrow(`statistics.clusteredPower: ${sentence}.`);
  });
});

describe("statistics.clustersForPower", () => {
  it("gives clusters that reach the power, near those of the normal approximation", () => {
    const found = statistics.clustersForPower({ ...plan, power: 0.8 });
    expect(found.power).toBeGreaterThanOrEqual(0.8);
    expect(Math.abs(found.clusters - found.approximateClusters)).toBeLessThan(3);
    expect(found.power).toBe(statistics.clusteredPower({ ...plan, clusters: found.clusters }).power);
  });

  it("refuses equal shares and differences that no study could find", () => {
    expect(() => statistics.clustersForPower({ ...plan, second: 0.5, power: 0.8 })).toThrow(
      "first and second are both 0.5; no number of clusters tells them apart.",
    );
    expect(() => statistics.clustersForPower({ ...plan, second: 0.501, power: 0.8 })).toThrow(
      "from 0.5 to 0.501 is too small a difference",
    );
    expect(() => statistics.clustersForPower({ ...plan, power: 1 })).toThrow("power is 1");
  });
});

describe("statistics.detectableDifference", () => {
  const { first: share, second: _second, ...rest } = plan;
  const of = (clusters: number, from: number) =>
    statistics.detectableDifference({ ...rest, share: from, clusters, power: 0.8 });

  it("gives shares that are found with the wanted power", () => {
    const { higher = 0, lower = 0 } = statistics.detectableDifference({
      ...rest,
      share,
      clusters: 21,
      power: 0.8,
    });
    for (const second of [higher, lower]) {
      const { power } = statistics.clusteredPower({ ...plan, second, clusters: 21 });
      expect(Math.abs(power - 0.8)).toBeLessThan(0.01);
    }
    expect(higher + lower).toBeCloseTo(1, 1);
  });

  it("comes nearer with more clusters, and has none above where even 1 is found too seldom", () => {
    expect(of(60, 0.5).higher ?? 1).toBeLessThan(of(20, 0.5).higher ?? 1);
    const high = of(8, 0.9);
    expect(high.higher).toBeUndefined();
    expect(high.higherError).toBeUndefined();
    expect(high.lower).toBeLessThan(0.6);
  });
});
