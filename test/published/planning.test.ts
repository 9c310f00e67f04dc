import { statistics, trial } from "kernel-helpers";
import { describe, expect, test } from "vitest";

/** Four errors of the simulation: one test in 16,000 strays further by chance. */
const within = (error: number): number => 4 * error;

describe("two independent proportions (documentation of R, power.prop.test; results printed in its examples)", () => {
  test("50 in each group, 0.50 against 0.75: power 0.740", () => {
    expect(statistics.independentPower({ first: 0.5, second: 0.75, trials: 50 })).toBeCloseTo(0.74, 3);
  });

  test("0.50 against 0.75 at a power of 0.90: 76.7 in each group", () => {
    expect(statistics.independentTrials({ first: 0.5, second: 0.75, power: 0.9 })).toBeCloseTo(76.7, 1);
  });

  test("50 in each group, 0.5 and a power of 0.90: 0.8026 is detectable", () => {
    expect(statistics.independentPower({ first: 0.5, second: 0.8026, trials: 50 })).toBeCloseTo(0.9, 3);
  });

  test("0.5 against 0.501 at 0.001 and a power of 0.90: 10451937 in each group", () => {
    const trials = statistics.independentTrials({ first: 0.5, second: 0.501, level: 0.999, power: 0.9 });
    expect(Math.round(trials)).toBe(10_451_937);
  });

  test("the simulation of clusters of one comes to 0.740 within 0.015: the approximation is no closer", () => {
    const { power } = statistics.clusteredPower({
      first: 0.5,
      second: 0.75,
      clusters: 50,
      clusterSize: 1,
      intraclassCorrelation: 0,
      seed: 1,
      simulations: 10_000,
    });
    expect(Math.abs(power - 0.74)).toBeLessThan(0.015);
  });
});

describe("cluster trial of two proportions (Donner & Klar 2000, as worked in the documentation of R's clusterPower, cpa.binary)", () => {
  const donner = {
    first: 0.1,
    clusterSize: 10,
    intraclassCorrelation: 0.1,
    seed: 1,
    simulations: 4000,
  };

  test("0.1 against 0.2, 10 in a cluster, correlation 0.1, power 0.8: more than 37 clusters, so 38", () => {
    const found = statistics.clustersForPower({ ...donner, second: 0.2, power: 0.8 });
    expect(Math.abs(found.clusters - 38)).toBeLessThanOrEqual(within(found.clustersError));
    expect(Math.ceil(found.approximateClusters)).toBe(38);
  });

  test("38 clusters, 0.1, power 0.8: 0.198922 is detectable", () => {
    const { first: share, ...rest } = donner;
    const { higher = Number.NaN, higherError = 0 } = statistics.detectableDifference({
      ...rest,
      share,
      clusters: 38,
      power: 0.8,
    });
    expect(Math.abs(higher - 0.198922)).toBeLessThan(within(higherError));
  });
});

describe("the survey taker's rule (Cochran 1977, Sampling Techniques, ch. 4; the number from memory)", () => {
  test("a share of 0.5 within 0.05 at 95 % takes 385 independent trials", () => {
    const fish = trial.fishForHalfWidth({ share: 0.5, halfWidth: 0.05, designEffect: 1 });
    expect(Math.ceil(fish)).toBe(385);
    // Wilson's interval is a little narrower at 0.5: n less z².
    const { binomialFish } = trial.runsForInterval({
      share: 0.5,
      halfWidth: 0.05,
      fishPerRun: 1,
      intraclassCorrelation: 0,
      seed: 1,
    });
    expect(Math.abs(binomialFish - (385 - 1.96 ** 2))).toBeLessThan(2);
  });
});
