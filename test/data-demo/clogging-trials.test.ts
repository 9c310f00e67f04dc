import { describe, expect, it } from "vitest";
import {
  cloggingTrials,
  cloggingTruth as truth,
  trialLoads,
  trialSpacings,
  trueLossFactor,
} from "../../data-demo/generators/clogging-trials";
import { demoRows } from "./files";
import { deviation, groupsBy, line, mean } from "./numbers";

const trials = demoRows("clogging-trials.csv").map((row) => ({
  configuration: row.configuration,
  clearSpacing: Number(row["clearSpacing [mm]"]),
  load: Number(row["leafMass [kg]"]) / Number(row["rackArea [m2]"]),
  clean: Number(row["cleanLoss [mm]"]),
  clogged: Number(row["cloggedLoss [mm]"]),
}));

/** ln(k − 1), over what the truth gives. */
const offTruth = trials.map((trial) =>
  Math.log((trial.clogged / trial.clean - 1) / (trueLossFactor(truth, trial) - 1)),
);

describe("clogging-trials.csv", () => {
  it("has four trials of each spacing and load, with clean loss and clogged loss", () => {
    const groups = groupsBy(trials, ({ configuration }) => configuration);
    expect(groups.size).toBe(trialSpacings.length * trialLoads.length);
    expect(new Set([...groups.values()].map((group) => group.length))).toEqual(new Set([4]));
    expect(trials.filter(({ clean, clogged }) => !(clogged > clean))).toEqual([]);
  });

  it("gives back the scale, and the scatter of the leaves with what the instruments add", () => {
    const error = deviation(offTruth) / Math.sqrt(offTruth.length);
    expect(Math.abs(mean(offTruth))).toBeLessThan(3 * error);
    expect(deviation(offTruth)).toBeGreaterThan(0.75 * truth.leafSpread);
    expect(deviation(offTruth)).toBeLessThan(1.4 * truth.leafSpread);
  });

  it("gives back the exponents of load and spacing", () => {
    const ofLoad = line(
      trials.map(({ load }) => Math.log(load)),
      offTruth,
    );
    const ofSpacing = line(
      trials.map(({ clearSpacing }) => Math.log(20 / clearSpacing)),
      offTruth,
    );
    expect(Math.abs(ofLoad.slope)).toBeLessThan(3 * ofLoad.slopeError);
    expect(Math.abs(ofSpacing.slope)).toBeLessThan(3 * ofSpacing.slopeError);
  });

  it("gives back the law to a rounding error where nothing scatters", () => {
    const quiet = { ...truth, leafSpread: 0, lossError: 0, velocityError: 0 };
    for (const { clearSpacing, leafMass, cleanLoss, cloggedLoss } of cloggingTrials(quiet)) {
      const load = leafMass / quiet.rackArea;
      expect(cloggedLoss / cleanLoss).toBeCloseTo(trueLossFactor(quiet, { load, clearSpacing }), 10);
    }
  });
});
