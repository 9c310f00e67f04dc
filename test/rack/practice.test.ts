import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rack, u } from "kernel-helpers";

const layout = {
  channelWidth: u.m(17),
  rackAngle: u.deg(38),
  approachVelocity: u.mps(0.556),
  clearSpacing: u.mm(18),
};

const met = (rows: readonly rack.PracticeRow[]) => Object.fromEntries(rows.map((row) => [row.id, row.met]));

describe("rack.checkPractice", () => {
  test("checks each rule against its limit", () => {
    expect(met(rack.checkPractice(layout))).toEqual({
      rackAngle: true,
      normalVelocity: true,
      normalVelocityWeakSwimmers: false,
      normalVelocityWeakSwimmersStrict: false,
      sweepTime: false,
      clearSpacingSmolt: false,
      clearSpacingSilverEel: false,
    });
  });

  test("takes a value at its limit: 45°, 10 mm", () => {
    const rows = met(rack.checkPractice({ ...layout, rackAngle: u.deg(45), clearSpacing: u.mm(10) }));
    expect(rows).toMatchObject({ rackAngle: true, clearSpacingSmolt: true, clearSpacingSilverEel: true });
  });

  test("prints value and limit in the trade's units and says what to do only where a limit is not met", () => {
    const rows = rack.checkPractice(layout);
    const sweep = rows.find((row) => row.id === "sweepTime");
    expect(sweep).toMatchObject({ value: "63 s", limit: "at most 60 s" });
    expect(rows.filter((row) => row.met === (row.whatToDo !== ""))).toEqual([]);
  });

  test("defers to the local code in every rule", () => {
    expect(rack.checkPractice(layout).filter((row) => !row.source.text.includes("local code"))).toEqual([]);
    expect(
      Object.values(rack.practiceLimits).filter(({ source }) => source.provenance !== "practice"),
    ).toEqual([]);
  });

  test("says that nothing sweeps along a rack square to the flow", () => {
    const rows = rack.checkPractice({ ...layout, rackAngle: u.deg(90) });
    const sweep = rows.find((row) => row.id === "sweepTime");
    expect(sweep).toMatchObject({ value: "never: nothing sweeps along the rack", met: false });
  });

  test("checks the inclination only of a rack that leans, and then not the angle of one that stands square", () => {
    const leaning = { ...layout, rackAngle: u.deg(90), inclination: u.deg(26) };
    const rows = met(rack.checkPractice(leaning));
    expect(rows).toMatchObject({ inclination: true, normalVelocity: true });
    expect(Object.keys(rows)).not.toContain("rackAngle");
    expect(Object.keys(rows)).not.toContain("sweepTime");
    expect(met(rack.checkPractice({ ...leaning, inclination: u.deg(30) }))).toMatchObject({
      inclination: false,
    });
  });

  test("at 45° in plan the velocity along the rack equals that square to it, at 26° just over twice as large", () => {
    const angles = { approachVelocity: u.mps(1), rackAngle: rack.practiceLimits.rackAngle.limit };
    expect(rack.tangentialVelocity(angles) / rack.normalVelocity(angles)).toBeCloseTo(1, 12);
    const upTheSlope = 1 / Math.tan(rack.practiceLimits.inclination.limit);
    expect(upTheSlope).toBeGreaterThanOrEqual(2);
    expect(upTheSlope).toBeLessThan(2.1);
  });

  test("refuses a layout that can't be built", () => {
    expect(() => rack.checkPractice({ ...layout, clearSpacing: u.mm(-5) })).toThrow(
      "rack.checkPractice: clearSpacing is -5 mm; it must be above 0 mm.",
    );
  });

  test("a rule once met stays met as the approach velocity falls, but for the sweep time", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.1, max: 2, noNaN: true }),
        fc.double({ min: 0.1, max: 1, noNaN: true }),
        (speed, share) => {
          const fast = met(rack.checkPractice({ ...layout, approachVelocity: u.mps(speed) }));
          const slow = met(rack.checkPractice({ ...layout, approachVelocity: u.mps(share * speed) }));
          expect(Object.keys(fast).filter((id) => id !== "sweepTime" && fast[id] && !slow[id])).toEqual([]);
          expect(slow.sweepTime && !fast.sweepTime).toBe(false);
        },
      ),
    );
  });
});

describe("rack.editLimits", () => {
  test("changes what it is told, says where it comes from and leaves the usual limits alone", () => {
    const limits = rack.editLimits({ sweepTime: u.s(90), clearSpacingSmolt: u.mm(20) }, "the river's permit");
    expect(met(rack.checkPractice(layout, limits))).toMatchObject({
      sweepTime: true,
      clearSpacingSmolt: true,
    });
    expect(limits.sweepTime.source).toEqual({ provenance: "stated", text: "the river's permit" });
    const rows = rack.checkPractice(layout, limits);
    expect(rows.find((row) => row.id === "sweepTime")?.from).toBe(
      "the river's permit (stated by the reader)",
    );
    expect(limits.rackAngle).toBe(rack.practiceLimits.rackAngle);
    expect(rack.practiceLimits.sweepTime.limit).toBe(60);
  });

  test("refuses a rule that doesn't exist and a limit that is none", () => {
    const hostile = rack.editLimits as (changes: Readonly<Record<string, unknown>>, from: string) => unknown;
    expect(() => hostile({ sweeptime: 45 }, "x")).toThrow(
      'there is no rule "sweeptime"; the rules are rackAngle, ',
    );
    for (const value of [0, -1, Number.NaN, "45"])
      expect(() => hostile({ sweepTime: value }, "x")).toThrow("it must be a quantity above 0");
  });
});
