import { assert, double, property } from "fast-check";
import { u, uncertainty } from "kernel-helpers";
import { describe, expect, expectTypeOf, test } from "vitest";

const { beta, fixed, jointlyNormal, lognormal, normal, resampled, triangular, uniform } = uncertainty;

describe("distributions", () => {
  test("a distribution of lengths gives lengths, one of shares plain numbers", () => {
    const spacing = normal({ mean: u.mm(18), standardDeviation: u.mm(0.5) });
    // u.to.mm takes a length and nothing else.
    expect(u.to.mm(spacing.median)).toBeCloseTo(18, 12);
    expectTypeOf(uniform({ from: 0.9, to: 1 }).median).toEqualTypeOf<number>();
  });

  test("quantiles rise and the distribution function turns them back", () => {
    const all = [
      normal({ mean: 3, standardDeviation: 2 }),
      lognormal({ median: 2, spread: 0.4 }),
      triangular({ least: 0, mostLikely: 0.5, most: 2 }),
      uniform({ from: -1, to: 1 }),
      beta({ alpha: 2, beta: 5 }),
      normal({ mean: 0.9, standardDeviation: 0.1 }, { atMost: 1, truncated: true }),
    ];
    assert(
      property(double({ min: 0.001, max: 0.998, noNaN: true }), (share) => {
        for (const one of all) expect(one.quantile(share + 0.001)).toBeGreaterThan(one.quantile(share));
        for (const one of all.slice(0, -1)) expect(one.law.cdf(one.quantile(share))).toBeCloseTo(share, 8);
      }),
    );
  });

  test("a spacing that may be below 0 is refused with the probability, the limit and the remedy", () => {
    expect(() => normal({ mean: u.mm(2), standardDeviation: u.mm(1) }, { above: 0, unit: "mm" })).toThrow(
      "uncertainty.normal: normal, 2 mm ± 1 mm lies below 0 mm with probability 0.0228, and allowed is above 0 mm; " +
        "choose a distribution that stays inside, or cut it with truncated: true.",
    );
  });

  test("a share that may be above 1 is refused", () => {
    expect(() => normal({ mean: 0.95, standardDeviation: 0.03 }, { atMost: 1 })).toThrow(
      "lies above 1 with probability 0.0478, and allowed is at most 1",
    );
  });

  test("cut on demand it stays inside, says how much was cut, and keeps its shape within", () => {
    const cut = normal({ mean: 0.95, standardDeviation: 0.03 }, { atMost: 1, truncated: true });
    expect(cut.cutOff).toBeCloseTo(0.0478, 4);
    expect(cut.title).toContain("cut to at most 1");
    expect(cut.quantile(1)).toBeLessThanOrEqual(1);
    const bare = normal({ mean: 0.95, standardDeviation: 0.03 });
    expect(cut.quantile(0.3)).toBeCloseTo(bare.quantile(0.3 * (1 - cut.cutOff)), 12);
  });

  test("a tail that meets fewer than one draw in a thousand million is no reason to refuse", () => {
    const spacing = normal({ mean: u.mm(18), standardDeviation: u.mm(0.5) }, { above: 0 });
    expect(spacing.cutOff).toBe(0);
  });

  test("a distribution that lies beyond its limits altogether is refused even when it may be cut", () => {
    expect(() => normal({ mean: -5, standardDeviation: 0.1 }, { above: 0, truncated: true })).toThrow(
      "almost altogether",
    );
    expect(() => fixed(u.mm(0), { above: 0, unit: "mm" })).toThrow(
      "fixed, 0 mm is not allowed; allowed is above 0 mm",
    );
  });

  test("parameters that describe nothing are refused with the value", () => {
    expect(() => normal({ mean: 1, standardDeviation: 0 })).toThrow(
      "standardDeviation is 0; it must be above 0",
    );
    expect(() => normal({ mean: Number.NaN, standardDeviation: 1 })).toThrow("mean is NaN");
    expect(() => lognormal({ median: -1, spread: 0.1 })).toThrow("median is -1");
    expect(() => triangular({ least: 2, mostLikely: 1, most: 3 })).toThrow(
      "mostLikely is 1; it must be at least 2",
    );
    expect(() => uniform({ from: 2, to: 2 })).toThrow("to is 2; it must be above 2");
    expect(() => beta({ mean: 0.5, standardDeviation: 0.6 })).toThrow("one below 0.5");
    expect(() => beta({ alpha: 0, beta: 1 })).toThrow("alpha is 0");
  });
});

describe("parameters of a fit together", () => {
  const estimates = { threshold: 0.2, exponent: 0.9 };
  const covariance = [
    [0.0004, -0.0006],
    [-0.0006, 0.0025],
  ];

  test("draws have the covariance of the fit", () => {
    const { values } = drawnOf(jointlyNormal({ estimates, covariance }));
    const product = mean(values.map(({ threshold, exponent }) => (threshold - 0.2) * (exponent - 0.9)));
    expect(product).toBeCloseTo(-0.0006, 5);
    expect(mean(values.map(({ exponent }) => (exponent - 0.9) ** 2))).toBeCloseTo(0.0025, 5);
  });

  test("a matrix and a table of rows mean the same", () => {
    const matrix = { get: (row: number, column: number) => covariance[row][column] };
    const [one, other] = [
      [0, 0],
      [0, 0],
    ];
    jointlyNormal({ estimates, covariance }).draw([0.3, 0.8], one);
    jointlyNormal({ estimates, covariance: matrix }).draw([0.3, 0.8], other);
    expect(one).toEqual(other);
  });

  test("on a logarithm a parameter stays above 0 and keeps its relative error", () => {
    const wide = [
      [0.0004, 0],
      [0, 0.3],
    ];
    const { values } = drawnOf(jointlyNormal({ estimates, covariance: wide }, { logarithms: ["exponent"] }));
    const logarithms = values.map(({ exponent }) => Math.log(exponent / 0.9));
    expect(Math.sqrt(mean(logarithms.map((one) => one ** 2)))).toBeCloseTo(Math.sqrt(0.3) / 0.9, 2);
  });

  test("what can't be is refused: a parameter below its limit, a covariance that is none", () => {
    const wide = [
      [0.25, 0],
      [0, 1],
    ];
    expect(() =>
      jointlyNormal({ estimates, covariance: wide }, { limits: { threshold: { atLeast: 0 } } }),
    ).toThrow(
      "name threshold in logarithms where it is above 0, or take resampled fits, uncertainty.resampled",
    );
    expect(() =>
      jointlyNormal({
        estimates,
        covariance: [
          [1, 2],
          [2, 1],
        ],
      }),
    ).toThrow("the covariance can't be");
    expect(() =>
      jointlyNormal({
        estimates,
        covariance: [
          [1, 0.2],
          [0.1, 1],
        ],
      }),
    ).toThrow("0.2 one way and 0.1 the other");
    expect(() => jointlyNormal({ estimates, covariance: [[1]] })).toThrow(
      "covariance has 1 rows; it must have 2",
    );
  });

  test("resampled fits are drawn row by row, each as often as the others", () => {
    const rows = Array.from({ length: 64 }, (_, at) => ({ threshold: (at * 37) % 64, exponent: at }));
    const { values } = drawnOf(resampled(rows));
    for (const { threshold, exponent } of values) expect(threshold).toBe((exponent * 37) % 64);
    expect(new Set(values.map(({ exponent }) => exponent)).size).toBe(64);
    expect(mean(values.map(({ exponent }) => exponent))).toBeCloseTo(31.5, 6);
    expect(() => resampled(rows.slice(0, 10))).toThrow("there are 10 rows; quantiles need at least 50");
    expect(() => resampled([...rows, { threshold: 1 }])).toThrow("rows[64].exponent is NaN");
  });
});

const mean = (values: readonly number[]): number => values.reduce((sum, one) => sum + one, 0) / values.length;

function drawnOf(curve: uncertainty.Joint<"threshold" | "exponent">) {
  const values: { threshold: number; exponent: number }[] = [];
  uncertainty.monteCarlo({
    inputs: { curve },
    output: ({ curve: one }) => {
      values.push({ ...one });
      return 0;
    },
    draws: 2 ** 13,
    seed: 1,
  });
  return { values };
}
