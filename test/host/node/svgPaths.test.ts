import { describe, expect, test } from "vitest";
import { pathLength, pathLines, pointAlong } from "../../../kernel-helpers/src/host/node/svgPaths";

const circle = "M3,0A3,3 0 1,1 0,-3A3,3 0 0,1 3,0Z";

describe("pathLength", () => {
  test("of a circle is its circumference", () => {
    expect(pathLength(circle) / (6 * Math.PI)).toBeCloseTo(1, 2);
  });
  test("of a closed rectangle is its circumference, written absolutely or relatively", () => {
    expect(pathLength("M1,1H5V4H1Z")).toBe(14);
    expect(pathLength("m1,1h4v3h-4z")).toBe(14);
  });
  test("of a curve whose control points lie on a line is the line's", () => {
    expect(pathLength("M0,0C1,0 2,0 3,0")).toBeCloseTo(3, 10);
    expect(pathLength("M0,0Q1,1 2,2")).toBeCloseTo(2 * Math.SQRT2, 10);
    expect(pathLength("M0,0C1,0 2,0 3,0S5,0 6,0")).toBeCloseTo(6, 10);
  });
  test("leaves out the way between two stretches", () => {
    expect(pathLength("M0,0L1,0M5,0L6,0")).toBe(2);
  });
});

describe("pointAlong", () => {
  test("walks along the path and stays at its ends", () => {
    expect(pointAlong("M0,0L4,0L4,4", 6)).toEqual([4, 2]);
    expect(pointAlong("M0,0L4,0L4,4", -1)).toEqual([0, 0]);
    expect(pointAlong("M0,0L4,0L4,4", 99)).toEqual([4, 4]);
  });
});

test("a circle's points reach its radius on all sides", () => {
  const points = pathLines(circle).flat();
  expect(Math.min(...points.map(([x]) => x))).toBeCloseTo(-3, 1);
  expect(Math.max(...points.map(([, y]) => y))).toBeCloseTo(3, 1);
  for (const [x, y] of points) expect(Math.hypot(x, y)).toBeCloseTo(3, 10);
});
