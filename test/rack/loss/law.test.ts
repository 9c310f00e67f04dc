import { beforeAll, describe, expect, test } from "vitest";
import { rack, rackLoss, readRecords, u } from "kernel-helpers";

const truth = { scale: 2.4, blockageExponent: 1.5, angleExponent: 1.2, overlayCoefficient: 2 };

/** Runs on a law with errors that are fixed and small; `twice` runs each rack two times. */
const runsOn = (
  law: rackLoss.LawCoefficients,
  { barShape = "rectangular", overlays = [0, 0.1, 0.2], angles = [30, 45, 60, 90], error = 0.01 } = {},
): rackLoss.MeasuredLoss[] =>
  [0.25, 0.35, 0.45].flatMap((blockage) =>
    angles.flatMap((angle) =>
      overlays.flatMap((overlayShare) =>
        [1, 2].map((turn) => {
          const place = { blockage, rackAngle: u.deg(angle), overlayShare };
          const wobble = Math.sin(1000 * blockage + 17 * angle + 300 * overlayShare + 5 * turn);
          return {
            barShape,
            ...place,
            configuration: `${barShape} ${blockage} ${angle} ${overlayShare}`,
            lossCoefficient: rackLoss.fitted({ ...law, ...place }) + error * wobble,
            standardError: error,
          };
        }),
      ),
    ),
  );

describe("the fit of the loss law", () => {
  const fit = rackLoss.fitLaw(runsOn(truth));
  const [law] = fit.laws;

  test("finds a law that the runs follow, within three of its errors", () => {
    expect(law.parameters.map(({ name }) => name)).toEqual([
      "scale",
      "blockageExponent",
      "angleExponent",
      "overlayCoefficient",
    ]);
    for (const { name, standardError, estimate } of law.parameters) {
      const value = Reflect.get(truth, name) as number; // a number of the record above
      expect(Math.abs(estimate - value)).toBeLessThan(3 * standardError);
      expect(Reflect.get(law.coefficients, name)).toBe(estimate);
    }
  });

  test("gives each run its prediction and residual, in the order of the laws", () => {
    expect(fit.runs).toHaveLength(72);
    for (const run of fit.runs) {
      const { blockage, rackAngle, overlayShare } = run;
      const predicted = rackLoss.fitted({ ...law.coefficients, blockage, rackAngle, overlayShare });
      expect(run.predicted).toBeCloseTo(predicted, 9);
      expect(run.residual).toBeCloseTo(run.lossCoefficient - predicted, 9);
      expect(run.relativeResidual).toBeCloseTo(run.residual / predicted, 9);
    }
    expect(law.range.blockage).toEqual([0.25, 0.45]);
    expect(law.range.overlayShare).toEqual([0, 0.2]);
  });

  test("predicts a rack with an interval for the law and a wider one for one more run", () => {
    const at = { barShape: "rectangular", blockage: 0.4, rackAngle: u.deg(38), overlayShare: 0.05 };
    const prediction = rackLoss.predictLaw(fit, at);
    expect(prediction.confidence[0]).toBeLessThan(prediction.lossCoefficient);
    expect(prediction.prediction[0]).toBeLessThan(prediction.confidence[0]);
    expect(prediction.prediction[1]).toBeGreaterThan(prediction.confidence[1]);
    expect(prediction.withinTestedRange).toBe(true);
    const wide = rackLoss.predictLaw(fit, { ...at, level: 0.99 });
    expect(wide.prediction[1]).toBeGreaterThan(prediction.prediction[1]);
  });

  test("says where a prediction leaves the runs, and refuses a shape that was not fitted", () => {
    const at = { barShape: "rectangular", blockage: 0.6, rackAngle: u.deg(25) };
    const { cautions, withinTestedRange } = rackLoss.predictLaw(fit, at);
    expect(withinTestedRange).toBe(false);
    expect(cautions).toEqual([
      "rackLoss.predictLaw: blockage is 0.6; the runs with rectangular bars had 0.25 to 0.45, and the intervals hold no further.",
      "rackLoss.predictLaw: rackAngle is 25°; the runs with rectangular bars had 30° to 90°, and the intervals hold no further.",
    ]);
    expect(() => rackLoss.predictLaw(fit, { ...at, barShape: "foil" })).toThrow(
      'rackLoss.predictLaw: barShape is "foil"; the fit knows rectangular.',
    );
    expect(() => rackLoss.predictLaw(fit, { ...at, blockage: 1.2 })).toThrow("blockage is 1.2");
  });

  test("lets an error that all runs share widen the intervals, not the residuals", () => {
    const shared = rackLoss.fitLaw(runsOn(truth).map((run) => ({ ...run, commonMoves: [0.05, 0.01] })));
    expect(shared.laws[0].parameters[0].standardError).toBeGreaterThan(2 * law.parameters[0].standardError);
    expect(shared.laws[0].coefficients).toEqual(law.coefficients);
    expect(shared.laws[0].residualStandardError).toBe(law.residualStandardError);
    expect(shared.laws[0].lackOfFit).toEqual(law.lackOfFit);
  });

  test("weighs a run by its error: a bad run with a large one hardly moves the law", () => {
    const runs = runsOn(truth);
    const spoilt = (standardError: number) =>
      rackLoss.fitLaw(
        runs.map((run, at) =>
          at === 0
            ? { ...run, configuration: "alone", lossCoefficient: run.lossCoefficient + 0.5, standardError }
            : run,
        ),
      ).laws[0].coefficients.blockageExponent;
    const clean = law.coefficients.blockageExponent;
    expect(Math.abs(spoilt(1) - clean)).toBeLessThan(0.02 * Math.abs(spoilt(0.01) - clean));
  });

  test("does without errors and repeats: all runs weigh the same, and the method says so", () => {
    const plain = rackLoss.fitLaw(
      runsOn(truth).map(({ barShape, blockage, rackAngle, overlayShare, lossCoefficient }) => ({
        barShape,
        blockage,
        rackAngle,
        overlayShare,
        lossCoefficient,
      })),
    );
    expect(plain.method).toContain("all runs weigh the same");
    expect(fit.method).toContain("weights from the runs' own errors and the spread between settings-up");
    expect([plain.repeatability, plain.laws[0].lackOfFit]).toEqual([undefined, undefined]);
    expect(plain.laws[0].coefficients.blockageExponent).toBeCloseTo(1.5, 1);
  });

  test("leaves the overlays out where no run has any, with a caution", () => {
    const bare = rackLoss.fitLaw(runsOn(truth, { overlays: [0] }));
    expect(bare.laws[0].coefficients.overlayCoefficient).toBe(0);
    expect(bare.laws[0].parameters).toHaveLength(3);
    expect(bare.cautions).toEqual([
      "rackLoss.fitLaw: no run of rectangular has overlays; overlayCoefficient 0 stands for what was not measured.",
    ]);
  });

  test("refuses coefficients that the runs can't tell apart, with the shape", () => {
    expect(() => rackLoss.fitLaw(runsOn(truth, { angles: [45] }))).toThrow(
      /rackLoss.fitLaw, rectangular: .*angleExponent changes the fitted values in the same way as scale/,
    );
    expect(() => rackLoss.fitLaw(runsOn(truth, { angles: [90] }))).toThrow(
      "angleExponent changes no fitted value",
    );
    expect(() => rackLoss.fitLaw(runsOn(truth).slice(0, 4))).toThrow("can't be fitted to 4 rows with errors");
  });

  test("refuses runs in which racks gain energy", () => {
    const gaining = runsOn(truth).map((run) => ({ ...run, lossCoefficient: -run.lossCoefficient }));
    expect(() => rackLoss.fitLaw(gaining)).toThrow(
      /^rackLoss.fitLaw, rectangular: the scale comes out as -2\.\d+; most loss coefficients lie below 0/,
    );
  });

  test("lists every run that can't be", () => {
    const [good] = runsOn(truth);
    const wrong = [
      { ...good, runId: "A", blockage: 1.1 },
      { ...good, rackAngle: u.deg(120) },
      { ...good, overlayShare: -0.1 },
      { ...good, lossCoefficient: Number.NaN },
      { ...good, standardError: 0 },
    ];
    expect(() => rackLoss.fitLaw(wrong)).toThrow(
      [
        "rackLoss.fitLaw: run A: blockage is 1.1; it must be above 0 and below 1.",
        "rackLoss.fitLaw: run 2: rackAngle is 120°; it must be above 0° and at most 90°.",
        "rackLoss.fitLaw: run 3: overlayShare is -0.1; it must be at least 0 and below 1.",
        "rackLoss.fitLaw: run 4: lossCoefficient is NaN; it must be a number.",
        "rackLoss.fitLaw: run 5: standardError is 0; it must be above 0, or be left out for every run.",
      ].join("\n"),
    );
    expect(() => rackLoss.fitLaw([])).toThrow("there are no runs to fit a law to");
  });

  test("lets shapes share their exponents, and the repeats say when they should not", () => {
    const alike = [...runsOn(truth), ...runsOn({ ...truth, scale: 1.3 }, { barShape: "foil" })];
    const apart = [
      ...runsOn(truth),
      ...runsOn({ ...truth, scale: 1.3, angleExponent: 1.6 }, { barShape: "foil" }),
    ];
    const shared = rackLoss.fitLaw(alike, { sharing: "a factor by shape" });
    const [one, other] = shared.laws;
    expect(one.coefficients.angleExponent).toBe(other.coefficients.angleExponent);
    expect(other.coefficients.scale).toBeCloseTo(1.3, 1);
    expect(rackLoss.fitLaw(apart, { sharing: "a factor by shape" }).laws[0].lackOfFit?.pValue).toBeLessThan(
      1e-6,
    );
    expect(
      rackLoss.predictLaw(shared, { barShape: "foil", blockage: 0.3, rackAngle: u.deg(60) }).lossCoefficient,
    ).toBe(rackLoss.fitted({ ...other.coefficients, blockage: 0.3, rackAngle: u.deg(60), overlayShare: 0 }));
  });
});

describe("the demo's flume", () => {
  let runs: readonly rackLoss.ReducedRun[] = [];
  let fit: rackLoss.LawFit;
  beforeAll(async () => {
    const { rows } = await readRecords("rack-loss-flume.csv", rackLoss.flumeRecord);
    ({ runs } = rackLoss.reduceFlumeRuns(rows, { levelError: u.mm(0.15), dischargeError: 0.005 }));
    fit = rackLoss.fitLaw(runs);
  });

  test("shows what published measurements of horizontal bars show: more loss with blockage, angle and overlays", () => {
    for (const law of fit.laws) {
      const lower = Object.fromEntries(law.parameters.map((one) => [one.name, one.lower]));
      expect(lower.blockageExponent).toBeGreaterThan(0);
      expect(lower.angleExponent).toBeGreaterThan(0);
      expect(lower.overlayCoefficient).toBeGreaterThan(0);
    }
  });

  test("shows rectangular bars far above foils, by more than 40 % on average", () => {
    const at = { blockage: 0.34, rackAngle: u.deg(38) };
    const [rectangular, foil] = ["rectangular", "foil"].map((barShape) =>
      rackLoss.predictLaw(fit, { barShape, ...at }),
    );
    expect(foil.prediction[1]).toBeLessThan(rectangular.prediction[0]);
    expect(foil.lossCoefficient).toBeLessThan(0.6 * rectangular.lossCoefficient);
  });

  test("is fitted best by its own law; of the published equations the one for horizontal bars comes nearest", () => {
    const judged = rackLoss.judgeEquations(runs, { fit });
    expect(judged).toHaveLength(10);
    const order = judged.toSorted((one, other) => (one.rmse ?? Infinity) - (other.rmse ?? Infinity));
    expect(order.slice(0, 2).map(({ id }) => id)).toEqual(["rackLoss.fitted", "rackLoss.horizontalBars"]);
    expect(judged.find(({ id }) => id === "rackLoss.angledBars")?.marks).toContain(
      "outside its tested range",
    );
    expect(judged.find(({ id }) => id === "rackLoss.kirschmer")?.marks).toContain("another kind of rack");
    const opening = judged.find(({ id }) => id === "rackLoss.openingVelocity");
    expect((opening?.runs ?? 0) + (opening?.refused ?? 0)).toBe(120);
  });

  test("judges an equation by the coefficient that it would give", () => {
    const [first] = runs.filter(({ overlayShare }) => overlayShare === 0);
    const horizontal = rackLoss.judgeEquations([first]).find(({ id }) => id === "rackLoss.horizontalBars");
    const { barThickness, clearSpacing, supportShare, rackAngle } = first;
    const expected = rackLoss.horizontalBars({
      barCoefficient:
        rackLoss.inclinedBarCoefficients[first.barShape === "rectangular" ? "rectangular" : "hydrodynamic"],
      barBlockage: rack.blockage({ barThickness, clearSpacing }),
      spacerBlockage: supportShare,
      rackAngle,
    });
    expect(horizontal?.bias).toBeCloseTo(expected - first.lossCoefficient, 9);
    expect(horizontal?.rmse).toBeCloseTo(Math.abs(expected - first.lossCoefficient), 9);
  });

  test("refuses to judge by runs that all have overlays, or by other runs than were fitted", () => {
    const overlaid = runs.filter(({ overlayShare }) => overlayShare > 0);
    expect(() => rackLoss.judgeEquations(overlaid)).toThrow("of 48 runs none is without overlays");
    expect(() => rackLoss.judgeEquations(runs.slice(0, 20), { fit })).toThrow(
      "give the runs that were fitted",
    );
  });
});
