import * as fc from "fast-check";
import { statistics } from "kernel-helpers";
import { describe, expect, it } from "vitest";
import { cumulative } from "../../../kernel-helpers/src/statistics/planning/clusterLaw";
import { effectOf, studiesOf } from "../../../kernel-helpers/src/statistics/planning/studies";
import { anyClusters } from "../clusters";

const plan = { share: 0.8, clusterSize: 4, intraclassCorrelation: 0.2, seed: 1 };

/** Binomial probability, from factorials. */
function binomial(trials: number, count: number, share: number): number {
  let ways = 1;
  for (let at = 1; at <= count; at++) ways *= (trials - count + at) / at;
  return ways * share ** count * (1 - share) ** (trials - count);
}

/** Half the width of an interval. */
const halfOf = ({ lower, upper }: { readonly lower: number; readonly upper: number }): number =>
  (upper - lower) / 2;

describe("the beta-binomial clusters of a plan", () => {
  it("are binomial without correlation", () => {
    const steps = cumulative(7, 0.3, 0);
    let sum = 0;
    for (let count = 0; count <= 7; count++) {
      sum += binomial(7, count, 0.3);
      expect(steps[count]).toBeCloseTo(sum, 12);
    }
  });

  it("have the mean and the variance np(1 − p)(1 + (n − 1)ρ), for large clusters too", () => {
    for (const [size, share, correlation] of [
      [4, 0.8, 0.2],
      [2000, 0.95, 0.3],
      [300, 0.02, 0.9],
    ]) {
      const steps = cumulative(size, share, correlation);
      const chances = Array.from(steps, (step, at) => step - (at === 0 ? 0 : steps[at - 1]));
      const mean = chances.reduce((sum, chance, count) => sum + chance * count, 0);
      const variance = chances.reduce((sum, chance, count) => sum + chance * (count - mean) ** 2, 0);
      expect(mean / (size * share)).toBeCloseTo(1, 9);
      const expected = size * share * (1 - share) * (1 + (size - 1) * correlation);
      expect(variance / expected).toBeCloseTo(1, 8);
    }
  });

  it("are analysed as raoScott does", () => {
    fc.assert(
      fc.property(anyClusters, (clusters) => {
        const studies = studiesOf({
          law: { clusterSize: 1, intraclassCorrelation: 0 },
          share: 0.5,
          seed: 1,
          simulations: 1,
        });
        for (const { trials, successes } of clusters) {
          studies.counted[0] += 1;
          studies.trials[0] += trials;
          studies.successes[0] += successes;
          studies.squaredTrials[0] += trials ** 2;
          studies.squaredSuccesses[0] += successes ** 2;
          studies.products[0] += trials * successes;
        }
        expect(effectOf(studies, 0)).toBeCloseTo(statistics.raoScott({ clusters }).designEffect, 9);
      }),
    );
  });
});

describe("statistics.independentHalfWidth", () => {
  it("is the mean of Wilson's half widths over all counts", () => {
    const counts = Array.from({ length: 31 }, (_, count) => count);
    const mean = counts.reduce((sum, count) => {
      const interval = statistics.proportionInterval({ successes: count, trials: 30, level: 0.9 });
      return sum + binomial(30, count, 0.7) * halfOf(interval);
    }, 0);
    expect(statistics.independentHalfWidth({ share: 0.7, trials: 30, level: 0.9 })).toBeCloseTo(mean, 10);
  });
});

describe("statistics.widthByClusters", () => {
  it("is the binomial case to the simulation's error where the effect is given as 1 and nothing is alike", () => {
    const [found] = statistics.widthByClusters({
      ...plan,
      intraclassCorrelation: 0,
      designEffect: 1,
      clusters: [25],
    });
    const exact = statistics.independentHalfWidth({ share: 0.8, trials: 100 });
    expect(Math.abs(found.halfWidth - exact)).toBeLessThan(4 * found.monteCarloError);
  });

  it("is for clusters of one the mean of clusteredInterval over all counts, exactly known", () => {
    const [found] = statistics.widthByClusters({ ...plan, clusterSize: 1, clusters: [30] });
    const exact = Array.from({ length: 31 }, (_, count) => {
      const clusters = Array.from({ length: 30 }, (_one, at) => ({
        trials: 1,
        successes: at < count ? 1 : 0,
      }));
      return binomial(30, count, 0.8) * halfOf(statistics.clusteredInterval({ clusters }));
    }).reduce((sum, one) => sum + one, 0);
    expect(Math.abs(found.halfWidth - exact)).toBeLessThan(4 * found.monteCarloError);
  });

  it("narrows with more clusters and widens with the correlation, as n(1 + (m − 1)ρ) says", () => {
    const clusters = [10, 20, 40, 80];
    let before: readonly number[] = clusters.map(() => 0);
    for (const intraclassCorrelation of [0.05, 0.2, 0.4, 0.7]) {
      const widths = statistics
        .widthByClusters({ ...plan, intraclassCorrelation, clusters })
        .map((one) => one.halfWidth);
      widths.slice(1).forEach((width, at) => expect(width).toBeLessThan(widths[at]));
      widths.forEach((width, at) => expect(width).toBeGreaterThan(before[at]));
      before = widths;
    }
    const [large] = statistics.widthByClusters({ ...plan, clusters: [400] });
    expect(large.halfWidth).toBeCloseTo(1.96 * Math.sqrt((0.16 * 1.6) / 1600), 3);
  });

  it("covers the truth about as often as the level says with 40 clusters of four", () => {
    const [found] = statistics.widthByClusters({ ...plan, clusters: [40] });
    expect(found.coverage).toBeGreaterThan(0.93);
    expect(found.coverage).toBeLessThan(0.97);
  });

  it("counts trials that don't count as clusters that are smaller", () => {
    const clusters = [40];
    const [all] = statistics.widthByClusters({ ...plan, clusters });
    const [half] = statistics.widthByClusters({ ...plan, countedShare: 0.5, clusters });
    expect(half.countedTrials).toBe(80);
    expect(half.halfWidth).toBeGreaterThan(all.halfWidth);
    // Effect 1 + 3 · 0.5 · 0.2 on 80 trials, within the noise of a sample that small.
    expect(half.halfWidth / (1.96 * Math.sqrt((0.16 * 1.3) / 80))).toBeCloseTo(1, 1);
  });

  it("takes its sizes from a list, and unequal ones widen the interval", () => {
    const even = statistics.widthByClusters({ ...plan, clusterSize: 20, clusters: [20] })[0];
    const uneven = statistics.widthByClusters({ ...plan, clusterSize: [2, 38], clusters: [20] })[0];
    expect(uneven.countedTrials).toBe(even.countedTrials);
    expect(uneven.halfWidth).toBeGreaterThan(even.halfWidth);
  });

  it("gives the same for the same seed, in the order asked for", () => {
    const both = statistics.widthByClusters({ ...plan, clusters: [40, 10] });
    expect(both.map((one) => one.clusters)).toEqual([40, 10]);
    expect(statistics.widthByClusters({ ...plan, clusters: [40] })[0]).toEqual(both[0]);
    expect(statistics.widthByClusters({ ...plan, seed: 2, clusters: [40] })[0].halfWidth).not.toBe(
      both[0].halfWidth,
    );
  });

  it.each([
    [{ share: 1 }, "share is 1; it must be above 0 and below 1"],
    [{ clusterSize: 0 }, "clusterSize is 0; it must be a whole number from 1 to 10000"],
    [{ clusterSize: [] }, "clusterSize is an empty list; it needs at least one size"],
    [{ clusterSize: [4, 2.5] }, "clusterSize[1] is 2.5; it must be a whole number from 1 to 10000"],
    [{ intraclassCorrelation: 1 }, "intraclassCorrelation is 1; it must be at least 0 and below 1"],
    [{ countedShare: 0 }, "countedShare is 0; it must be above 0 and at most 1"],
    [{ level: 95 }, "level is 95; it must lie between 0 and 1, as 0.95 for a 95 % interval"],
    [{ designEffect: 0 }, "designEffect is 0; it must be above 0"],
    [{ seed: -1 }, "seed is -1; it must be a whole number from 0 to 4294967295"],
    [{ simulations: 5 }, "simulations is 5; it must be a whole number from 100 to 100000"],
    [{ clusters: [1] }, "clusters[0] is 1; it must be a whole number from 2 to 5000"],
  ])("refuses %o", (change, sentence) => {
    const attempt = () => statistics.widthByClusters({ ...plan, clusters: [10], ...change });
    expect(attempt).toThrow(RangeError);
    expect(attempt).toThrow(`statistics.widthByClusters: ${sentence}.`);
  });
});

const width = (trials: number) => statistics.independentHalfWidth({ share: 0.8, trials });

describe("statistics.clustersForWidth", () => {
  it("gives the fewest clusters that keep to the width: one less does not", () => {
    const found = statistics.clustersForWidth({ ...plan, halfWidth: 0.08 });
    const [less, same] = statistics.widthByClusters({
      ...plan,
      clusters: [found.clusters - 1, found.clusters],
    });
    expect(less.halfWidth).toBeGreaterThan(0.08);
    expect(same.halfWidth).toBeLessThanOrEqual(0.08);
    expect(found.halfWidth).toBe(same.halfWidth);
  });

  it("lies near the rule n(1 + (m − 1)ρ)/m, and nearer the more clusters there are", () => {
    const { clusters, approximateClusters, independentTrials, expectedEffect } = statistics.clustersForWidth({
      ...plan,
      halfWidth: 0.03,
    });
    expect(approximateClusters).toBeCloseTo((independentTrials * expectedEffect) / 4, 10);
    expect(expectedEffect).toBeCloseTo(1.6, 12);
    expect(Math.abs(clusters / approximateClusters - 1)).toBeLessThan(0.02);
  });

  it("has the independent trials of the binomial: one less is too wide", () => {
    const { independentTrials } = statistics.clustersForWidth({ ...plan, halfWidth: 0.08 });
    expect(width(independentTrials)).toBeLessThanOrEqual(0.08);
    expect(width(independentTrials - 1)).toBeGreaterThan(0.08);
  });

  it("asks for more clusters where most studies must keep to the width, not their mean", () => {
    const mean = statistics.clustersForWidth({ ...plan, halfWidth: 0.08 });
    const most = statistics.clustersForWidth({ ...plan, halfWidth: 0.08, assurance: 0.9 });
    expect(most.clusters).toBeGreaterThan(mean.clusters);
    expect(most.nineInTen).toBeLessThanOrEqual(0.08);
  });

  it("agrees between seeds within the error that it states", () => {
    const counts = [1, 2, 3, 4, 5].map((seed) =>
      statistics.clustersForWidth({ ...plan, seed, halfWidth: 0.04 }),
    );
    const mean = counts.reduce((sum, one) => sum + one.clusters, 0) / counts.length;
    // Whole numbers add up to one to the error.
    for (const one of counts)
      expect(Math.abs(one.clusters - mean)).toBeLessThanOrEqual(1 + 4 * one.clustersError);
  });

  it("says where few clusters, an interval that covers too seldom or no correlation make it doubtful", () => {
    expect(statistics.clustersForWidth({ ...plan, halfWidth: 0.25 }).cautions[0]).toMatch(
      /^\d clusters are few/,
    );
    const uneven = { ...plan, clusterSize: [2, 3, 300], halfWidth: 0.15 };
    expect(statistics.clustersForWidth(uneven).cautions.join(" ")).toContain(
      "less than the level of 95 % says",
    );
    const independent = { ...plan, intraclassCorrelation: 0, halfWidth: 0.08 };
    expect(statistics.clustersForWidth(independent).cautions.join(" ")).toContain("it seldom is");
  });

  it("refuses a width that no study could pay for", () => {
    expect(() => statistics.clustersForWidth({ ...plan, halfWidth: 0.001 })).toThrow(
      "statistics.clustersForWidth: halfWidth is 0.001; that would need more than 2500 clusters: ask for less.",
    );
    expect(() => statistics.clustersForWidth({ ...plan, halfWidth: 0.5 })).toThrow("halfWidth is 0.5");
  });
});
