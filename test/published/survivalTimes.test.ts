import { statistics } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const { kaplanMeier, logRank } = statistics;

const all = (times: readonly number[], seen: boolean): readonly boolean[] => times.map(() => seen);

describe("weeks of remission under 6-mercaptopurine (data Freireich et al. 1963, Blood 21:699, as listed by Le, Introductory Biostatistics, example 11.1)", () => {
  const relapses = [6, 6, 6, 7, 10, 13, 16, 22, 23];
  const censored = [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35];
  const curve = kaplanMeier({
    times: [...relapses, ...censored],
    observed: [...relapses.map(() => true), ...censored.map(() => false)],
  });

  test("shares in remission and Greenwood's errors (printed to three decimals: manual of a numerical library, routine for Kaplan–Meier estimates)", () => {
    const printed = [
      [6, 0.857, 0.076],
      [7, 0.807, 0.087],
      [10, 0.753, 0.096],
      [13, 0.69, 0.107],
      [16, 0.627, 0.114],
      [22, 0.538, 0.128],
      [23, 0.448, 0.135],
    ];
    const found = curve.steps.map(({ time, remaining, standardError = NaN }) => [
      time,
      Number(remaining.toFixed(3)),
      Number(standardError.toFixed(3)),
    ]);
    expect(found).toEqual(printed);
  });

  test("numbers at risk and the median of 23 weeks (memory)", () => {
    expect(curve.steps.map(({ atRisk }) => atRisk)).toEqual([21, 17, 15, 12, 11, 7, 6]);
    expect(curve.median.estimate).toBe(23);
  });

  test("log-log limits of 95 % (memory of a textbook's table)", () => {
    const remembered = [
      [0.6197, 0.9516],
      [0.5631, 0.9228],
      [0.5032, 0.8894],
      [0.4316, 0.8491],
      [0.3675, 0.8049],
      [0.2678, 0.7468],
      [0.1881, 0.6801],
    ];
    curve.steps.forEach(({ lower = NaN, upper = NaN }, at) => {
      expect(lower).toBeCloseTo(remembered[at][0], 4);
      expect(upper).toBeCloseTo(remembered[at][1], 4);
    });
  });
});

describe("weeks to relapse, both groups (data Miller 1981, Survival Analysis, from memory; table T. Therneau 2000 on a statistics mailing list)", () => {
  test("the first three steps with their errors (printed)", () => {
    const relapses = [9, 13, 18, 23, 31, 34, 48, 5, 5, 8, 8, 12, 23, 27, 30, 33, 43, 45];
    const censored = [13, 28, 45, 161, 16];
    const { steps } = kaplanMeier({
      times: [...relapses, ...censored],
      observed: [...relapses.map(() => true), ...censored.map(() => false)],
    });
    const printed = [
      { time: 5, atRisk: 23, events: 2, remaining: 0.913, error: 0.0588 },
      { time: 8, atRisk: 21, events: 2, remaining: 0.8261, error: 0.079 },
      { time: 9, atRisk: 19, events: 1, remaining: 0.7826, error: 0.086 },
    ];
    printed.forEach(({ time, atRisk, events, remaining, error }, at) => {
      expect(steps[at]).toMatchObject({ time, atRisk, events });
      expect(steps[at].remaining).toBeCloseTo(remaining, 4);
      expect(steps[at].standardError).toBeCloseTo(error, 4);
    });
    // The mail prints the shares of five steps.
    expect(steps[3].remaining).toBeCloseTo(0.73913043, 8);
    expect(steps[4].remaining).toBeCloseTo(0.69565217, 8);
  });
});

describe("weeks to relapse under maintained chemotherapy (data Miller 1981; printed in a public R session)", () => {
  test("shares without relapse and Greenwood's errors", () => {
    const { steps } = kaplanMeier({
      times: [9, 13, 13, 18, 23, 28, 31, 34, 45, 48, 161],
      observed: [true, true, false, true, true, false, true, true, false, true, false],
    });
    const found = steps.map(({ time, atRisk, remaining, standardError = NaN }) => [
      time,
      atRisk,
      remaining.toFixed(3),
      standardError.toFixed(4),
    ]);
    // The page is cut off behind the fifth line.
    expect(found.slice(0, 5)).toEqual([
      [9, 11, "0.909", "0.0867"],
      [13, 10, "0.818", "0.1163"],
      [18, 8, "0.716", "0.1397"],
      [23, 7, "0.614", "0.1526"],
      [31, 5, "0.491", "0.1642"],
    ]);
  });
});

describe("classic tables from memory of the sources", () => {
  test("the example of Kaplan & Meier 1958 (J. Am. Stat. Assoc. 53:457): 7/8, 0.7, 0.525, 0.2625", () => {
    const { steps } = kaplanMeier({
      times: [0.8, 1, 2.7, 3.1, 5.4, 7, 9.2, 12.1],
      observed: [true, false, false, true, true, false, true, false],
    });
    expect(steps.map(({ remaining }) => Number(remaining.toFixed(10)))).toEqual([0.875, 0.7, 0.525, 0.2625]);
  });

  test("weeks to discontinuation of a device (Collett, Modelling Survival Data in Medical Research)", () => {
    const { steps } = kaplanMeier({
      times: [10, 13, 18, 19, 23, 30, 36, 38, 54, 56, 59, 75, 93, 97, 104, 107, 107, 107],
      observed: [1, 0, 0, 1, 0, 1, 1, 0, 0, 0, 1, 1, 1, 1, 0, 1, 0, 0].map((event) => event === 1),
    });
    expect(steps.map(({ remaining }) => remaining.toFixed(4))).toEqual([
      "0.9444",
      "0.8815",
      "0.8137",
      "0.7459",
      "0.6526",
      "0.5594",
      "0.4662",
      "0.3729",
      "0.2486",
    ]);
    expect(steps.map(({ standardError = NaN }) => standardError.toFixed(4))).toEqual([
      "0.0540",
      "0.0790",
      "0.0978",
      "0.1107",
      "0.1303",
      "0.1412",
      "0.1452",
      "0.1430",
      "0.1392",
    ]);
  });
});

describe("log-rank tests (the R package survival; printed in several public sessions)", () => {
  test("6-mercaptopurine against placebo (data Freireich et al. 1963): 9 and 21 relapses, 19.3 and 10.7 expected, 16.8, p = 4.17e-05", () => {
    const relapses = [6, 6, 6, 7, 10, 13, 16, 22, 23];
    const censored = [6, 9, 10, 11, 17, 19, 20, 25, 32, 32, 34, 35];
    const placebo = [1, 1, 2, 2, 3, 4, 4, 5, 5, 8, 8, 8, 8, 11, 11, 12, 12, 15, 17, 22, 23];
    const { statistic, degreesOfFreedom, pValue, groups } = logRank([
      {
        name: "6-MP",
        times: [...relapses, ...censored],
        observed: [...all(relapses, true), ...all(censored, false)],
      },
      { name: "placebo", times: placebo, observed: all(placebo, true) },
    ]);
    expect(groups.map(({ events }) => events)).toEqual([9, 21]);
    expect(groups.map(({ expected }) => expected.toFixed(1))).toEqual(["19.3", "10.7"]);
    expect(statistic.toFixed(1)).toBe("16.8");
    expect(degreesOfFreedom).toBe(1);
    expect(pValue.toExponential(2)).toBe("4.17e-5");
  });

  test("maintained chemotherapy against none (data Miller 1981): 10.69 and 7.31 expected, 3.4, p = 0.0653", () => {
    const { statistic, pValue, groups } = logRank([
      {
        name: "maintained",
        times: [9, 13, 18, 23, 31, 34, 48, 13, 28, 45, 161],
        observed: [true, true, true, true, true, true, true, false, false, false, false],
      },
      {
        name: "not maintained",
        times: [5, 5, 8, 8, 12, 23, 27, 30, 33, 43, 45, 16],
        observed: [true, true, true, true, true, true, true, true, true, true, true, false],
      },
    ]);
    expect(groups.map(({ events }) => events)).toEqual([7, 11]);
    expect(groups.map(({ expected }) => expected.toFixed(2))).toEqual(["10.69", "7.31"]);
    expect(statistic.toFixed(1)).toBe("3.4");
    expect(pValue.toFixed(4)).toBe("0.0653");
  });
});
