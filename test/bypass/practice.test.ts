import { bypass, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const values: bypass.BypassValues = {
  shareOfTurbineFlow: 0.04,
  velocityRatio: 1.24,
  acceleration: u.perS(0.62),
  entranceWidth: u.m(0.55),
  entranceHeight: u.m(3.6),
  entranceAboveBed: u.m(0),
  impactVelocity: u.mps(7.3),
  fallHeight: u.m(1.1),
  poolDepth: u.m(1.2),
};

const unmet = (changes: Partial<bypass.BypassValues>, fish: bypass.BypassFish = {}): readonly string[] =>
  bypass
    .checkPractice({ ...values, ...changes }, fish)
    .filter((row) => !row.met)
    .map((row) => row.id);

describe("bypass.checkPractice", () => {
  test.each<[Partial<bypass.BypassValues>, readonly string[]]>([
    [{}, []],
    [{ shareOfTurbineFlow: 0.019 }, ["leastShare"]],
    [{ shareOfTurbineFlow: 0.101 }, ["mostShare"]],
    [{ velocityRatio: 1.09 }, ["leastVelocityRatio"]],
    [{ velocityRatio: 1.51 }, ["mostVelocityRatio"]],
    [{ acceleration: u.perS(1.01) }, ["acceleration"]],
    [{ entranceWidth: u.m(0.49), entranceHeight: u.m(0.49) }, ["entranceWidth", "entranceHeight"]],
    [{ impactVelocity: u.mps(7.7) }, ["impactVelocity"]],
    [{ impactVelocity: u.mps(15.1) }, ["impactVelocity", "impactVelocityInjury"]],
    [{ poolDepth: u.m(0.89) }, ["poolDepth"]],
    [{ fallHeight: u.m(4.9) }, ["poolDepthOverFall"]],
    [{ entranceAboveBed: u.m(2) }, ["reachesBed"]],
  ])("finds what a rule does not meet: %j", (changes, ids) => {
    expect(unmet(changes)).toEqual(ids);
  });

  test("takes values at their limits", () => {
    const atLimits = {
      shareOfTurbineFlow: 0.02,
      velocityRatio: 1.5,
      acceleration: u.perS(1),
      entranceWidth: u.m(0.5),
      entranceHeight: u.m(0.5),
      impactVelocity: u.mps(7.6),
      fallHeight: u.m(3.6),
      poolDepth: u.m(0.9),
    };
    expect(unmet(atLimits)).toEqual([]);
  });

  test("checks the acceleration of fry and the reach to the bed only for those fish", () => {
    expect(unmet({}, { fry: true })).toEqual(["accelerationFry"]);
    expect(unmet({ entranceAboveBed: u.m(2) }, { eel: false })).toEqual([]);
  });

  test("says what to do, where a rule comes from and that it gives way to the local code", () => {
    const rows = bypass.checkPractice({ ...values, entranceAboveBed: u.m(2), impactVelocity: u.mps(8) });
    expect(rows.filter((row) => row.met === (row.whatToDo !== ""))).toEqual([]);
    expect(rows.filter((row) => !row.from.includes("local code"))).toEqual([]);
    expect(rows.find((row) => row.id === "acceleration")?.from).toContain("from memory");
    expect(rows.find((row) => row.id === "reachesBed")?.value).toBe("2 m above the bed");
    expect(rows.find((row) => row.id === "leastShare")).toMatchObject({
      value: "4 %",
      limit: "at least 2 %",
    });
  });

  test("an outfall under water has no fall to compare with", () => {
    const rows = bypass.checkPractice({ ...values, fallHeight: u.m(0) });
    expect(rows.find((row) => row.id === "poolDepthOverFall")).toMatchObject({
      met: true,
      value: "no fall: the pool stands over the outfall",
    });
  });

  test("refuses values that no bypass has", () => {
    expect(() => bypass.checkPractice({ ...values, poolDepth: u.m(-1) })).toThrow(
      "bypass.checkPractice: poolDepth is -1 m; it must be at least 0 m.",
    );
  });
});

test("bypass.editLimits changes what it is told and says where it comes from", () => {
  const limits = bypass.editLimits({ leastShare: 0.05, poolDepth: u.m(2) }, "the river's permit");
  const rows = bypass.checkPractice(values, {}, limits).filter((row) => !row.met);
  expect(rows.map((row) => row.id)).toEqual(["leastShare", "poolDepth"]);
  expect(rows[0].from).toBe("the river's permit (stated by the reader)");
  expect(bypass.practiceLimits.leastShare.limit).toBe(0.02);
});
