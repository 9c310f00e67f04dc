import { describe, expect, test } from "vitest";
import { u } from "../../kernel-helpers/src/quantity";
import { sectionDischarge } from "../../kernel-helpers/src/velocity";

const width = u.m(1.5);
const depth = u.m(0.6);
const points = (
  velocity: (y: number, z: number) => number,
  ys = [0.15, 0.45, 0.75, 1.05, 1.35],
  zs = [0.12, 0.3, 0.48],
) =>
  ys.flatMap((y) =>
    zs.map((z) => ({ x: -1.5, y, z, velocityX: velocity(y, z), velocityY: 0, velocityZ: 0 })),
  );
const fine = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * (i + 0.5)) / count);

describe("sectionDischarge", () => {
  test("of an even velocity held to the boundaries is velocity times area", () => {
    const found = sectionDischarge(
      points(() => 0.5),
      { width, depth, bedExponent: 0, wallExponent: 0 },
    );
    expect(found.discharge).toBeCloseTo(0.45, 12);
    expect(found.meanVelocity).toBeCloseTo(0.5, 12);
    expect(found.upper).toBeCloseTo(0.45, 12);
  });

  test("is exact for a velocity that changes in a straight line across, between the outermost verticals", () => {
    const sloping = sectionDischarge(
      points((y) => 0.2 + 0.4 * y, [0, 0.5, 1, 1.5]),
      { width, depth, bedExponent: 0 },
    );
    expect(sloping.discharge).toBeCloseTo(0.6 * (0.2 * 1.5 + 0.2 * 1.5 ** 2), 12);
  });

  test("follows a power law down to the bottom if told its exponent, on fine verticals", () => {
    const m = 0.14;
    const found = sectionDischarge(
      points((_, z) => (1 + m) * 0.5 * (z / depth) ** m, [0.3, 1.2], fine(0, 0.6, 400)),
      { width, depth, bedExponent: m, wallExponent: 0 },
    );
    expect(found.discharge).toBeCloseTo(0.45, 4);
  });

  test("lies between its two extremes, which differ by the treatment of the edges", () => {
    const found = sectionDischarge(
      points(() => 0.5),
      { width, depth },
    );
    expect(found.lower).toBeLessThan(found.discharge);
    expect(found.discharge).toBeLessThan(found.upper);
    // All velocities 0.5, falling in a straight line over the lowest 0.12 m and the outermost 0.15 m at each wall.
    expect(found.lower).toBeCloseTo(0.5 * (0.6 - 0.06) * (1.5 - 0.15), 12);
  });

  test("says which share flows where nothing was measured", () => {
    const found = sectionDischarge(
      points(() => 0.5),
      { width, depth, bedExponent: 0, wallExponent: 0 },
    );
    expect(found.unmeasuredShare).toBeCloseTo(1 - (1.2 * 0.36) / (1.5 * 0.6), 12);
  });

  test("gives the difference from a known discharge, over the known one", () => {
    const found = sectionDischarge(
      points(() => 0.5),
      {
        width,
        depth,
        bedExponent: 0,
        wallExponent: 0,
        known: u.m3ps(0.5),
      },
    );
    expect(found.difference).toBeCloseTo(-0.1, 12);
  });

  test("carries the errors of the points, if every point has one", () => {
    const even = points(() => 0.5);
    const withErrors = even.map((point) => ({ ...point, standardError: 0.01 }));
    const options = { width, depth, bedExponent: 0, wallExponent: 0 };
    // Weights of trapezoids with held edges: across 0.3 m each; down 0.21, 0.18 and 0.21 m.
    const weights = 5 * 0.3 ** 2 * (0.21 ** 2 + 0.18 ** 2 + 0.21 ** 2);
    expect(sectionDischarge(withErrors, options).standardError).toBeCloseTo(0.01 * Math.sqrt(weights), 12);
    expect(sectionDischarge([...withErrors.slice(1), even[0]], options).standardError).toBeUndefined();
  });

  test("refuses points of another section, outside of the section, doubled, and a single vertical", () => {
    const good = points(() => 0.5);
    const call = (some: typeof good) => () => sectionDischarge(some, { width, depth });
    expect(call([...good, { ...good[0], x: 0 }])).toThrow(/point 16 stands at x 0 m and the first at -1.5 m/);
    expect(call([...good, { ...good[0], y: 1.6 }])).toThrow(/y of point 16 is 1.6 m/);
    expect(call([...good, { ...good[0], z: 0.7 }])).toThrow(
      /z of point 16 is 0.7 m; it must be above 0 m and at most the depth of 0.6 m/,
    );
    expect(call([...good, good[0]])).toThrow(/two points stand at x -1.5 m, y 0.15 m, z 0.12 m/);
    expect(call(good.slice(0, 3))).toThrow(/has 1 vertical; it must have at least 2/);
    expect(call([])).toThrow(/has no points/);
  });
});
