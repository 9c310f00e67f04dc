import { uncertainty } from "kernel-helpers";
import { qbeta, qlnorm, qnorm } from "lib-r-math.js";
import { describe, expect, it, test } from "vitest";

const { monteCarlo, normal, sobolIndices, uniform } = uncertainty;

type Inputs = Readonly<Record<string, uncertainty.Distribution>>;
const several = (count: number, one: () => uncertainty.Distribution): Inputs =>
  Object.fromEntries(Array.from({ length: count }, (_, at) => [`x${at + 1}`, one()]));
const indicesByName = (result: uncertainty.SobolIndices) =>
  new Map(result.indices.map(({ input, first, total }) => [input, { first, total }]));

describe("the Ishigami function with a = 7 and b = 0.1 (Ishigami & Homma 1990; indices in Saltelli et al. 2008, Global Sensitivity Analysis; known analytically)", () => {
  const [a, b] = [7, 0.1];
  const inputs = several(3, () => uniform({ from: -Math.PI, to: Math.PI }));
  const result = sobolIndices({
    inputs,
    output: ({ x1, x2, x3 }) => Math.sin(x1) + a * Math.sin(x2) ** 2 + b * x3 ** 4 * Math.sin(x1),
    base: 2 ** 14,
    seed: 1990,
  });
  const found = indicesByName(result);
  const printed: readonly (readonly [string, first: number, total: number])[] = [
    ["x1", 0.3139, 0.5576],
    ["x2", 0.4424, 0.4424],
    ["x3", 0, 0.2437],
  ];
  it.each(printed)("%s: first order and total within 0.001", (name, first, total) => {
    expect(Math.abs((found.get(name)?.first.value ?? Number.NaN) - first)).toBeLessThan(0.001);
    expect(Math.abs((found.get(name)?.total.value ?? Number.NaN) - total)).toBeLessThan(0.001);
  });

  it("has the mean a/2 and the variance a²/8 + bπ⁴/5 + b²π⁸/18 + 1/2", () => {
    expect(result.mean).toBeCloseTo(a / 2, 3);
    const variance = a ** 2 / 8 + (b * Math.PI ** 4) / 5 + (b ** 2 * Math.PI ** 8) / 18 + 1 / 2;
    expect(result.standardDeviation ** 2).toBeCloseTo(variance, 2);
  });
});

describe("Sobol's g-function, a = 0, 0.5, 3, 9, 99, 99 (Glen & Isaacs 2012, Environ. Model. Softw. 37:157; expected indices printed with a package's example)", () => {
  const a = [0, 0.5, 3, 9, 99, 99];
  const result = sobolIndices({
    inputs: several(6, () => uniform({ from: 0, to: 1 })),
    output: (values) =>
      Object.values(values).reduce(
        (product, x, at) => product * ((Math.abs(4 * x - 2) + a[at]) / (1 + a[at])),
        1,
      ),
    base: 2 ** 12,
    seed: 2012,
  });
  const found = indicesByName(result);
  const printed: readonly (readonly [string, first: number, total: number])[] = [
    ["x1", 0.58678119, 0.690085892],
    ["x2", 0.26079164, 0.356173364],
    ["x3", 0.0366738244, 0.0563335422],
    ["x4", 0.0058678119, 0.00917057664],
    ["x5", 0.000058678119, 0.0000920083854],
    ["x6", 0.000058678119, 0.0000920083854],
  ];
  it.each(printed)("%s: first order and total within 0.002", (name, first, total) => {
    expect(Math.abs((found.get(name)?.first.value ?? Number.NaN) - first)).toBeLessThan(0.002);
    expect(Math.abs((found.get(name)?.total.value ?? Number.NaN) - total)).toBeLessThan(0.002);
  });
});

const sumOf = (inputs: Inputs) =>
  monteCarlo({
    inputs,
    output: (values) => Object.values(values).reduce((sum, one) => sum + one, 0),
    draws: 2 ** 17,
    seed: 92,
  });

describe("sums of four quantities (JCGM 101:2008, 9.2; from memory, and the first and second follow from theory)", () => {
  const half = Math.sqrt(3);

  test("four standard normals: u = 2.00, 95 % within ±3.92", () => {
    const { mean, standardDeviation, lower, upper } = sumOf(
      several(4, () => normal({ mean: 0, standardDeviation: 1 })),
    );
    expect(Math.abs(mean.value)).toBeLessThan(0.005);
    expect(standardDeviation.value.toFixed(2)).toBe("2.00");
    expect([lower.value.toFixed(2), upper.value.toFixed(2)]).toEqual(["-3.92", "3.92"]);
  });

  test("four rectangular of the same errors: u = 2.00, 95 % within ±3.88, which ±1.96 u misses", () => {
    const { standardDeviation, lower, upper } = sumOf(several(4, () => uniform({ from: -half, to: half })));
    expect(standardDeviation.value.toFixed(2)).toBe("2.00");
    expect([lower.value.toFixed(2), upper.value.toFixed(2)]).toEqual(["-3.88", "3.88"]);
  });

  test("one of them ten times as uncertain: u = 10.1, 95 % within ±17.0, far from ±19.8", () => {
    const { standardDeviation, lower, upper } = sumOf({
      ...several(3, () => uniform({ from: -half, to: half })),
      x4: uniform({ from: -10 * half, to: 10 * half }),
    });
    expect(standardDeviation.value.toFixed(1)).toBe("10.1");
    expect([lower.value.toFixed(1), upper.value.toFixed(1)]).toEqual(["-17.0", "17.0"]);
  });
});

const loss = (x1: number) =>
  monteCarlo({
    inputs: {
      x1: normal({ mean: x1, standardDeviation: 0.005 }),
      x2: normal({ mean: 0, standardDeviation: 0.005 }),
    },
    output: (values) => 1e6 * (values.x1 ** 2 + values.x2 ** 2),
    draws: 2 ** 17,
    seed: 94,
  });

describe("comparison loss x₁² + x₂², each with error 0.005 (JCGM 101:2008, 9.4; printed, read at second hand)", () => {
  test("at 0: 50 ± 50 with the shortest interval from 0 to 150, where first-order propagation says 0 ± 0", () => {
    const { mean, standardDeviation, shortest } = loss(0);
    expect([mean.value.toFixed(0), standardDeviation.value.toFixed(0)]).toEqual(["50", "50"]);
    expect([shortest.lower.toFixed(0), shortest.upper.toFixed(0)]).toEqual(["0", "150"]);
  });

  test("at 0.050: the shortest interval from 1590 to 3543", () => {
    const { shortest } = loss(0.05);
    // The shortest of many nearly equal intervals wanders; its printed ends came from a million random draws.
    expect(Math.abs(shortest.lower - 1590)).toBeLessThan(15);
    expect(Math.abs(shortest.upper - 3543)).toBeLessThan(15);
  });
});

describe("quantiles against R's algorithms (lib-r-math.js)", () => {
  const shares = [0.001, 0.025, 0.2, 0.5, 0.9, 0.975, 0.999];
  it.each(shares)("lognormal, beta and normal at %f", (share) => {
    const lognormal = uncertainty.lognormal({ median: 133, spread: 0.31 });
    expect(lognormal.quantile(share)).toBeCloseTo(qlnorm(share, Math.log(133), 0.31), 6);
    expect(uncertainty.beta({ alpha: 7, beta: 44 }).quantile(share)).toBeCloseTo(qbeta(share, 7, 44), 8);
    expect(normal({ mean: 18, standardDeviation: 0.5 }).quantile(share)).toBeCloseTo(
      qnorm(share, 18, 0.5),
      9,
    );
  });

  it.each([
    [7, 44],
    [0.6, 3],
    [90, 5],
  ])("the table of beta quantiles, %f and %f, is good to 1e-7 from 0.00001 to 0.99999", (alpha, beta) => {
    const table = uncertainty.beta({ alpha, beta }).manyQuantiles ?? Number;
    for (let at = 1; at < 400; at++) {
      const share = at < 4 ? 10 ** -(at + 2) : at > 396 ? 1 - 10 ** -(402 - at) : at / 400;
      expect(Math.abs(table(share) - qbeta(share, alpha, beta))).toBeLessThan(1e-7);
    }
  });
});

describe("the triangular distribution (Kotz & van Dorp 2004, Beyond Beta, chapter 1; formulas from memory)", () => {
  test.each([
    [0.9, 0.98, 1],
    [0, 1, 10],
    [2, 2, 5],
  ])("median and quarter of %f, %f, %f", (least, mostLikely, most) => {
    const triangular = uncertainty.triangular({ least, mostLikely, most });
    const middle = (least + most) / 2;
    const median =
      mostLikely >= middle
        ? least + Math.sqrt(((most - least) * (mostLikely - least)) / 2)
        : most - Math.sqrt(((most - least) * (most - mostLikely)) / 2);
    expect(triangular.median).toBeCloseTo(median, 12);
    expect(triangular.law.cdf(triangular.quantile(0.25))).toBeCloseTo(0.25, 12);
  });
});
