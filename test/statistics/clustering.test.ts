import * as fc from "fast-check";
import { statistics } from "kernel-helpers";
import { describe, expect, it } from "vitest";
import { uniforms } from "../../kernel-helpers/src/statistics/random";
import { anyClusters, clusters, drawClusters, informative } from "./clusters";

const four = clusters([4, 4], [3, 4], [1, 4], [4, 4]);

describe("statistics.intraclassCorrelation", () => {
  it("is the analysis of variance, by hand 3/7 for 4, 3, 1 and 4 of 4", () => {
    // Mean squares 1.5/3 between and 1.5/12 inside: (0.5 − 0.125)/(0.5 + 3 · 0.125).
    expect(statistics.intraclassCorrelation({ clusters: four })).toBeCloseTo(3 / 7, 14);
  });

  it("is 1 where every cluster is all or nothing, and below 0 where all have the same share", () => {
    expect(statistics.intraclassCorrelation({ clusters: clusters([3, 3], [0, 3], [5, 5]) })).toBe(1);
    expect(statistics.intraclassCorrelation({ clusters: clusters([2, 4], [2, 4], [2, 4]) })).toBeCloseTo(
      -1 / 3,
      14,
    );
  });

  it("does not change when successes and failures change places", () => {
    fc.assert(
      fc.property(anyClusters.filter(informative), (some) => {
        const turned = some.map(({ successes, trials }) => ({ successes: trials - successes, trials }));
        const one = statistics.intraclassCorrelation({ clusters: some });
        expect(statistics.intraclassCorrelation({ clusters: turned })).toBeCloseTo(one, 9);
      }),
    );
  });

  it.each([
    [clusters([4, 4]), "clusters has 1 of them; spread between clusters needs at least 2"],
    [
      clusters([1, 1], [0, 1]),
      "every cluster has one trial; trials of one cluster can't be compared with each other",
    ],
    [clusters([4, 4], [3, 3]), "7 of 7 trials succeeded; where all end the same way it is unknown"],
    [clusters([4, 4], [5, 4]), "clusters[1].successes is 5; it must be a whole number from 0 to 4"],
    [clusters([4, 4], [0, 0]), "clusters[1].trials is 0; it must be a whole number of at least 1"],
  ])("refuses %o", (some, sentence) => {
    const attempt = () => statistics.intraclassCorrelation({ clusters: some });
    expect(attempt).toThrow(RangeError);
    expect(attempt).toThrow(`statistics.intraclassCorrelation: ${sentence}.`);
  });
});

describe("statistics.designEffect", () => {
  it("is 1 + (m − 1)ρ with m = Σm²/Σm", () => {
    const uneven = clusters([1, 2], [3, 6]);
    expect(statistics.designEffect({ clusters: uneven, intraclassCorrelation: 0.5 })).toBeCloseTo(
      1 + 4 * 0.5,
      14,
    );
    expect(statistics.designEffect({ clusters: uneven, intraclassCorrelation: 0 })).toBe(1);
    expect(statistics.designEffect({ clusters: four, intraclassCorrelation: 1 })).toBe(4);
  });

  it("refuses a correlation outside −1..1", () => {
    expect(() => statistics.designEffect({ clusters: four, intraclassCorrelation: 1.2 })).toThrow(
      "statistics.designEffect: intraclassCorrelation is 1.2; it must be at least -1 and at most 1.",
    );
  });
});

describe("statistics.raoScott", () => {
  it("is by hand 8/3 for 4, 3, 1 and 4 of 4", () => {
    // Squared residuals 1 + 0 + 4 + 1; 16 · (4/3) · 6/256 over 0.75 · 0.25.
    const got = statistics.raoScott({ clusters: four });
    expect(got.designEffect).toBeCloseTo(8 / 3, 14);
    expect(got.effectiveTrials).toBeCloseTo(6, 14);
    expect(got.effectiveSuccesses).toBeCloseTo(4.5, 14);
  });

  it("has about the effect k/(k − 1) where each cluster is one trial: then nothing is clustered", () => {
    const single = clusters([1, 1], [0, 1], [1, 1], [1, 1], [0, 1]);
    expect(statistics.raoScott({ clusters: single }).designEffect).toBeCloseTo(5 / 4, 14);
  });

  it("takes an effect below 1 as 1 and says so, unless told to keep it", () => {
    const even = clusters([2, 4], [2, 4], [3, 4]);
    const careful = statistics.raoScott({ clusters: even });
    expect(careful).toMatchObject({ designEffect: 1, effectFrom: "estimated below 1, taken as 1" });
    const kept = statistics.raoScott({ clusters: even, atLeastOne: false });
    expect(kept.designEffect).toBe(careful.estimatedEffect);
    expect(kept.designEffect).toBeLessThan(1);
  });

  it("counts each cluster as one trial where all trials ended the same way, and says so", () => {
    const got = statistics.raoScott({ clusters: clusters([4, 4], [4, 4], [4, 4]) });
    expect(got).toMatchObject({ effectiveTrials: 3, effectiveSuccesses: 3, estimatedEffect: undefined });
    expect(got.effectFrom).toContain("each cluster taken as one trial");
  });

  it("uses a given effect", () => {
    expect(statistics.raoScott({ clusters: four, designEffect: 2 })).toMatchObject({
      designEffect: 2,
      effectFrom: "given",
      effectiveTrials: 8,
    });
    expect(() => statistics.raoScott({ clusters: four, designEffect: 0 })).toThrow(
      "statistics.raoScott: designEffect is 0; it must be above 0.",
    );
  });
});

describe("statistics.clusteredInterval", () => {
  it("holds its estimate inside 0..1 and is never narrower than Wilson's interval of independent trials", () => {
    fc.assert(
      fc.property(anyClusters, (some) => {
        const got = statistics.clusteredInterval({ clusters: some });
        const plain = statistics.proportionInterval({ successes: got.successes, trials: got.trials });
        expect(got.lower).toBeGreaterThanOrEqual(0);
        expect(got.upper).toBeLessThanOrEqual(1);
        expect(got.lower).toBeLessThanOrEqual(got.estimate);
        expect(got.upper).toBeGreaterThanOrEqual(got.estimate);
        expect(got.upper - got.lower).toBeGreaterThanOrEqual(plain.upper - plain.lower - 1e-12);
      }),
    );
  });

  it("is Wilson's interval of half the counts at a given effect of 2", () => {
    const got = statistics.clusteredInterval({ clusters: four, designEffect: 2 });
    const half = statistics.proportionInterval({ successes: 6, trials: 8 });
    expect([got.lower, got.upper]).toEqual([half.lower, half.upper]);
  });

  it("covers a share of clustered trials where the interval of independent trials does not (200 seeded sets)", () => {
    const uniform = uniforms(20);
    let [clustered, independent] = [0, 0];
    for (let set = 0; set < 200; set++) {
      const drawn = drawClusters(uniform, { count: 40, size: 4, mean: 0.75, correlation: 0.4 });
      const got = statistics.clusteredInterval({ clusters: drawn });
      const plain = statistics.proportionInterval({ successes: got.successes, trials: got.trials });
      if (got.lower <= 0.75 && 0.75 <= got.upper) clustered += 1;
      if (plain.lower <= 0.75 && 0.75 <= plain.upper) independent += 1;
    }
    expect(clustered / 200).toBeGreaterThanOrEqual(0.9);
    expect(clustered / 200).toBeLessThanOrEqual(0.99);
    expect(independent / 200).toBeLessThan(0.9);
  });
});

describe("statistics.clusteredDifference", () => {
  it("is Newcombe's interval of the effective counts, and turns its sign with the order", () => {
    const other = clusters([1, 4], [2, 4], [0, 4]);
    const one = statistics.clusteredDifference({ first: four, second: other });
    const turned = statistics.clusteredDifference({ first: other, second: four });
    expect(one.estimate).toBeCloseTo(0.75 - 0.25, 14);
    expect(one.lower).toBeCloseTo(-turned.upper, 14);
    expect(one.first).toMatchObject({
      effectiveTrials: statistics.raoScott({ clusters: four }).effectiveTrials,
    });
  });

  it("is wider than the difference of independent trials", () => {
    const other = clusters([1, 4], [4, 4], [0, 4]);
    const one = statistics.clusteredDifference({ first: four, second: other });
    const plain = statistics.differenceInterval({
      first: { successes: 12, trials: 16 },
      second: { successes: 5, trials: 12 },
    });
    expect(one.upper - one.lower).toBeGreaterThan(plain.upper - plain.lower);
  });
});

describe("statistics.raoScottComparison", () => {
  const groups = [
    { name: "dark", clusters: clusters([4, 4], [4, 4], [0, 4], [4, 4]) },
    { name: "light", clusters: clusters([0, 4], [4, 4], [0, 4], [0, 4]) },
  ];

  it("shows how a significant difference vanishes: runs of four that are all or nothing count as one fish each", () => {
    const { pValue, unadjusted, groups: shown } = statistics.raoScottComparison({ groups });
    // Pearson's chi-square of 12 of 16 against 4 of 16, by hand: 32 · (12 · 12 − 4 · 4)²/16⁴.
    expect(unadjusted.statistic).toBeCloseTo(8, 12);
    expect(unadjusted.pValue).toBeLessThan(0.005);
    expect(pValue).toBeGreaterThan(0.05);
    expect(shown.map(({ name }) => name)).toEqual(["dark", "light"]);
  });

  it("takes three groups with two degrees of freedom, and equal groups give no difference", () => {
    const same = [
      ...groups.slice(0, 1),
      { ...groups[0], name: "again" },
      { ...groups[0], name: "once more" },
    ];
    const { statistic, degreesOfFreedom, pValue } = statistics.raoScottComparison({ groups: same });
    expect(statistic).toBeCloseTo(0, 12);
    expect(degreesOfFreedom).toBe(2);
    expect(pValue).toBeCloseTo(1, 12);
  });

  it("refuses one group, two of one name and groups in which nothing differs", () => {
    expect(() => statistics.raoScottComparison({ groups: groups.slice(0, 1) })).toThrow(
      "statistics.raoScottComparison: groups has 1 of them; a comparison needs at least 2.",
    );
    expect(() => statistics.raoScottComparison({ groups: [groups[0], groups[0]] })).toThrow(
      'two groups are named "dark"; each needs a name of its own.',
    );
    const all = clusters([4, 4], [4, 4]);
    expect(() =>
      statistics.raoScottComparison({
        groups: [
          { name: "a", clusters: all },
          { name: "b", clusters: all },
        ],
      }),
    ).toThrow("16 of 16 trials succeeded; where all end the same way nothing can differ.");
  });
});

describe("statistics.clusterBootstrap", () => {
  const runs = drawClusters(uniforms(3), { count: 40, size: 4, mean: 0.7, correlation: 0.3 });

  it("gives the same interval for the same seed and another for another", () => {
    const one = statistics.bootstrapInterval({ clusters: runs, seed: 7 });
    expect(statistics.bootstrapInterval({ clusters: runs, seed: 7 })).toEqual(one);
    expect(statistics.bootstrapInterval({ clusters: runs, seed: 8 }).values).not.toEqual(one.values);
  });

  it("comes near the standard error of Rao and Scott", () => {
    const { standardError, estimate, lower, upper, caution } = statistics.bootstrapInterval({
      clusters: runs,
      seed: 7,
    });
    const { effectiveTrials } = statistics.raoScott({ clusters: runs });
    const byHand = Math.sqrt((estimate * (1 - estimate)) / effectiveTrials);
    expect(standardError / byHand).toBeGreaterThan(0.93);
    expect(standardError / byHand).toBeLessThan(1.07);
    expect(lower).toBeLessThan(estimate);
    expect(upper).toBeGreaterThan(estimate);
    expect(caution).toBeUndefined();
  });

  it("draws whole clusters of any kind and counts resamples without a value", () => {
    const got = statistics.clusterBootstrap({
      clusters: ["a", "b", "c"],
      seed: 1,
      resamples: 3000,
      statistic: (sample) => (sample.every((one) => one === "a") ? Number.NaN : new Set(sample).size),
    });
    expect([...new Set(got.values)]).toEqual([1, 2, 3]);
    // All three drawn as "a" in one of 27 resamples: 111 of 3000, with a standard deviation of 10.
    expect(got.withoutValue).toBeGreaterThan(70);
    expect(got.withoutValue).toBeLessThan(150);
    expect(got.values.length + got.withoutValue).toBe(3000);
  });

  it("cautions where there are few clusters, and where they show no spread", () => {
    expect(statistics.bootstrapInterval({ clusters: four, seed: 1 }).caution).toContain("Only 4 clusters");
    const all = statistics.bootstrapInterval({ clusters: clusters([4, 4], [4, 4]), seed: 1 });
    expect([all.lower, all.upper]).toEqual([1, 1]);
    expect(all.caution).toContain("Every resample gives the same value");
  });

  it.each([
    [{ seed: 1.5 }, "seed is 1.5; it must be a whole number from 0 to 4294967295"],
    [{ seed: -1 }, "seed is -1; it must be a whole number from 0 to 4294967295"],
    [{ seed: 1, resamples: 10 }, "resamples is 10; it must be a whole number from 100 to 1000000"],
    [{ seed: 1, level: 1 }, "level is 1; it must lie between 0 and 1, as 0.95 for a 95 % interval"],
  ])("refuses %o", (options, sentence) => {
    expect(() => statistics.bootstrapInterval({ clusters: four, ...options })).toThrow(
      `statistics.clusterBootstrap: ${sentence}.`,
    );
  });

  it("refuses a statistic that never has a finite value", () => {
    expect(() =>
      statistics.clusterBootstrap({ clusters: [1, 2], seed: 1, statistic: () => Number.NaN }),
    ).toThrow("statistics.clusterBootstrap: none of 2000 resamples gave the statistic a finite value.");
  });
});
