import { rack, rackLoss, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";
import {
  flumeReadings,
  lawCoefficient,
  rackLossFlumeCsv,
  rackLossFlumeTruth as flume,
  rackLossTruths,
  viscosity,
} from "../../data-demo/generators/rack-loss-flume";
import { demoRows } from "./files";
import { deviation, groupsBy, line, mean } from "./numbers";

const runs = demoRows("rack-loss-flume.csv").map((row) => ({
  runId: row.runId,
  run: row.run,
  configuration: row.configuration,
  barShape: row.barShape,
  clearSpacing: Number(row["clearSpacing [mm]"]),
  rackAngle: Number(row["rackAngle [deg]"]),
  overlayShare: Number(row.overlayShare),
  temperature: Number(row["temperature [degC]"]),
  discharge: Number(row["discharge [L/s]"]) / 1000,
  upstream: Number(row["upstreamLevel [mm]"]) / 1000,
  downstream: Number(row["downstreamLevel [mm]"]) / 1000,
  rackCells: [
    "barShape",
    "barThickness [mm]",
    "clearSpacing [mm]",
    "supportShare",
    "rackAngle [deg]",
    "overlayShare",
  ].map((column) => row[column]),
}));
type Run = (typeof runs)[number];

const racks = runs.filter(({ run }) => run === "rack");
const still = runs.filter(({ run }) => run === "still");
const offset = mean(still.map(({ upstream, downstream }) => upstream - downstream));

/** Head loss between the gauges over the upstream velocity head. */
function between({ discharge, upstream, downstream }: Run): number {
  const head = (level: number) => (discharge / (flume.flumeWidth * level)) ** 2 / (2 * 9.81);
  const depth = upstream - offset;
  return (depth + head(depth) - downstream - head(downstream)) / head(depth);
}

const reference = mean(runs.filter(({ run }) => run === "empty").map(between));

function coefficient(run: Run): number {
  return between(run) - reference;
}

function blockageTerm({ clearSpacing }: Run): number {
  const open = (clearSpacing / (clearSpacing + flume.barThickness)) * (1 - flume.supportShare);
  return (1 - open) / open;
}

function barReynolds({ discharge, upstream, temperature }: Run): number {
  return ((discharge / upstream / flume.flumeWidth) * (flume.barThickness / 1000)) / viscosity(temperature);
}

/** Logarithm of the coefficient without the trend outside the law: what is left is the law and the errors. */
function reduced(run: Run): number {
  return Math.log(coefficient(run) / (barReynolds(run) / flume.referenceReynolds) ** flume.reynoldsExponent);
}

function sine({ rackAngle }: Run): number {
  return Math.log(Math.sin((rackAngle * Math.PI) / 180));
}

function blockage(run: Run): number {
  return Math.log(blockageTerm(run));
}

function withoutFoils(csv: string): string[] {
  return csv.split("\n").filter((row) => !row.includes(",foil,"));
}

describe("rack-loss-flume.csv", () => {
  it("has 198 runs: 168 with a rack, 24 in the empty flume, 6 in still water", () => {
    expect(racks).toHaveLength(168);
    expect(runs.filter(({ run }) => run === "empty")).toHaveLength(24);
    expect(still).toHaveLength(6);
    expect(new Set(runs.map(({ runId }) => runId)).size).toBe(198);
  });

  it("repeats every configuration of a rack once, at the same nominal conditions", () => {
    const configurations = [...groupsBy(racks, ({ configuration }) => configuration).values()];
    expect(new Set(configurations.map((group) => group.length))).toEqual(new Set([2]));
    for (const [one, other] of configurations) {
      expect(one.rackCells).toEqual(other.rackCells);
      expect(Math.abs(one.discharge / other.discharge - 1)).toBeLessThan(0.06);
    }
  });

  it("leaves the rack's columns empty exactly where there was no rack", () => {
    for (const { run, rackCells } of runs) {
      expect(rackCells.filter((cell) => cell === "")).toHaveLength(run === "rack" ? 0 : rackCells.length);
    }
  });

  it("flows subcritically throughout, at an approach velocity of 0.2 to 0.8 m/s", () => {
    for (const { discharge, downstream, upstream } of runs.filter(({ run }) => run !== "still")) {
      expect(discharge / downstream / Math.sqrt(9.81 * downstream)).toBeLessThan(0.5);
      expect(discharge / upstream).toBeGreaterThan(0.2);
      expect(discharge / upstream).toBeLessThan(0.8);
    }
  });

  it("shows the offset of the gauges in still water, and the friction in the empty flume", () => {
    const error = (flume.levelError * Math.SQRT2) / Math.sqrt(still.length) / 1000;
    expect(Math.abs(offset - flume.gaugeOffset / 1000)).toBeLessThan(3 * error);
    expect(Math.abs(reference - flume.emptyFlumeCoefficient)).toBeLessThan(0.02);
  });

  it("orders the shapes as measurements do: rectangular above rounded above foil", () => {
    const [rectangular, rounded, foil] = rackLossTruths.map(({ barShape }) =>
      mean(racks.filter((run) => run.barShape === barShape).map(coefficient)),
    );
    expect(rectangular).toBeGreaterThan(rounded * 1.1);
    expect(rounded).toBeGreaterThan(foil * 1.1);
  });
});

describe.each(rackLossTruths)("the reduced runs with $barShape bars give back the truth:", (truth) => {
  const ofShape = racks.filter(({ barShape }) => barShape === truth.barShape);
  const plain = ofShape.filter(({ overlayShare }) => overlayShare === 0);
  // Weak losses are read badly: only those several times the error of the levels count.
  const strong = plain.filter((run) => coefficient(run) > 0.15);

  it("exponents of blockage and angle", () => {
    const alongBlockage = line(
      strong.map(blockage),
      strong.map((run) => reduced(run) - truth.angleExponent * sine(run)),
    );
    expect(Math.abs(alongBlockage.slope - truth.blockageExponent)).toBeLessThan(3 * alongBlockage.slopeError);
    expect(alongBlockage.slopeError).toBeLessThan(0.1);
    const alongAngle = line(
      strong.map(sine),
      strong.map((run) => reduced(run) - truth.blockageExponent * blockage(run)),
    );
    expect(Math.abs(alongAngle.slope - truth.angleExponent)).toBeLessThan(3 * alongAngle.slopeError);
    expect(alongAngle.slopeError).toBeLessThan(0.1);
  });

  it("scale, and the coefficient of overlays", () => {
    const leftovers = strong.map(
      (run) => reduced(run) - truth.blockageExponent * blockage(run) - truth.angleExponent * sine(run),
    );
    expect(Math.abs(Math.exp(mean(leftovers)) / truth.scale - 1)).toBeLessThan(0.03);
    const covered = ofShape.filter(({ overlayShare, rackAngle }) => overlayShare > 0 && rackAngle === 90);
    const slopes = covered.map(
      (run) =>
        (Math.exp(reduced(run)) / (truth.scale * blockageTerm(run) ** truth.blockageExponent) - 1) /
        run.overlayShare,
    );
    const error = deviation(slopes) / Math.sqrt(slopes.length - 1);
    expect(Math.abs(mean(slopes) - truth.overlayCoefficient)).toBeLessThan(3 * error + 0.1);
  });
});

describe("the flume without errors", () => {
  const quiet = { ...flume, levelError: 0, gaugeOffset: 0, dischargeError: 0, installationSpread: 0 };

  it("gives back the law to a rounding error where no trend of the Reynolds number is left", () => {
    const readings = flumeReadings({ ...quiet, reynoldsExponent: 0 }).filter(({ run }) => run === "rack");
    for (const reading of readings) {
      const shape = rackLossTruths.find(({ barShape }) => barShape === reading.barShape) ?? rackLossTruths[0];
      const [discharge, upstream, downstream] = [
        reading.discharge,
        reading.upstreamLevel,
        reading.downstreamLevel,
      ].map((value) => value / 1000);
      const head = (level: number) => (discharge / level) ** 2 / (2 * 9.81);
      const total = (upstream + head(upstream) - downstream - head(downstream)) / head(upstream);
      expect(total - flume.emptyFlumeCoefficient).toBeCloseTo(lawCoefficient(quiet, shape, reading), 9);
    }
  });

  it("loses less, in relation, at a higher Reynolds number: the part of the truth outside the law", () => {
    const ofRack = flumeReadings(quiet).filter(
      ({ barShape, clearSpacing, rackAngle, overlayShare }) =>
        barShape === "rectangular" && clearSpacing === 18 && rackAngle === 90 && overlayShare === 0,
    );
    const perDischarge = [140, 260].map((flow) => {
      const [reading] = ofRack.filter(({ setDischarge }) => setDischarge === flow);
      const head = (level: number) => (reading.discharge / level) ** 2 / (2 * 9.81);
      const fall = (reading.upstreamLevel - reading.downstreamLevel) / 1000;
      return (
        fall / head(reading.upstreamLevel) + 1 - head(reading.downstreamLevel) / head(reading.upstreamLevel)
      );
    });
    expect(perDischarge[1]).toBeLessThan(perDischarge[0]);
  });

  it("changes one shape only when only that shape changes", () => {
    const worse = rackLossTruths.map((shape) => (shape.barShape === "foil" ? { ...shape, scale: 2 } : shape));
    expect(withoutFoils(rackLossFlumeCsv(flume, worse))).toEqual(withoutFoils(rackLossFlumeCsv()));
    expect(rackLossFlumeCsv(flume, worse)).not.toBe(rackLossFlumeCsv());
  });
});

describe("the law behind the flume", () => {
  it.each(rackLossTruths)("is rackLoss.fitted for $barShape bars", (shape) => {
    const run = {
      run: "rack",
      configuration: "",
      clearSpacing: 18,
      rackAngle: 38,
      overlayShare: 0.1,
      setDischarge: 200,
    } as const;
    const expected = rackLoss.fitted({
      scale: shape.scale,
      blockageExponent: shape.blockageExponent,
      angleExponent: shape.angleExponent,
      overlayCoefficient: shape.overlayCoefficient,
      blockage: rack.blockage({
        barThickness: u.mm(flume.barThickness),
        clearSpacing: u.mm(run.clearSpacing),
        supportShare: flume.supportShare,
      }),
      rackAngle: u.deg(run.rackAngle),
      overlayShare: run.overlayShare,
    });
    expect(lawCoefficient(flume, shape, run)).toBeCloseTo(expected, 12);
  });
});

describe("viscosity", () => {
  it.each([
    [10, 1.307],
    [20, 1.004],
    [30, 0.801],
    [15, 1.139],
  ])("at %i °C is that of the water tables within half a percent", (temperature, expected) => {
    expect(Math.abs(viscosity(temperature) / (expected * 1e-6) - 1)).toBeLessThan(0.005);
  });
});
