import { readFileSync } from "node:fs";
import { fileURLToPath } from "node:url";
import { beforeAll, describe, expect, test } from "vitest";
import { fish, monitoring, protection, type RowOf, u } from "../../kernel-helpers/src";
import { trialTruth } from "../../data-demo/generators/trial-runs";
import { readTable } from "../../kernel-helpers/src/records/readTable";
import { checkRecords } from "../../kernel-helpers/src/records/records";

const read = (name: string) =>
  readTable(readFileSync(fileURLToPath(new URL(`../../data-demo/${name}`, import.meta.url))), name);
let rows: readonly monitoring.CatchRow[];
let measured: readonly RowOf<typeof fish.lengthRecord>[];

beforeAll(async () => {
  rows = checkRecords(await read("monitoring-catches.csv"), monitoring.catchRecord, { setAside: true }).rows;
  measured = checkRecords(await read("fish-lengths.csv"), fish.lengthRecord).rows;
});

describe("guidance of those that passed", () => {
  const gear = {
    bypass: { estimate: 0.95, standardError: 0.01 },
    turbine: { estimate: 0.8, standardError: 0.02 },
  };
  const nights = [
    { bypass: 30, turbine: 8 },
    { bypass: 20, turbine: 12 },
    { bypass: 25, turbine: 9 },
  ];

  test("is the corrected catch of the bypass over that of both nets", () => {
    const { estimate, lower, upper } = monitoring.guidanceOfPassed({ nights, gear });
    const [bypassed, passed] = [75 / 0.95, 29 / 0.8];
    expect(estimate).toBeCloseTo(bypassed / (bypassed + passed), 12);
    expect(lower).toBeLessThan(estimate);
    expect(upper).toBeGreaterThan(estimate);
  });

  test("has a wider interval for nets whose efficiency is less sure", () => {
    const sure = monitoring.guidanceOfPassed({ nights, gear });
    const unsure = monitoring.guidanceOfPassed({
      nights,
      gear: { ...gear, turbine: { estimate: 0.8, standardError: 0.15 } },
    });
    expect(unsure.estimate).toBe(sure.estimate);
    expect(unsure.upper - unsure.lower).toBeGreaterThan(sure.upper - sure.lower);
  });

  test("keeps an interval with a width where every fish took one way", () => {
    const all = monitoring.guidanceOfPassed({
      nights: [
        { bypass: 9, turbine: 0 },
        { bypass: 7, turbine: 0 },
      ],
      gear,
    });
    expect([all.estimate, all.upper]).toEqual([1, 1]);
    expect(all.lower).toBeLessThan(0.8);
    const none = monitoring.guidanceOfPassed({
      nights: [
        { bypass: 0, turbine: 9 },
        { bypass: 0, turbine: 7 },
      ],
      gear,
    });
    expect([none.estimate, none.lower]).toEqual([0, 0]);
    expect(none.upper).toBeGreaterThan(0.2);
  });

  test("needs two nights with a catch, and says that nets see no refusals", () => {
    expect(() =>
      monitoring.guidanceOfPassed({
        nights: [
          { bypass: 9, turbine: 1 },
          { bypass: 0, turbine: 0 },
        ],
      }),
    ).toThrow(/1 nights have a catch/);
    expect(monitoring.guidanceOfPassed({ nights }).denominator).toContain("refusals are seen in neither net");
  });

  test("lists the classes of a plant by species and length, and those too thin to have an interval", () => {
    const { classes, thin } = monitoring.guidanceByClass(rows, { plant: "Halvern Weir" });
    const names = classes.map(monitoring.className);
    expect(names.slice(0, 3)).toEqual([
      "roach, 60 to 120 mm",
      "roach, 120 to 180 mm",
      "roach, 180 to 300 mm",
    ]);
    expect(thin).toEqual([]);
    expect(classes.every(({ estimate }) => estimate >= 0 && estimate <= 1)).toBe(true);
  });

  test("follows from protection and the share that turns round", () => {
    expect(monitoring.guidanceFromProtection({ protection: 0.7, turningRound: 0 })).toBeCloseTo(0.7, 12);
    expect(monitoring.guidanceFromProtection({ protection: 1, turningRound: 0.1 })).toBe(1);
    expect(monitoring.guidanceFromProtection({ protection: 0, turningRound: 0.1 })).toBe(0);
    // 63 of 70 held fish are seen in the bypass, 30 in the turbine.
    expect(monitoring.guidanceFromProtection({ protection: 0.7, turningRound: 0.1 })).toBeCloseTo(
      63 / 93,
      12,
    );
  });
});

describe("the mean over a length class", () => {
  const lengths = [60, 100, 119, 120].map(u.mm);

  test("takes the lower bound in and leaves the upper out", () => {
    const mean = monitoring.meanOverClass({
      lengths,
      lengthFrom: u.mm(60),
      lengthTo: u.mm(120),
      shareAt: (length) => (length >= u.mm(120) ? 1 : 0),
    });
    expect(mean).toBe(0);
  });

  test("refuses a class without measured fish", () => {
    expect(() =>
      monitoring.meanOverClass({ lengths, lengthFrom: u.mm(300), lengthTo: u.mm(400), shareAt: () => 1 }),
    ).toThrow(/none of 4 measured fish is from 300 mm to 400 mm long/);
  });
});

/** What the true law of the laboratory predicts, its move for silver eel included, without a plant's bias. */
const checked = (plant: string, clearSpacing: ReturnType<typeof u.mm>) => {
  const law = protection.rampLaw({ threshold: trialTruth.threshold, exponent: trialTruth.exponent });
  const cells = monitoring.calibrationCells(rows, {
    plant,
    predict({ species, lengthFrom, lengthTo }) {
      const move = species === "silver eel" ? trialTruth.silverEelEffect : 0;
      const held = monitoring.meanOverClass({
        lengths: measured.filter((one) => one.species === species).map(({ totalLength }) => totalLength),
        lengthFrom,
        lengthTo,
        shareAt(totalLength) {
          const widthRatio = fish.gapRatio(fish.species(species));
          const share = law(fish.relativeWidth({ totalLength, widthRatio, clearSpacing }));
          return share === 0 || share === 1 ? share : 1 / (1 + ((1 - share) / share) * Math.exp(-move));
        },
      });
      return monitoring.guidanceFromProtection({ protection: held, turningRound: 0.1 });
    },
  });
  return monitoring.calibration({ cells, gear: monitoring.gearEfficiencies(rows, { plant }) });
};

describe("a prediction held against the demo record", () => {
  test("is not contradicted at Halvern Weir, where the plant has no bias", () => {
    const { intercept, slope, respectingNights, certain } = checked("Halvern Weir", u.mm(18));
    expect(intercept.lower).toBeLessThan(0);
    expect(intercept.upper).toBeGreaterThan(0);
    expect(slope?.lower).toBeLessThan(1);
    expect(slope?.upper).toBeGreaterThan(1);
    expect(respectingNights.pValue).toBeGreaterThan(0.2);
    expect(certain.contradicting).toBe(0);
  });

  test("is 1.2 too high on the logit at Kelmar Mill, and the test that respects nights says so", () => {
    const { intercept, respectingNights, bias, biasByFish, rmse } = checked("Kelmar Mill", u.mm(25));
    expect(intercept.lower).toBeLessThan(-1.2);
    expect(intercept.upper).toBeGreaterThan(-1.2);
    expect(intercept.upper).toBeLessThan(-0.8);
    expect(respectingNights.pValue).toBeLessThan(1e-6);
    expect([bias, biasByFish].every((one) => one < -0.1)).toBe(true);
    expect(rmse).toBeGreaterThanOrEqual(Math.abs(bias));
  });
});

describe("calibration", () => {
  const cells = ["1", "2", "3", "4"].flatMap((night, at) => [
    { night, name: "small", successes: 4 + at, trials: 10, predicted: 0.5 },
    { night, name: "large", successes: 8, trials: 10, predicted: 0.8 },
  ]);

  test("moves the catch to the fish that passed by the efficiencies of the nets", () => {
    const gear = {
      bypass: { estimate: 0.9, standardError: 0 },
      turbine: { estimate: 0.6, standardError: 0 },
    };
    const [perfect, moved] = [monitoring.calibration({ cells }), monitoring.calibration({ cells, gear })];
    expect(moved.intercept.estimate).toBeCloseTo(perfect.intercept.estimate - Math.log(1.5), 9);
    expect(moved.slope?.estimate).toBeCloseTo(perfect.slope?.estimate ?? NaN, 9);
  });

  test("counts the classes whose observed share lies in its prediction interval", () => {
    const intervals = { small: { lower: 0.3, upper: 0.7 }, large: { lower: 0.81, upper: 0.9 } };
    expect(monitoring.calibration({ cells, intervals }).coverage).toEqual({
      inside: 1,
      classes: 2,
      share: 0.5,
    });
    expect(monitoring.calibration({ cells }).coverage).toBeUndefined();
  });

  test("has the bias and RMSE of its classes, by hand", () => {
    // Small: 22 of 40 against 0.5; large: 32 of 40 against 0.8.
    const { bias, rmse, brier } = monitoring.calibration({ cells });
    expect(bias).toBeCloseTo((0.05 + 0) / 2, 12);
    expect(rmse).toBeCloseTo(Math.sqrt(0.05 ** 2 / 2), 12);
    expect(brier).toBeCloseTo((40 * 0.25 + 32 * 0.04 + 8 * 0.64) / 80, 12);
  });

  test("keeps certain predictions out of the line and counts the fish that contradict them", () => {
    const blocked = { night: "1", name: "blocked", successes: 9, trials: 10, predicted: 1 };
    const withBlocked = monitoring.calibration({ cells: [...cells, blocked] });
    expect(withBlocked.certain).toEqual({ fish: 10, contradicting: 1 });
    expect(withBlocked.intercept).toEqual(monitoring.calibration({ cells }).intercept);
    expect(withBlocked.cautions.join()).toContain("1 fish went the way that the prediction excludes");
  });

  test("refuses two nights, predictions above 1, and fish that all took one way", () => {
    expect(() => monitoring.calibration({ cells: cells.filter(({ night }) => night < "3") })).toThrow(
      /2 nights have fish/,
    );
    expect(() => monitoring.calibration({ cells: [{ ...cells[0], predicted: 1.1 }] })).toThrow(
      /cells\[0\].predicted is 1.1/,
    );
    const allIn = cells.map((cell) => ({ ...cell, successes: cell.trials }));
    expect(() => monitoring.calibration({ cells: allIn })).toThrow(/80 of 80 fish took the bypass/);
  });
});

describe("the interval of a prediction", () => {
  const common = { predicted: 0.6, trials: [10, 20, 15, 5], nightSpread: 0.4, seed: 7 };

  test("is the same for the same seed, and wider for a curve or nights that are less sure", () => {
    const width = (options: Partial<Parameters<typeof monitoring.predictionInterval>[0]>): number => {
      const { lower, upper } = monitoring.predictionInterval({ ...common, ...options });
      return upper - lower;
    };
    expect(monitoring.predictionInterval(common)).toEqual(monitoring.predictionInterval(common));
    expect(width({ curveError: 0.5 })).toBeGreaterThan(width({}));
    expect(width({ nightSpread: 1.5 })).toBeGreaterThan(width({}));
  });

  test("without spread of curve and nights is about that of the binomial distribution", () => {
    const { lower, upper } = monitoring.predictionInterval({ ...common, nightSpread: 0, simulations: 4000 });
    // 50 fish at 0.6: mean 30, standard deviation 3.46.
    expect(lower).toBeCloseTo(0.6 - (1.96 * 3.46) / 50, 1);
    expect(upper).toBeCloseTo(0.6 + (1.96 * 3.46) / 50, 1);
  });

  test("has no width for a prediction of 1, and says so; resampled curves give it one", () => {
    const certain = monitoring.predictionInterval({ ...common, predicted: 1 });
    expect([certain.lower, certain.upper]).toEqual([1, 1]);
    expect(certain.caution).toContain("leaves no room for chance");
    const resampled = Array.from({ length: 40 }, (_, at) => (at % 2 === 0 ? 1 : 0.8));
    expect(monitoring.predictionInterval({ ...common, predicted: 1, resampled }).lower).toBeLessThan(0.95);
  });

  test("refuses two errors for one curve, and nights without fish", () => {
    const resampled = Array.from({ length: 40 }, () => 0.5);
    expect(() => monitoring.predictionInterval({ ...common, resampled, curveError: 0.3 })).toThrow(
      /count twice/,
    );
    expect(() => monitoring.predictionInterval({ ...common, trials: [0, 0] })).toThrow(/no night has fish/);
  });
});
