import { energy, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const days = (flows: readonly number[]) =>
  flows.map((flow, at) => ({ date: `2026-03-0${at + 1}`, turbineFlow: u.m3ps(flow) }));

describe("annualLoss", () => {
  test("sums the power of every day's loss over the day", () => {
    const loss = energy.annualLoss({
      days: days([10, 20, 0]),
      lossAt: (flow) => u.m(0.0002 * flow ** 2),
      efficiency: (flow) => (flow > 15 ? 0.9 : 0.8),
    });
    const byHand = 1000 * 9.81 * 86_400 * (10 * 0.02 * 0.8 + 20 * 0.08 * 0.9);
    expect(loss.total).toBeCloseTo(byHand, 3);
    expect(loss.annual / ((byHand / 3) * 365.25)).toBeCloseTo(1, 12);
    expect([loss.days, loss.daysRunning]).toEqual([3, 2]);
  });

  test.each([
    [{ days: [], lossAt: () => u.m(0.1), efficiency: 0.9 }, "the record has no days"],
    [{ days: days([-1]), lossAt: () => u.m(0.1), efficiency: 0.9 }, "turbineFlow of 2026-03-01 is -1 m³/s"],
    [{ days: days([5]), lossAt: () => u.m(-0.1), efficiency: 0.9 }, "the head loss of 2026-03-01 is -0.1 m"],
    [{ days: days([5]), lossAt: () => u.m(0.1), efficiency: 90 }, "the efficiency of 2026-03-01 is 90"],
  ])("refuses what can't be, naming the day: %#", (options, sentence) => {
    expect(() => energy.annualLoss(options)).toThrow(sentence);
  });
});

// Çengel & Cimbala, Fluid Mechanics, ex. 5-13: Q 100 m³/s, H 120 m, head loss 35 m, efficiency 0.80; inputs printed,
// 66.7 MW left.
test("a plant of a textbook keeps the power that its head loss leaves", () => {
  const left = energy.power({ discharge: u.m3ps(100), head: u.m(120 - 35), efficiency: 0.8 });
  expect(Math.abs(u.to.MW(left) - 66.7)).toBeLessThan(0.05);
});
