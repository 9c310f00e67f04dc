// Worked exercises whose author could not be identified: they guard against change and do not count as published.
import { describe, expect, test } from "vitest";
import { bypass, rackLoss, river, u } from "kernel-helpers";

/** How far a result lies from a printed number. */
const off = (value: number, printed: number): number => Math.abs(value - printed);

const record = (flows: readonly number[]) =>
  flows.map((flow, at) => ({
    date: `2026-03-${String(at + 1).padStart(2, "0")}`,
    discharge: u.m3ps(flow),
  }));

describe("flow duration of ten days, author not identified, recomputed by hand", () => {
  const tenDays = record([4.5, 3.0, 2.4, 1.9, 1.6, 1.3, 1.0, 0.6, 0.4, 0.25]);
  const duration = river.flowDuration(tenDays);

  test("has the mean 1.695 m³/s", () => {
    expect(off(duration.mean, 1.695)).toBeLessThanOrEqual(1e-12);
    expect(off(river.meanFlow(tenDays), 1.695)).toBeLessThanOrEqual(1e-12);
  });

  test.each([
    [0.25, 2.55],
    [0.5, 1.45],
    [0.75, 0.55],
    [0.9, 0.265],
  ])("is at or above its flow for the share %d of the time: %d m³/s", (share, flow) => {
    expect(off(duration.quantile(share), flow)).toBeLessThanOrEqual(1e-12);
  });

  test("lets a design discharge of 1.9 m³/s take 75.22 % of the water", () => {
    expect(off(river.capturedShare(tenDays, u.m3ps(1.9)), 0.7522)).toBeLessThanOrEqual(0.00005);
  });
});

test("quantiles with p = i/(n+1) agree with NumPy's method weibull (NumPy 2.4.6, recomputed)", () => {
  const duration = river.flowDuration(
    record([31.2, 55.0, 12.4, 18.9, 18.9, 77.1, 40.3, 25.5, 9.8, 101.7, 64.4, 15.0, 22.2]),
  );
  const shares = [0.08, 0.2, 0.33, 0.5, 0.71, 0.92];
  const flows = [98.748, 66.94, 45.886, 25.5, 18.9, 10.112];
  shares.forEach((share, at) => expect(off(duration.quantile(share), flows[at])).toBeLessThanOrEqual(1e-9));
});

test("the metric bar-screen form 0.0729 (V² − v²) holds with a discharge coefficient of 0.7", () => {
  // An exercise with 5 cm gaps and 0.6 cm bars at 8 m/s: 8.96 m/s between the bars, 1.187 m; author not identified.
  expect(
    off(rackLoss.openingVelocity({ openingVelocity: u.mps(8.96), approachVelocity: u.mps(8) }), 1.187),
  ).toBeLessThanOrEqual(0.002);
});

test("a bar screen with 0.446683 m/s between the bars and 0.304599 m/s before them loses 0.007772 m", () => {
  // A lecture's notebook on water treatment, bars of 2 cm, gaps of 3.8 cm, 200 L/s; printed, author not identified.
  expect(
    off(
      rackLoss.openingVelocity({
        openingVelocity: u.mps(0.446683),
        approachVelocity: u.mps(0.304599),
      }),
      0.007772,
    ),
  ).toBeLessThanOrEqual(1e-6);
});

// A school exercise on the Francis formula, author not identified: L 4 m, H 0.36 m, two contractions.
test("the contracted weir of a school exercise", () => {
  const flow = bypass.contractedWeir({ crestWidth: u.m(4), head: u.m(0.36), contractions: 2 });
  expect(Math.abs(flow - 1.56)).toBeLessThan(0.005);
});

// Exercise 15.19 of a text on fluid mechanics, author not identified: b 10 m, H 0.65 m.
test("the broad-crested weir of an exercise, and its critical depth", () => {
  const flow = bypass.broadCrestedWeir({ crestWidth: u.m(10), energyHead: u.m(0.65) });
  expect(Math.abs(flow - 8.9)).toBeLessThan(0.05);
  expect(bypass.criticalDepth({ discharge: flow, width: u.m(10) })).toBeCloseTo(0.43, 2);
});
