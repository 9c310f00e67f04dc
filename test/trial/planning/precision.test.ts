import { statistics, trial } from "kernel-helpers";
import { describe, expect, it } from "vitest";

const planned = { share: 0.8, fishPerRun: 4, intraclassCorrelation: 0.2, seed: 1 };

describe("trial.runsForInterval", () => {
  it("says in the words of a trial what statistics.clustersForWidth says", () => {
    const found = trial.runsForInterval({ ...planned, halfWidth: 0.08, inactiveShare: 0.25 });
    const same = statistics.clustersForWidth({
      share: 0.8,
      clusterSize: 4,
      countedShare: 0.75,
      intraclassCorrelation: 0.2,
      halfWidth: 0.08,
      seed: 1,
    });
    expect(found.runs).toBe(same.clusters);
    expect(found.fish).toBe(4 * same.clusters);
    expect(found.activeFish).toBe(3 * same.clusters);
    expect(found.halfWidth).toBe(same.halfWidth);
    expect(found.binomialFish).toBe(same.independentTrials);
    expect(found.denominator).toBe("active fish");
  });

  it("asks for more runs where fish stay inactive", () => {
    const all = trial.runsForInterval({ ...planned, halfWidth: 0.08 });
    const some = trial.runsForInterval({ ...planned, halfWidth: 0.08, inactiveShare: 0.3 });
    expect(some.runs).toBeGreaterThan(all.runs);
    expect(some.designEffect).toBeLessThan(all.designEffect);
  });

  it.each([
    [{ fishPerRun: 0 }, "fishPerRun is 0; it must be a whole number from 1 to 1000"],
    [{ inactiveShare: 1 }, "inactiveShare is 1; it must be at least 0 and below 1"],
  ])("refuses %o in the words of a trial", (change, sentence) => {
    expect(() => trial.runsForInterval({ ...planned, halfWidth: 0.08, ...change })).toThrow(
      `trial.runsForInterval: ${sentence}.`,
    );
  });
});

describe("trial.widthByRuns", () => {
  it("keeps the numbers of fish handled and active apart", () => {
    const [one] = trial.widthByRuns({ ...planned, inactiveShare: 0.25, runs: [20] });
    expect([one.runs, one.fish, one.activeFish]).toEqual([20, 80, 60]);
  });

  it("refuses a single run", () => {
    expect(() => trial.widthByRuns({ ...planned, runs: [20, 1] })).toThrow("trial.widthByRuns: runs[1] is 1");
  });
});

describe("trial.power, runsForPower and detectableDifference", () => {
  const two = { first: 0.5, second: 0.75, fishPerRun: 4, intraclassCorrelation: 0.2, seed: 1 };

  it("agree with each other", () => {
    const found = trial.runsForPower({ ...two, power: 0.8 });
    expect(trial.power({ ...two, runs: found.runs }).power).toBe(found.power);
    expect(trial.powerByRuns({ ...two, runs: [found.runs, 5] })[0].power).toBe(found.power);
    expect(found.fish).toBe(4 * found.runs);
    const { first: share, second, ...rest } = two;
    const nearest = trial.detectableDifference({ ...rest, share, power: 0.8, runs: found.runs });
    expect(Math.abs((nearest.higher ?? 0) - second)).toBeLessThan(0.02);
    expect(nearest.runs).toBe(found.runs);
  });

  it("refuse a single run", () => {
    expect(() => trial.power({ ...two, runs: 1 })).toThrow("trial.power: runs is 1");
  });
});
