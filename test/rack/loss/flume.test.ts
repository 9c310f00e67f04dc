import { beforeAll, describe, expect, test } from "vitest";
import { readRecords, rackLoss, type Records, type Schema, u } from "kernel-helpers";
import { totalLoss } from "../../../kernel-helpers/src/rack/loss/flume/fromLevels";
import { rackLossFlumeTruth, rackLossTruths } from "../../../data-demo/generators/rack-loss-flume";

const instruments = { levelError: u.mm(0.15), dischargeError: 0.005 };
const flume = { flumeWidth: u.m(1) };
const racks = {
  barShape: "rectangular",
  barThickness: u.mm(8),
  clearSpacing: u.mm(18),
  supportShare: 0.05,
  rackAngle: u.deg(90),
  overlayShare: 0,
} as const;

const reading = (
  runId: string,
  run: rackLoss.FlumeRunKind,
  [litres, upstream, downstream]: readonly [number, number, number],
  more: Partial<rackLoss.FlumeReading> = {},
): rackLoss.FlumeReading => ({
  runId,
  run,
  ...flume,
  discharge: u.Lps(litres),
  upstreamLevel: u.mm(upstream),
  downstreamLevel: u.mm(downstream),
  ...(run === "rack" ? racks : {}),
  ...more,
});

const still = reading("S1", "still", [0, 400.4, 400]);
const empty = reading("E1", "empty", [200, 401.3, 400]);
const rack = reading("R1", "rack", [200, 412.4, 400]);

/** Velocity head of 200 L/s in a flume 1 m wide. */
const head = (depth: number): number => (0.2 / depth) ** 2 / (2 * 9.81);

const twoWrong = (): unknown =>
  rackLoss.reduceFlumeRuns(
    [still, empty, reading("R1", "rack", [0, 412, 400]), reading("R2", "rack", [900, 412, 400])],
    instruments,
  );

describe("the reduction of flume readings", () => {
  const { reference, runs, cautions } = rackLoss.reduceFlumeRuns([rack, empty, still], instruments);
  const [run] = runs;
  test("is Bernoulli's equation by hand: offset, velocity heads of both depths, friction", () => {
    const friction = (0.4009 - 0.4 + head(0.4009) - head(0.4)) / head(0.4009);
    expect(reference.offset.estimate).toBeCloseTo(0.0004, 12);
    expect(reference.friction.coefficient).toBeCloseTo(friction, 9);
    const byHand = (0.412 - 0.4 + head(0.412) - head(0.4)) / head(0.412) - friction;
    expect(run.lossCoefficient).toBeCloseTo(byHand, 9);
    expect(run.approachVelocity).toBeCloseTo(0.2 / 0.412, 12);
    expect(cautions).toEqual([]);
  });

  test("shows every height on the way, and they add up", () => {
    const { upstreamDepth, downstreamDepth, upstreamHead, downstreamHead, frictionLoss } = run.steps;
    expect(upstreamDepth - downstreamDepth + upstreamHead - downstreamHead).toBeCloseTo(
      run.steps.totalLoss,
      12,
    );
    expect(run.steps.totalLoss - frictionLoss).toBeCloseTo(run.steps.rackLoss, 12);
    expect(run.steps.rackLoss / upstreamHead).toBeCloseTo(run.lossCoefficient, 9);
  });

  test("carries the instruments' errors into the coefficient as a change of each reading does", () => {
    const moved = (more: Partial<rackLoss.FlumeReading>): number =>
      rackLoss.reduceFlumeRuns([{ ...rack, ...more }, empty, still], instruments).runs[0].lossCoefficient -
      run.lossCoefficient;
    const own = Math.hypot(
      moved({ upstreamLevel: u.mm(412.55) }),
      moved({ downstreamLevel: u.mm(400.15) }),
      moved({ discharge: u.Lps(201) }),
    );
    expect(own / run.standardError).toBeCloseTo(1, 2);
  });

  test("carries the errors of the reference into the shared error", () => {
    const moved = (readings: readonly rackLoss.FlumeReading[]): number =>
      rackLoss.reduceFlumeRuns(readings, instruments).runs[0].lossCoefficient - run.lossCoefficient;
    // One reading of the reference after the other, each off by its error.
    const common = Math.hypot(
      moved([rack, empty, { ...still, upstreamLevel: u.mm(400.55) }]),
      moved([rack, empty, { ...still, downstreamLevel: u.mm(400.15) }]),
      moved([rack, { ...empty, upstreamLevel: u.mm(401.45) }, still]),
      moved([rack, { ...empty, downstreamLevel: u.mm(400.15) }, still]),
      moved([rack, { ...empty, discharge: u.Lps(201) }, still]),
    );
    expect(common / run.commonError).toBeCloseTo(1, 2);
    expect(run.totalError).toBeCloseTo(Math.hypot(run.standardError, run.commonError), 12);
    expect(Math.hypot(...run.commonMoves)).toBeCloseTo(run.commonError, 12);
  });

  test("shrinks the shared error with more runs of the reference, and no other", () => {
    const repeated = Array.from({ length: 9 }, (_, at) => [
      { ...empty, runId: `E${at}` },
      { ...still, runId: `S${at}` },
    ]).flat();
    const [better] = rackLoss.reduceFlumeRuns([rack, ...repeated], instruments).runs;
    expect(better.commonError).toBeCloseTo(run.commonError / 3, 6);
    expect(better.standardError).toBeCloseTo(run.standardError, 6);
  });

  test("warns of a friction that changes with the discharge, of gauges that scatter, and of a gain of energy", () => {
    const odd = rackLoss.reduceFlumeRuns(
      [
        still,
        { ...still, runId: "S2", upstreamLevel: u.mm(402) },
        { ...empty, configuration: "a" },
        reading("E2", "empty", [260, 412, 400], { configuration: "b" }),
        reading("R1", "rack", [200, 400.5, 400]),
      ],
      instruments,
    );
    expect(odd.cautions.join("\n")).toMatch(
      /in still water the difference of the levels scatters by 1.13 mm/,
    );
    expect(odd.cautions.join("\n")).toMatch(/the friction of the empty flume differs between discharges/);
    expect(odd.cautions.join("\n")).toMatch(
      /the loss coefficient is below 0 in R1; a rack can't gain energy/,
    );
  });

  test.each([
    ["no still water", [rack, empty], "no run is in still water"],
    ["no empty flume", [rack, still], "no run is in the empty flume, so its friction can't be taken out"],
    ["no rack", [still, empty], "no run has a rack; there is nothing to reduce"],
    [
      "a discharge without reference",
      [reading("R1", "rack", [300, 412, 400]), empty, still],
      "run R1: discharge is 0.3 m³/s, but the empty flume was measured from 0.2 m³/s to 0.2 m³/s only",
    ],
    [
      "another flume",
      [reading("R1", "rack", [200, 412, 400], { flumeWidth: u.m(1.2) }), empty, still],
      "run R1: flumeWidth is 1.2 m, but the empty flume was measured at 1 m",
    ],
    [
      "a rack not described",
      [reading("R1", "rack", [200, 412, 400], { rackAngle: undefined, barShape: undefined }), empty, still],
      "run R1: rackAngle is missing; a run with a rack needs it.",
    ],
    ["a level of 0", [reading("R1", "rack", [200, 0, 400]), empty, still], "run R1: upstreamLevel is 0 m"],
    [
      "a rack without flow",
      [reading("R1", "rack", [0, 412, 400]), empty, still],
      'a run "rack" needs flowing water',
    ],
    [
      "still water that flows",
      [rack, empty, reading("S1", "still", [5, 400, 400])],
      "in still water it is 0",
    ],
    [
      "shooting flow",
      [reading("R1", "rack", [200, 412, 100]), empty, still],
      "run R1: rackLoss.fromLevels: downstreamDepth is 0.1 m, at which 0.2 m³/s flow with 2 m/s, shooting",
    ],
    [
      "a rack that can't be",
      [reading("R1", "rack", [200, 412, 400], { supportShare: 2 }), empty, still],
      "run R1: rack.blockage: supportShare is 2",
    ],
  ])("refuses %s with a sentence", (_, readings, sentence) => {
    const reduce = () => rackLoss.reduceFlumeRuns(readings, instruments);
    expect(reduce).toThrow(RangeError);
    expect(reduce).toThrow(sentence);
  });

  test("lists every run that it can't reduce, not the first alone", () => {
    expect(twoWrong).toThrow(/run R1: discharge.*\n.*run R1: discharge.*\n.*run R2: discharge/);
  });

  test("refuses errors of instruments that can't be", () => {
    expect(() =>
      rackLoss.reduceFlumeRuns([rack, empty, still], { ...instruments, levelError: u.mm(0) }),
    ).toThrow("levelError is 0 m; it must be above 0 m");
    expect(() =>
      rackLoss.reduceFlumeRuns([rack, empty, still], { ...instruments, dischargeError: 5 }),
    ).toThrow("dischargeError is 5; it must be at least 0 and below 0.5, a share of the discharge");
  });
});

test("the drop of the energy line in a hydraulic jump is the textbook's (h2 − h1)³/(4 h1 h2)", () => {
  // Chow, Open-Channel Hydraulics (1959), from memory; the depths of a jump follow from momentum, not from energy.
  const [upstreamDepth, discharge] = [0.1, 0.25];
  const froude2 = (discharge / upstreamDepth) ** 2 / (9.81 * upstreamDepth);
  const downstreamDepth = (upstreamDepth / 2) * (Math.sqrt(1 + 8 * froude2) - 1);
  const loss = totalLoss({ discharge, flumeWidth: 1, upstreamDepth, downstreamDepth });
  expect(loss).toBeCloseTo(
    (downstreamDepth - upstreamDepth) ** 3 / (4 * upstreamDepth * downstreamDepth),
    12,
  );
});

test.each([
  [{ run: "still", discharge: u.Lps(5) }, "discharge", "water flows in a run in still water"],
  [{ run: "empty", discharge: u.Lps(0) }, "discharge", 'no water flows in a run "empty"'],
  [{ run: "empty", barShape: "foil" }, "barShape", 'the run "empty" has a barShape'],
  [{ run: "rack", discharge: u.Lps(5) }, "rackAngle", "the rack of this run has no rackAngle; add it"],
])("the record's rules find %j", (row, column, sentence) => {
  const schema: Schema = rackLoss.flumeRecord;
  const rules = (schema.rules ?? []).filter((rule) => rule.columns[0] === column);
  expect(rules).toHaveLength(1);
  const [rule] = rules;
  if (!("fault" in rule)) throw new Error("a rule of one row is expected");
  expect(rule.fault(row)).toContain(sentence);
});

describe("repeatability", () => {
  test("is the pooled standard deviation, and finds the spread beyond the instruments", () => {
    const off = [0.03, -0.03, 0.05, -0.05];
    const runs = off.map((by, at) => ({
      configuration: at < 2 ? "A" : "B",
      lossCoefficient: 1 + by,
      standardError: 0.02,
    }));
    const { standardDeviation, expected, chiSquare, settingUp, degreesOfFreedom } =
      rackLoss.repeatability(runs);
    expect(standardDeviation).toBeCloseTo(Math.sqrt((2 * 0.03 ** 2 + 2 * 0.05 ** 2) / 2), 12);
    expect(expected).toBeCloseTo(0.02, 12);
    expect(chiSquare).toBeCloseTo((2 * 0.03 ** 2 + 2 * 0.05 ** 2) / 0.02 ** 2, 9);
    expect(degreesOfFreedom).toBe(2);
    expect(settingUp).toBeCloseTo(Math.sqrt(0.0034 - 0.02 ** 2), 9);
    const calm = rackLoss.repeatability(runs.map((run) => ({ ...run, standardError: 0.1 })));
    expect(calm.settingUp).toBe(0);
  });

  test("does without errors of the runs, and not without repeats", () => {
    const plain = rackLoss.repeatability([
      { configuration: "A", lossCoefficient: 1 },
      { configuration: "A", lossCoefficient: 1.2 },
      { lossCoefficient: 7 },
    ]);
    expect(plain.standardDeviation).toBeCloseTo(0.1 * Math.SQRT2, 12);
    expect([plain.runs, plain.expected, plain.settingUp]).toEqual([2, undefined, undefined]);
    expect(() => rackLoss.repeatability([{ configuration: "A", lossCoefficient: 1 }])).toThrow(
      "rackLoss.repeatability: no configuration was run twice",
    );
  });
});

describe("the demo's flume", () => {
  let records: Records<typeof rackLoss.flumeRecord>;
  beforeAll(async () => {
    records = await readRecords("rack-loss-flume.csv", rackLoss.flumeRecord);
  });

  test("is read by the schema of the record as it is", () => {
    expect(records.rows).toHaveLength(198);
  });

  test("covers the truth behind it: offset, friction and every coefficient of the law", () => {
    const { reference, runs } = rackLoss.reduceFlumeRuns(records.rows, instruments);
    const { offset, friction } = reference;
    expect(Math.abs(u.to.mm(offset.estimate) - rackLossFlumeTruth.gaugeOffset)).toBeLessThan(
      2 * u.to.mm(offset.standardError),
    );
    expect(Math.abs(friction.coefficient - rackLossFlumeTruth.emptyFlumeCoefficient)).toBeLessThan(
      2 * friction.standardError,
    );
    const { laws } = rackLoss.fitLaw(runs);
    expect(laws).toHaveLength(3);
    for (const law of laws) {
      const truth = rackLossTruths.find(({ barShape }) => barShape === law.barShape);
      expect(law.parameters).toHaveLength(4);
      for (const { name, lower, upper } of law.parameters) {
        const value = Reflect.get(truth ?? {}, name) as unknown;
        expect(value, `${name} of ${law.barShape}`).toBeGreaterThan(lower);
        expect(value, `${name} of ${law.barShape}`).toBeLessThan(upper);
      }
    }
  });

  test("repeats scatter by the instruments and the setting-up that the data's README names", () => {
    const { runs } = rackLoss.reduceFlumeRuns(records.rows, instruments);
    const { settingUp, configurations } = rackLoss.repeatability(runs);
    expect(configurations).toBe(84);
    expect(settingUp).toBeGreaterThan(0.5 * rackLossFlumeTruth.installationSpread);
    expect(settingUp).toBeLessThan(2 * rackLossFlumeTruth.installationSpread);
  });

  test("has a friction that one coefficient describes at all discharges", () => {
    const { friction } = rackLoss.reduceFlumeRuns(records.rows, instruments).reference;
    expect(friction.byDischarge).toHaveLength(3);
    expect(friction.pValue).toBeGreaterThan(0.05);
  });
});
