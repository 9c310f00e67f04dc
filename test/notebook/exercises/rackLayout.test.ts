import { describe, expect, test } from "vitest";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { u } from "../../../kernel-helpers/src/quantity";
import { collectOutputs } from "../emitted";

describe("exercises of notebook 03", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");
  const plan = { channelWidth: u.m(17), rackAngle: u.deg(38), approachVelocity: u.mps(0.6) };
  const weak = { approachVelocity: u.mps(0.6), permittedNormalVelocity: u.mps(0.3) };
  const built = { ...plan, waterDepth: u.m(3), rackAngle: u.deg(30), permittedNormalVelocity: u.mps(0.3) };
  const flat = { ...plan, rackAngle: u.deg(25), permittedSweepTime: u.s(60) };

  test("03.2 accepts half the sweep time and refuses the whole", () => {
    // By hand: 17 / sin 38° / (0.6 cos 38°) = 58.40 s for the whole rack.
    exercise("03.2", plan, u.s(29.2));
    expect(verdict()).toContain("✓");
    exercise("03.2", plan, u.s(58.4));
    expect(verdict()).toContain("Hint");
    exercise("03.2", { ...plan, approachVelocity: u.mps(1.2) }, u.s(14.6));
    expect(verdict()).toContain("✓");
  });

  test("03.3 accepts the angle whose sine is the ratio of the velocities, and spots radians taken for degrees", () => {
    exercise("03.3", weak, u.deg(30));
    expect(verdict()).toContain("right, 30°");
    exercise("03.3", weak, u.deg(Math.asin(0.5)));
    expect(verdict()).toContain("look at its unit");
    exercise("03.3", weak, u.deg(38));
    expect(verdict()).toContain("Hint");
  });

  test("03.3 asks for a rack square to the flow where every angle keeps the limit", () => {
    exercise("03.3", { ...weak, approachVelocity: u.mps(0.2) }, u.deg(90));
    expect(verdict()).toContain("✓");
  });

  test("03.4 accepts the discharge through the rack's wetted area, not the channel's", () => {
    exercise("03.4", built, u.m3ps(0.3 * 34 * 3));
    expect(verdict()).toContain("✓");
    exercise("03.4", built, u.m3ps(0.3 * 17 * 3));
    expect(verdict()).toContain("Hint");
    exercise("03.4", built, u.Lps(0.3 * 34 * 3));
    expect(verdict()).toContain("1/1000 times");
  });

  test("03.5 counts whole entrances and follows the permitted time", () => {
    // By hand: 17 / sin 25° / (0.6 cos 25°) = 73.97 s.
    exercise("03.5", flat, 2);
    expect(verdict()).toContain("✓");
    exercise("03.5", flat, 1.23);
    expect(verdict()).toContain("whole");
    exercise("03.5", { ...flat, permittedSweepTime: u.s(80) }, 1);
    expect(verdict()).toContain("✓");
  });
});
