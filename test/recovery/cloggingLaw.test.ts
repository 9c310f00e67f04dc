import { describe, expect, test } from "vitest";
import { clogging, u } from "kernel-helpers";
import {
  cloggingTrials,
  cloggingTruth,
  type CloggingTruth,
} from "../../data-demo/generators/clogging-trials";
import { type Coverage, coverageOf, type Recovered } from "./coverage";

/** Trials of a campaign as their record would hold them, rounded like the file. */
const campaign = (seed: number, truth: CloggingTruth) =>
  clogging.reduceTrials(
    cloggingTrials({ ...truth, seed: 20_000 + 2 * seed }).map((trial, at) => ({
      trialId: `K${at + 1}`,
      configuration: trial.configuration,
      clearSpacing: u.mm(trial.clearSpacing),
      rackArea: u.m2(truth.rackArea),
      leafMass: u.kg(Number(trial.leafMass.toFixed(2))),
      cleanLoss: u.mm(Number(trial.cleanLoss.toFixed(2))),
      cloggedLoss: u.mm(Number(trial.cloggedLoss.toFixed(2))),
      lossError: u.mm(truth.lossError),
    })),
  );

const names = ["scale", "loadExponent", "spacingExponent"] as const;

function recovered(fit: clogging.CloggingFit): Recovered[] {
  return names.map((name) => {
    const parameter = fit.parameters.find((one) => one.name === name);
    if (parameter === undefined) throw new Error(`the fit has no ${name}`);
    return { parameter: name, truth: cloggingTruth[name], lower: parameter.lower, upper: parameter.upper };
  });
}

/** One more rack of another campaign, read without error, beside what this campaign predicts for it. */
function oneMore(fit: clogging.CloggingFit, seed: number): Recovered {
  const exact = { ...cloggingTruth, lossError: 0, velocityError: 0, seed: 50_000 + 2 * seed };
  const trials = cloggingTrials(exact);
  const other = trials[seed % trials.length];
  const { prediction } = clogging.predictLaw(fit, {
    debrisMass: u.kg(other.leafMass),
    rackArea: u.m2(exact.rackArea),
    clearSpacing: u.mm(other.clearSpacing),
  });
  return {
    parameter: "one more rack in the prediction interval",
    truth: other.cloggedLoss / other.cleanLoss,
    lower: prediction[0],
    upper: prediction[1],
  };
}

const shareOf = (coverage: readonly Coverage[], parameter: string): number =>
  coverage.find((one) => one.parameter === parameter)?.share ?? Number.NaN;

describe("the fitted law of clogging, from the readings of 200 campaigns", () => {
  test("holds the truth in 90 to 99 % of the 95 % intervals, where the truth is such a law", () => {
    const coverage = coverageOf("clogging law", (seed) => {
      const fit = clogging.fitLaw(campaign(seed, cloggingTruth));
      return [...recovered(fit), oneMore(fit, seed)];
    });
    expect(coverage).toHaveLength(4);
    for (const { share } of coverage) {
      expect(share).toBeGreaterThanOrEqual(0.9);
      expect(share).toBeLessThanOrEqual(0.99);
    }
  });

  test("outside the family: leaves that hide behind each other spoil scale and load exponent, not that of the spacing", () => {
    const coverage = coverageOf("clogging law, truth outside the family", (seed) => {
      // Half of what a kilogram a square metre adds is gone at 3 kg/m²: k − 1 is divided by 1 + load/3.
      const trials = campaign(seed, cloggingTruth).map((trial) => ({
        ...trial,
        lossFactor: 1 + (trial.lossFactor - 1) / (1 + trial.load / 3),
      }));
      return recovered(clogging.fitLaw(trials));
    });
    expect(shareOf(coverage, "scale")).toBeLessThan(0.1);
    expect(shareOf(coverage, "loadExponent")).toBeLessThan(0.5);
    expect(shareOf(coverage, "spacingExponent")).toBeGreaterThanOrEqual(0.9);
  });
});
