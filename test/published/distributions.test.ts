import { statistics } from "kernel-helpers";
import { dbeta, dt, pbeta, pchisq, pnorm, qbeta, qchisq, qnorm } from "lib-r-math.js";
import { describe, expect, it } from "vitest";

type Law = (...point: number[]) => number;

const close = (one: number, other: number): boolean =>
  one === other || Math.abs(one - other) <= 1e-8 * Math.max(1, Math.abs(other));

/** The points of the grid where the two results part by more than 1e-8, of 1 or of the size of the result. */
function parted(points: readonly (readonly number[])[], ours: Law, theirs: Law): readonly string[] {
  return points.flatMap((point) => {
    const [one, other] = [ours(...point), theirs(...point)];
    return close(one, other) ? [] : [`(${point.join(", ")}): ${one}, by R's algorithm ${other}`];
  });
}

const crossed = (...axes: readonly (readonly number[])[]): number[][] =>
  axes.reduce<number[][]>(
    (points, axis) => points.flatMap((point) => axis.map((one) => [...point, one])),
    [[]],
  );

/** Gauss's rule of three points in each strip: it never meets the ends, where a density may have a pole. */
function integral(density: (at: number) => number, to: number, strips = 1500): number {
  const half = to / strips / 2;
  const reach = half * Math.sqrt(3 / 5);
  let area = 0;
  for (let strip = 0; strip < strips; strip++) {
    const middle = (2 * strip + 1) * half;
    area += 5 * density(middle - reach) + 8 * density(middle) + 5 * density(middle + reach);
  }
  return (area * half) / 9;
}

/** The integral of R's beta density up to x, over u with x = sin²u: from shape 0.5 on it has no pole. */
function betaArea(x = 0, alpha = 0, beta = 0): number {
  if (x === 0) return 0;
  const density = (u: number): number => dbeta(Math.sin(u) ** 2, alpha, beta) * Math.sin(2 * u);
  return integral(density, Math.asin(Math.sqrt(x)));
}

const chiSquareQuantile: Law = (p = 0, degreesOfFreedom = 0) =>
  statistics.chiSquareQuantile(p, { degreesOfFreedom });
const chiSquareCdf: Law = (x = 0, degreesOfFreedom = 0) => statistics.chiSquareCdf(x, { degreesOfFreedom });
const chiSquareTail: Law = (x = 0, degreesOfFreedom = 0) => statistics.chiSquareTail(x, { degreesOfFreedom });
const betaCdf: Law = (x = 0, alpha = 0, beta = 0) => statistics.betaCdf(x, { alpha, beta });
const betaQuantile: Law = (p = 0, alpha = 0, beta = 0) => statistics.betaQuantile(p, { alpha, beta });

const areaBelowBetaQuantile: Law = (p, alpha, beta) => betaArea(betaQuantile(p, alpha, beta), alpha, beta);

/** The integral of R's t density up to our quantile, over u with t = tan u. */
const areaBelowStudentQuantile: Law = (p = 0, degreesOfFreedom = 0) => {
  const reach = Math.atan(statistics.studentQuantile(p, { degreesOfFreedom }));
  return 0.5 + integral((u) => dt(Math.tan(u), degreesOfFreedom) / Math.cos(u) ** 2, reach);
};

const probabilities = [
  1e-10, 1e-6, 1e-4, 0.001, 0.005, 0.01, 0.025, 0.05, 0.1, 0.25, 0.5, 0.75, 0.9, 0.95, 0.975, 0.99, 0.995,
  0.999, 0.9999, 0.999999,
];
const shares = [0, 1e-6, 0.001, 0.01, 0.1, 0.25, 0.5, 0.75, 0.9, 0.99, 0.999, 1];
const shapes = [0.5, 1, 1.5, 2, 7, 20.5, 44, 183, 1000];
const freedoms = [1, 2, 3, 5, 10, 30, 100, 1000];

describe("distribution functions against R's algorithms (registry package lib-r-math.js), to 1e-8 on a grid", () => {
  it("the quantiles of the normal distribution", () => {
    expect(parted(crossed(probabilities), statistics.normalQuantile, (p = 0) => qnorm(p))).toEqual([]);
  });

  it("the probabilities of the normal distribution", () => {
    const values = Array.from({ length: 65 }, (_, at) => -8 + at / 4);
    expect(parted(crossed(values), statistics.normalCdf, (x = 0) => pnorm(x))).toEqual([]);
  });

  it("the quantiles of the chi-square distribution", () => {
    expect(
      parted(crossed(probabilities, freedoms), chiSquareQuantile, (p = 0, df = 0) => qchisq(p, df)),
    ).toEqual([]);
  });

  it("the probabilities of the chi-square distribution, and what is left of 1", () => {
    const points = crossed([0, 1e-6, 0.01, 0.5, 1, 3.84, 10, 30, 100, 1000], freedoms);
    expect(parted(points, chiSquareCdf, (x = 0, df = 0) => pchisq(x, df))).toEqual([]);
    expect(parted(points, chiSquareTail, (x = 0, df = 0) => pchisq(x, df, undefined, false))).toEqual([]);
  });
});

// The package's pbeta, qbeta and qt miss closed forms in places: pbeta(0.5, 2, 2) is 0.50056, and by symmetry 0.5 is
// true. Its densities hold them. So its densities are integrated, and its pbeta and qbeta count where they agree with
// that integral.
describe("beta and t against the integrated densities of R's algorithms (same package), to 1e-8 on a grid", () => {
  it("the package misses the closed forms of beta(2, 2) at one half and of beta(1, 2), and ours holds them", () => {
    expect(close(pbeta(0.5, 2, 2), 0.5)).toBe(false);
    expect(close(pbeta(0.75, 1, 2), 0.9375)).toBe(false);
    expect(statistics.betaCdf(0.5, { alpha: 2, beta: 2 })).toBeCloseTo(0.5, 14);
    expect(statistics.betaCdf(0.75, { alpha: 1, beta: 2 })).toBeCloseTo(0.9375, 14);
  });

  it("the probabilities of the beta distribution", () => {
    expect(parted(crossed(shares, shapes, shapes), betaCdf, betaArea)).toEqual([]);
  });

  it("the quantiles of the beta distribution: the area below them is the probability", () => {
    // Within 1e-12 of 1 the spacing of double numbers is itself seen in the area.
    const points = crossed(probabilities, shapes, shapes).filter(
      (point) => betaQuantile(...point) < 1 - 1e-12,
    );
    expect(points.length).toBeGreaterThan(1600);
    expect(parted(points, areaBelowBetaQuantile, (p = 0) => p)).toEqual([]);
  });

  it("the probabilities and quantiles of the beta distribution by the package, where its pbeta is that integral", () => {
    const sound = crossed(shares, shapes, shapes).filter((point) => {
      const [x = 0, alpha = 0, beta = 0] = point;
      return close(pbeta(x, alpha, beta), betaArea(x, alpha, beta));
    });
    expect(sound.length).toBeGreaterThan(900);
    expect(parted(sound, betaCdf, (x = 0, alpha = 0, beta = 0) => pbeta(x, alpha, beta))).toEqual([]);

    // A quantile of a flat tail may move without moving the area: it is compared where the area is not near 0 or 1.
    const steep = crossed(
      probabilities.filter((p) => p >= 0.001 && p <= 0.999),
      shapes,
      shapes,
    );
    const soundQuantiles = steep.filter((point) => {
      const [p = 0, alpha = 0, beta = 0] = point;
      return Math.abs(betaArea(qbeta(p, alpha, beta), alpha, beta) - p) < 1e-10;
    });
    expect(soundQuantiles.length).toBeGreaterThan(750);
    expect(
      parted(soundQuantiles, betaQuantile, (p = 0, alpha = 0, beta = 0) => qbeta(p, alpha, beta)),
    ).toEqual([]);
  });

  it("the quantiles of Student's t distribution: the area below them is the probability", () => {
    const points = crossed(
      probabilities.filter((p) => p >= 1e-4),
      freedoms,
    );
    expect(parted(points, areaBelowStudentQuantile, (p = 0) => p)).toEqual([]);
  });
});
