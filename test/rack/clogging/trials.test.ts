import { describe, expect, test } from "vitest";
import { clogging, u } from "kernel-helpers";

const truth = { scale: 6, loadExponent: 1.3, spacingExponent: 0.5 };
const place = (load: number, spacing: number) => ({
  debrisMass: u.kg(load * 0.6),
  rackArea: u.m2(0.6),
  clearSpacing: u.mm(spacing),
});
const exact = (load: number, spacing: number): clogging.MeasuredFactor => ({
  ...place(load, spacing),
  lossFactor: clogging.lossFactor({ ...place(load, spacing), ...truth }),
});
const loads = [0.2, 0.5, 1, 1.6];
const spacings = [12, 18, 25];
const all = spacings.flatMap((spacing) => loads.map((load) => exact(load, spacing)));
const scattered = all.map((trial, at) => ({
  ...trial,
  lossFactor: 1 + (trial.lossFactor - 1) * (at % 2 === 0 ? 1.12 : 0.9),
}));

describe("clogging.reduceTrials", () => {
  const trial: clogging.CloggingTrial = {
    trialId: "K1",
    clearSpacing: u.mm(18),
    rackArea: u.m2(0.6),
    leafMass: u.kg(0.48),
    cleanLoss: u.mm(4.5),
    cloggedLoss: u.mm(27),
    lossError: u.mm(0.1),
  };

  test("gives load, factor, and the factor's error from both readings", () => {
    const [reduced] = clogging.reduceTrials([trial]);
    expect(reduced.load).toBeCloseTo(0.8, 12);
    expect(reduced.lossFactor).toBeCloseTo(6, 12);
    expect(reduced.relativeError).toBeCloseTo(Math.hypot(0.1 / 4.5, 0.1 / 27), 12);
  });

  test("names the trial and the reading that can't be", () => {
    expect(() => clogging.reduceTrials([{ ...trial, cleanLoss: u.mm(0) }])).toThrow(
      "clogging.reduceTrials, trial K1: cleanLoss is 0 mm; it must be above 0 mm.",
    );
    expect(() => clogging.reduceTrials([])).toThrow("there are no trials");
  });
});

describe("clogging.fitLaw", () => {
  test("gives back the law that the factors were made with, and no spread", () => {
    const fit = clogging.fitLaw(all);
    for (const [name, value] of Object.entries(truth)) {
      expect(Reflect.get(fit.coefficients, name)).toBeCloseTo(value, 6);
    }
    expect(fit.debrisSpread).toBeLessThan(1e-4);
  });

  test("finds the spread of the debris beside the errors of the readings", () => {
    const without = clogging.fitLaw(scattered);
    const within = clogging.fitLaw(scattered.map((trial) => ({ ...trial, relativeError: 0.06 })));
    expect(without.debrisSpread).toBeGreaterThan(0.08);
    expect(without.debrisSpread).toBeLessThan(0.16);
    expect(within.debrisSpread).toBeLessThan(without.debrisSpread);
    expect(clogging.fitLaw(scattered.map((trial) => ({ ...trial, relativeError: 0.5 }))).debrisSpread).toBe(
      0,
    );
    expect(within.method).toContain("the readings' errors");
  });

  test("holds the coefficients of what the trials had: range, parameters, residuals", () => {
    const fit = clogging.fitLaw(scattered);
    expect(fit.parameters.map(({ name }) => name)).toEqual(["scale", "loadExponent", "spacingExponent"]);
    expect(fit.range.load[0]).toBeCloseTo(0.2, 12);
    expect(fit.range.clearSpacing).toEqual([u.mm(12), u.mm(25)]);
    expect(fit.degreesOfFreedom).toBe(all.length - 3);
    expect(fit.lackOfFit).toBeUndefined();
    const repeated = [...scattered, ...scattered].map((trial, at) => ({
      ...trial,
      lossFactor: trial.lossFactor * (at < all.length ? 1.03 : 0.97),
      configuration: `${at % all.length}`,
    }));
    expect(clogging.fitLaw(repeated).lackOfFit?.pureErrorFreedom).toBe(all.length);
  });

  test("leaves the exponent of the spacing out where all trials have one spacing, and says so", () => {
    const fit = clogging.fitLaw(scattered.filter(({ clearSpacing }) => clearSpacing === u.mm(18)));
    expect(fit.coefficients.spacingExponent).toBe(0);
    expect(fit.parameters).toHaveLength(2);
    expect(fit.cautions[0]).toContain("one spacing");
  });

  test("lists every fault of the trials in one message", () => {
    const bad = [
      { ...all[0], lossFactor: -2 },
      { ...all[1], debrisMass: u.kg(0), trialId: "K7" },
      { ...all[2], relativeError: 0.02 },
    ];
    expect(() => clogging.fitLaw(bad)).toThrow(
      [
        "clogging.fitLaw: trial 1: lossFactor is -2; it must be above 0: clogged over clean head loss.",
        "clogging.fitLaw: trial K7: debrisMass is 0; it must be above 0 kg: the factor of a clean rack is 1 by definition.",
        "clogging.fitLaw: 1 of 3 trials have a relativeError; give it for all of them or for none.",
      ].join("\n"),
    );
    expect(() => clogging.fitLaw(all.slice(0, 2))).toThrow("it takes at least");
  });
});

describe("clogging.predictLaw", () => {
  const fit = clogging.fitLaw(scattered);

  test("gives the law's factor, within its confidence and that within the prediction", () => {
    const said = clogging.predictLaw(fit, place(0.8, 18));
    expect(said.lossFactor).toBeCloseTo(clogging.lossFactor({ ...place(0.8, 18), ...fit.coefficients }), 12);
    const { confidence, prediction } = said;
    expect(prediction[0]).toBeLessThan(confidence[0]);
    expect(confidence[0]).toBeLessThan(said.lossFactor);
    expect(said.lossFactor).toBeLessThan(confidence[1]);
    expect(confidence[1]).toBeLessThan(prediction[1]);
    expect(said.withinTestedRange).toBe(true);
  });

  test("says where it goes beyond the trials, in load and in spacing", () => {
    expect(clogging.predictLaw(fit, place(3, 30)).cautions).toEqual([
      "clogging.predictLaw: the load is 3 kg/m²; the trials had 0.2 to 1.6 kg/m², and the intervals hold no further.",
      "clogging.predictLaw: clearSpacing is 30 mm; the trials had 12 to 25 mm, and the intervals hold no further.",
    ]);
    expect(() => clogging.predictLaw(fit, place(0, 18))).toThrow("debrisMass is 0 kg");
  });
});

describe("the formulas of clogging", () => {
  test("a rack without debris has the factor 1, and zones that are alike are one zone", () => {
    expect(clogging.lossFactor({ ...place(0, 18), ...truth })).toBe(1);
    for (const reachedShare of [0, 0.3, 1]) {
      expect(clogging.zonesInParallel({ reachedShare, reachedFactor: 7, otherFactor: 7 })).toBeCloseTo(7, 10);
    }
  });

  test("a zone that lets nothing through leaves the velocity of the other: 1/r²", () => {
    const factor = clogging.zonesInParallel({ reachedShare: 0.8, reachedFactor: 1, otherFactor: 1e14 });
    expect(factor).toBeCloseTo(1 / 0.8 ** 2, 5);
  });

  test("warn of debris counted twice wherever a loss factor stands", () => {
    const loss = { cleanLossCoefficient: 0.5, approachVelocity: u.mps(0.5) };
    expect(clogging.headLoss.cautions({ ...loss, lossFactor: 3 }).join()).toContain(
      "counts the same debris twice",
    );
    expect(clogging.headLoss.cautions({ ...loss, lossFactor: 1 })).toEqual([]);
    expect(clogging.lossFactor.cautions({ ...place(1, 18), ...truth }).join()).toContain("twice");
  });

  test("a bar that lies close to its vortices gets a caution; water makes it slower", () => {
    const frequencies = { naturalFrequency: u.Hz(25), sheddingFrequency: u.Hz(20), leastRatio: 1.5 };
    expect(clogging.frequencyRatio.cautions(frequencies).join()).toContain("below the 1.5 asked for");
    expect(clogging.frequencyRatio.cautions({ ...frequencies, leastRatio: 1.2 })).toHaveLength(1);
    const bar = { barThickness: u.mm(8), barDepth: u.mm(60), span: u.m(0.6) };
    const inAir = clogging.naturalFrequency({ ...bar, addedMassCoefficient: 0 });
    expect(clogging.naturalFrequency({ ...bar, addedMassCoefficient: 1 })).toBeLessThan(inAir);
  });
});
