import { assert, double, property } from "fast-check";
import { describe, expect, test } from "vitest";
import { u } from "../../kernel-helpers/src/quantity";
import {
  alongLine,
  alongRack,
  depthAveraged,
  field,
  layer,
  uniformity,
} from "../../kernel-helpers/src/velocity";

const grid = (velocity: (x: number, y: number) => readonly [number, number]) =>
  [-1, -0.5, 0, 0.5, 1].flatMap((x) =>
    [0, 0.5, 1, 1.5].map((y) => ({ x, y, velocityX: velocity(x, y)[0], velocityY: velocity(x, y)[1] })),
  );

describe("field", () => {
  test("gives back the measured values at the points", () => {
    const points = grid((x, y) => [Math.sin(x + 2 * y), Math.cos(3 * x - y)]);
    const flow = field(points);
    for (const { x, y, velocityX, velocityY } of points) {
      const found = flow(x, y);
      expect(found?.alongFlow).toBeCloseTo(velocityX, 9);
      expect(found?.across).toBeCloseTo(velocityY, 9);
    }
  });

  test("is exact for a field that is a plane, anywhere within the points", () => {
    const flow = field(grid((x, y) => [0.5 + 0.2 * x - 0.1 * y, 0.3 * y - 0.05 * x]));
    assert(
      property(
        double({ min: -1, max: 1, noNaN: true }),
        double({ min: 0, max: 1.5, noNaN: true }),
        (x, y) => {
          const found = flow(x, y);
          expect(found?.alongFlow).toBeCloseTo(0.5 + 0.2 * x - 0.1 * y, 7);
          expect(found?.across).toBeCloseTo(0.3 * y - 0.05 * x, 7);
        },
      ),
      { seed: 3 },
    );
  });

  test("says nothing outside of the points: it never extrapolates", () => {
    const flow = field(grid(() => [0.5, 0]));
    expect(flow(-1.01, 0.5)).toBeUndefined();
    expect(flow(0, 1.51)).toBeUndefined();
    expect(flow(100, 100)).toBeUndefined();
  });

  test("leaves out triangles with a side longer than allowed, as across a hollow", () => {
    const hollow = grid(() => [0.5, 0]).filter(({ x, y }) => !(x > 0 && y > 0));
    expect(field(hollow)(0.4, 0.9)).toBeDefined();
    expect(field(hollow, { longestSide: 0.8 })(0.4, 0.9)).toBeUndefined();
    expect(field(hollow, { longestSide: 0.8 })(-0.3, 0.9)).toBeDefined();
  });

  test("refuses too few points, points in a line, doubled points and values that are no numbers", () => {
    const points = grid(() => [0.5, 0]);
    expect(() => field(points.slice(0, 2))).toThrow(/there are 2 points; a field needs at least 3/);
    expect(() => field(points.slice(0, 4))).toThrow(/all 4 points stand in one line/);
    expect(() => field([...points, points[5]])).toThrow(
      /choose a layer with velocity.layer, or velocity.depthAveraged/,
    );
    expect(() => field([...points, { ...points[0], x: 3, velocityX: NaN }])).toThrow(
      /velocityX of point 21 is NaN/,
    );
    expect(() => field(points, { longestSide: 0.1 })).toThrow(/leaves no triangle/);
    expect(() => field(points)(NaN, 0)).toThrow(/x is NaN/);
  });
});

const column = (velocity: (z: number) => number, heights = [0.12, 0.3, 0.48]) =>
  heights.map((z) => ({ x: 1, y: 0.5, z, velocityX: velocity(z), velocityY: 0.1, velocityZ: 0 }));

describe("layer and depthAveraged", () => {
  test("layer gives the points of one height and lists the heights where there is none", () => {
    expect(
      layer(
        column((z) => z),
        u.m(0.3),
      ),
    ).toEqual([{ x: 1, y: 0.5, velocityX: 0.3, velocityY: 0.1 }]);
    expect(() =>
      layer(
        column((z) => z),
        u.m(0.2),
      ),
    ).toThrow("the heights are 0.12, 0.3, 0.48 m");
  });

  test("depthAveraged gives one point a vertical, the integral over the depth", () => {
    const [mean] = depthAveraged(
      column(() => 0.5),
      { depth: u.m(0.6), bedExponent: 0 },
    );
    expect(mean.velocityX).toBeCloseTo(0.5, 12);
    const [falling] = depthAveraged(
      column(() => 0.5),
      { depth: u.m(0.6), bedExponent: 1 },
    );
    expect(falling.velocityX).toBeCloseTo((0.5 * (0.48 + 0.06)) / 0.6, 12);
  });

  test("both refuse two points at one place: those of two layouts", () => {
    const twice = [...column(() => 0.5), ...column(() => 0.6)];
    expect(() => depthAveraged(twice, { depth: u.m(0.6) })).toThrow(/keep one of them, or one layout/);
    expect(() => layer(twice, u.m(0.3))).toThrow(/keep one of them, or one layout/);
    expect(() =>
      depthAveraged(
        column(() => 0.5),
        { depth: u.m(0.4) },
      ),
    ).toThrow(/z of point 3 is 0.48 m/);
  });
});

const angle = (38 * Math.PI) / 180;
const rack = { from: { x: 0, y: 0 }, to: { x: 1.3 / Math.tan(angle), y: 1.3 } };
const awayFromRack = () => ({ alongFlow: u.mps(Math.cos(angle)), across: u.mps(1.1 * Math.sin(angle)) });
const even = () => ({ alongFlow: u.mps(0.5), across: u.mps(0) });

describe("alongRack", () => {
  test("splits an even flow into its sine and cosine, at every station", () => {
    const found = alongRack(even, { rack, distance: u.m(0.1), stations: 5 });
    expect(found.length).toBeCloseTo(1.3 / Math.sin(angle), 12);
    for (const { normal, tangential, sweepRatio } of found.stations) {
      expect(normal).toBeCloseTo(0.5 * Math.sin(angle), 12);
      expect(tangential).toBeCloseTo(0.5 * Math.cos(angle), 12);
      expect(sweepRatio).toBeCloseTo(1 / Math.tan(angle), 12);
    }
  });

  test("stands upstream of the rack by the distance asked for, whichever way the rack leans", () => {
    const first = alongRack(even, { rack, distance: u.m(0.1), stations: 2 }).stations[0];
    expect([first.x, first.y]).toEqual([
      expect.closeTo(-0.1 * Math.sin(angle), 12),
      expect.closeTo(0.1 * Math.cos(angle), 12),
    ]);
    const mirrored = { from: { x: 0, y: 1.5 }, to: { x: rack.to.x, y: 0.2 } };
    const other = alongRack(even, { rack: mirrored, distance: u.m(0.1), stations: 2 }).stations[0];
    expect([other.x, other.y]).toEqual([
      expect.closeTo(-0.1 * Math.sin(angle), 12),
      expect.closeTo(1.5 - 0.1 * Math.cos(angle), 12),
    ]);
    expect(other.normal).toBeCloseTo(0.5 * Math.sin(angle), 12);
  });

  test("keeps the square of the speed", () => {
    const flow = field(grid((x, y) => [0.5 + 0.1 * x, 0.1 * y]));
    for (const { x, y, normal, tangential } of alongRack(flow, { rack, distance: u.m(0.2), stations: 9 })
      .stations) {
      const found = flow(x, y);
      expect(Math.hypot(normal, tangential)).toBeCloseTo(
        Math.hypot(found?.alongFlow ?? NaN, found?.across ?? NaN),
        12,
      );
    }
  });

  test("lists stations outside of the points and has no sweep ratio where nothing presses", () => {
    const flow = field(grid(() => [0.5, 0]));
    const found = alongRack(flow, { rack, distance: u.m(0.1), stations: 11 });
    expect(found.outside.length).toBeGreaterThan(0);
    expect(found.outside.length + found.stations.length).toBe(11);
    expect(
      alongRack(awayFromRack, { rack, distance: u.m(0.1), stations: 2 }).lowestSweepRatio,
    ).toBeUndefined();
  });

  test("refuses a rack along the flow, one without length and a line outside of the points", () => {
    const options = { distance: u.m(0.1), stations: 5 };
    expect(() => alongRack(even, { ...options, rack: { from: rack.from, to: { x: 1, y: 0 } } })).toThrow(
      /it must cross it/,
    );
    expect(() => alongRack(even, { ...options, rack: { from: rack.from, to: rack.from } })).toThrow(
      /its ends must lie apart/,
    );
    expect(() => alongRack(() => undefined, { ...options, rack })).toThrow(/0 of 5 stations 0.1 m upstream/);
    expect(() => alongRack(even, { rack, distance: u.m(-1), stations: 5 })).toThrow(/distance is -1/);
  });
});

const rising = (x: number) => ({ alongFlow: u.mps(0.4 + 0.3 * x), across: u.mps(0) });
const hole = (x: number) => (Math.abs(x - 1) < 0.1 ? undefined : { alongFlow: u.mps(x), across: u.mps(0) });

describe("alongLine", () => {
  test("gives the slope of a speed that rises evenly, over each stretch", () => {
    const found = alongLine(rising, { from: { x: 0, y: 1 }, to: { x: 2, y: 1 }, stations: 5 });
    expect(found.stretch).toBe(0.5);
    expect(found.gradients.map(({ gradient }) => gradient)).toEqual(
      Array.from({ length: 4 }, () => expect.closeTo(0.3, 12)),
    );
    expect(alongLine(rising, { from: { x: 2, y: 1 }, to: { x: 0, y: 1 } }).steepestRise).toBeUndefined();
  });

  test("takes no gradient across a station outside of the points", () => {
    const found = alongLine(hole, { from: { x: 0, y: 0 }, to: { x: 2, y: 0 }, stations: 5 });
    expect(found.outside).toEqual([1]);
    expect(found.gradients.map(({ distance }) => distance)).toEqual([0.25, 1.75]);
    expect(() => alongLine(() => undefined, { from: { x: 0, y: 0 }, to: { x: 1, y: 0 } })).toThrow(
      /nothing is extrapolated/,
    );
  });
});

describe("uniformity", () => {
  test("of even values is none, and of others the coefficient of variation", () => {
    expect(uniformity([0.5, 0.5, 0.5])).toMatchObject({ coefficientOfVariation: 0, highestOverMean: 1 });
    expect(uniformity([1, 2, 3, 4])).toMatchObject({
      mean: 2.5,
      coefficientOfVariation: expect.closeTo(Math.sqrt(5 / 3) / 2.5, 12),
      highestOverMean: 1.6,
      lowestOverMean: 0.4,
    });
  });

  test("has nothing over the mean where the mean is not above 0, such as along a rack square to the flow", () => {
    expect(uniformity([0.1, -0.1])).toMatchObject({ mean: 0, coefficientOfVariation: undefined });
    const square = { from: { x: 0, y: 0 }, to: { x: 0, y: 1.5 } };
    const { tangential } = alongRack(even, { rack: square, distance: u.m(0.1) });
    expect(tangential.highestOverMean).toBeUndefined();
  });

  test("refuses a single value, and values that are no numbers", () => {
    expect(() => uniformity([1])).toThrow(/there are 1 values/);
    expect(() => uniformity([1, NaN])).toThrow(/value 2 is NaN/);
  });
});
