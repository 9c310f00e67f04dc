import { describe, expect, test } from "vitest";
import { clogging, u } from "kernel-helpers";

const dayAfter = (days: number): string => new Date(Date.UTC(2026, 9, 1 + days)).toISOString().slice(0, 10);
const steady = (count: number, leaves: number, flow = 30): clogging.DebrisDay[] =>
  Array.from({ length: count }, (_, at) => ({
    date: dayAfter(at),
    riverFlow: u.m3ps(flow),
    turbineFlow: u.m3ps(flow),
    debris: { leaves: u.kg(leaves) },
  }));

const base: clogging.CloggingInputs = {
  days: steady(10, 100),
  rack: {
    rackArea: u.m2(100),
    channelArea: u.m2(60),
    clearSpacing: u.mm(20),
    cleanLossCoefficient: 0.5,
    coefficients: { scale: 6, loadExponent: 1, spacingExponent: 0.5 },
  },
  cleaning: { shortestInterval: u.h(1), reach: 1, greatestLoss: u.m(1) },
  assumptions: { stickingShare: 0.5, leafEquivalents: { leaves: 1 } },
};
const withCleaning = (cleaning: Partial<clogging.Cleaning>): clogging.CloggingInputs => ({
  ...base,
  cleaning: { ...base.cleaning, ...cleaning },
});
const withAssumptions = (assumptions: Partial<clogging.CloggingAssumptions>): clogging.CloggingInputs => ({
  ...base,
  assumptions: { ...base.assumptions, ...assumptions },
});
const clean = (0.5 * 0.5 ** 2) / (2 * 9.81);

describe("clogging.headLossOverTime", () => {
  test("without debris every day has the loss of the clean rack and no cleaning", () => {
    const run = clogging.headLossOverTime({ ...withCleaning({ threshold: u.m(0.1) }), days: steady(5, 0) });
    for (const day of run.days) {
      expect(day.meanHeadLoss).toBeCloseTo(clean, 12);
      expect(day.peakHeadLoss).toBeCloseTo(clean, 12);
    }
    expect(run.cleanings).toBe(0);
  });

  test("keeps the debris: what stayed on the rack is the stated share, and is there at the end where nothing is cleaned", () => {
    const run = clogging.headLossOverTime(base);
    expect(run.debrisCaught).toBeCloseTo(10 * 100 * 0.5, 9);
    expect(run.days[9].debrisOnRack).toBeCloseTo(500, 9);
    expect(run.days[9].peakHeadLoss).toBeCloseTo(clean * (1 + 6 * 5), 9);
  });

  test("with a straight law the mean loss of a day is that at its middle", () => {
    const run = clogging.headLossOverTime(base);
    run.days.forEach(({ meanHeadLoss }, at) => {
      expect(meanHeadLoss).toBeCloseTo(clean * (1 + 6 * (0.5 * at + 0.25)), 9);
    });
  });

  test("cleans by threshold as often as the debris fills the rack to it", () => {
    // At the threshold the load is (0.1/clean − 1)/6 kg/m²; 50 kg a day come.
    const mass = ((0.1 / clean - 1) / 6) * 100;
    const run = clogging.headLossOverTime({
      ...withCleaning({ threshold: u.m(0.1) }),
      days: steady(100, 100),
    });
    expect(Math.abs(run.cleanings - 5000 / mass)).toBeLessThan(2);
    expect(run.greatestHeadLoss).toBeGreaterThanOrEqual(0.1);
    expect(run.greatestHeadLoss).toBeLessThan(0.105);
  });

  test("cleans by schedule whatever the loss, and by both where both are given", () => {
    expect(clogging.headLossOverTime(withCleaning({ every: u.h(24) })).cleanings).toBe(10);
    expect(clogging.headLossOverTime(withCleaning({ every: u.h(8) })).cleanings).toBe(30);
    const both = clogging.headLossOverTime(withCleaning({ every: u.d(3), threshold: u.m(0.02) }));
    expect(both.cleanings).toBeGreaterThan(3);
  });

  test("a lower threshold needs more cleanings and leaves less loss", () => {
    const runs = [0.02, 0.05, 0.1].map((threshold) =>
      clogging.headLossOverTime(withCleaning({ threshold: u.m(threshold) })),
    );
    expect(runs[0].cleanings).toBeGreaterThan(runs[1].cleanings);
    expect(runs[1].cleanings).toBeGreaterThan(runs[2].cleanings);
    expect(runs[0].meanHeadLoss).toBeLessThan(runs[1].meanHeadLoss);
  });

  test("a machine that reaches 80 % leaves a rack that never gets back to clean, but not worse than without the rest", () => {
    const run = clogging.headLossOverTime({
      ...withCleaning({ every: u.h(1), reach: 0.8 }),
      days: steady(400, 300),
    });
    const last = run.days[399].meanHeadLoss;
    expect(last).toBeGreaterThan(1.3 * clean);
    expect(last).toBeLessThan((clean * 1.25) / 0.8 ** 2);
  });

  test("a machine out of order does not start; the turbines are held back and the rack cleaned by hand", () => {
    const run = clogging.headLossOverTime({
      ...withCleaning({
        threshold: u.m(0.05),
        greatestLoss: u.m(0.2),
        outOfOrder: [{ from: dayAfter(2), to: dayAfter(8) }],
      }),
      days: steady(12, 600),
    });
    expect(run.daysOutOfOrder).toBe(7);
    expect(run.days.slice(2, 9).every(({ cleanings }) => cleanings === 0)).toBe(true);
    expect(run.cleaningsByHand).toBeGreaterThan(0);
    expect(run.daysHeldBack).toBe(run.cleaningsByHand);
    expect(run.greatestHeadLoss).toBeCloseTo(0.2, 12);
    const held = run.days.find(({ cleanedByHand }) => cleanedByHand);
    expect(held?.debrisOnRack).toBe(0);
    expect((held?.turbineFlow ?? 0) + (held?.heldBack ?? 0)).toBeCloseTo(30, 9);
  });

  test("waits for the machine's shortest interval", () => {
    const run = clogging.headLossOverTime({
      ...withCleaning({ threshold: u.mm(7), shortestInterval: u.h(6) }),
      days: steady(3, 2000),
    });
    expect(run.cleanings).toBe(12);
  });

  test("a rack that is taken out for the winter loses nothing, catches nothing, and comes back clean", () => {
    const run = clogging.headLossOverTime(withAssumptions({ rackOut: { from: "10-04", to: "10-06" } }));
    expect(run.daysWithoutRack).toBe(3);
    expect(run.days[4].meanHeadLoss).toBe(0);
    expect(run.days[6].debrisOnRack).toBeCloseTo(50, 9);
    expect(run.debrisCaught).toBeCloseTo(350, 9);
    const overNewYear = clogging.headLossOverTime(
      withAssumptions({ rackOut: { from: "10-09", to: "03-01" } }),
    );
    expect(overNewYear.daysWithoutRack).toBe(2);
  });

  test("sediment covers bars once it stands over the overlay, until it is cleared", () => {
    const run = clogging.headLossOverTime({
      ...withAssumptions({
        sediment: {
          risePerDay: u.m(0.2),
          aboveFlow: u.m3ps(20),
          overlayHeight: u.m(0.5),
          rackHeight: u.m(4),
          clearedEvery: u.d(6),
        },
      }),
      days: steady(10, 0),
    });
    const covered = run.days.map(({ coveredShare }) => coveredShare);
    [0, 0, 0.025, 0.075, 0.125, 0.175, 0, 0, 0.025, 0.075].forEach((share, at) => {
      expect(covered[at]).toBeCloseTo(share, 12);
    });
    expect(run.days[5].meanHeadLoss).toBeCloseTo(clean / (1 - 0.175) ** 2, 10);
  });

  test("debris follows the water: half of it comes to a plant that takes half of the river", () => {
    const days = steady(4, 100).map((day) => ({ ...day, riverFlow: u.m3ps(60) }));
    expect(clogging.headLossOverTime({ ...base, days }).debrisCaught).toBeCloseTo(100, 9);
  });

  test("states every assumption, warns of counting twice, and of loads beyond the trials", () => {
    const run = clogging.headLossOverTime({ ...base, rack: { ...base.rack, testedLoad: [0.1, 2] } });
    expect(run.daysBeyondTrials).toBe(6);
    expect(run.cautions.join()).toContain("6 of 10 days");
    expect(run.cautions.join()).toContain("counts the same debris twice");
    expect(run.assumptions.join(" ")).toContain("50 % of the debris drawn to the rack stays on it.");
  });

  test.each<[string, clogging.CloggingInputs, string]>([
    ["no days", { ...base, days: [] }, "there are no days"],
    [
      "a gap",
      { ...base, days: base.days.filter((_, at) => at !== 3) },
      "2026-10-05 does not follow the day before it",
    ],
    [
      "a type without equivalent",
      { ...base, days: [{ ...base.days[0], debris: { wood: u.kg(3) } }] },
      'the debris of 2026-10-01 has the type "wood"; leafEquivalents knows leaves.',
    ],
    [
      "more water than the river has",
      { ...base, days: [{ ...base.days[0], riverFlow: u.m3ps(10) }] },
      "turbineFlow of 2026-10-01 is 30 m³/s; it must be at most riverFlow, 10 m³/s.",
    ],
    [
      "negative debris",
      { ...base, days: [{ ...base.days[0], debris: { leaves: u.kg(-1) } }] },
      "leaves of 2026-10-01 is -1 kg; it must be at least 0 kg.",
    ],
    [
      "a threshold above the greatest loss",
      withCleaning({ threshold: u.m(2) }),
      "threshold is 2 m; it must be at most greatestLoss, 1 m",
    ],
    ["a reach of nothing", withCleaning({ reach: 0 }), "reach is 0; it must be above 0 and at most 1"],
    [
      "a period that ends before it begins",
      withCleaning({ outOfOrder: [{ from: "2026-10-05", to: "2026-10-01" }] }),
      "the earlier first",
    ],
    [
      "a day of the year that is none",
      withAssumptions({ rackOut: { from: "13-01", to: "02-01" } }),
      'rackOut has the day "13-01"',
    ],
  ])("refuses %s", (_, inputs, sentence) => {
    expect(() => clogging.headLossOverTime(inputs)).toThrow(sentence);
  });
});
