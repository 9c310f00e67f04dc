import { describe, expect, test } from "vitest";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { u } from "../../../kernel-helpers/src/quantity";
import { collectOutputs } from "../emitted";

describe("exercises of notebook 06", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");

  test("06.1 accepts share × channel width over ratio, and follows the ratio", () => {
    const inputs = { bypassShare: 0.04, channelWidth: u.m(17), velocityRatio: 1.2 };
    exercise("06.1", inputs, u.m(0.5667));
    expect(verdict()).toContain("✓");
    exercise("06.1", inputs, u.cm(0.5667));
    expect(verdict()).toContain("1/100 times");
    exercise("06.1", { ...inputs, velocityRatio: 1.7 }, u.m(0.4));
    expect(verdict()).toContain("✓");
  });

  test("06.2 wants the power of 1.5, not a straight line", () => {
    const inputs = { crestWidth: u.m(1), energyHead: u.m(1), rise: u.m(0.44) };
    // By hand: 1.705 · 1.44^1.5 = 1.705 · 1.728.
    exercise("06.2", inputs, u.m3ps(1.7049 * 1.728));
    expect(verdict()).toContain("✓");
    exercise("06.2", inputs, u.m3ps(1.7049 * 1.44));
    expect(verdict()).toContain("Hint");
  });

  test("06.3 divides the rise of the velocity by what is permitted", () => {
    const inputs = { entranceVelocity: u.mps(0.6), crestVelocity: u.mps(2.6) };
    exercise("06.3", { ...inputs, permittedAcceleration: u.perS(0.2) }, u.m(10));
    expect(verdict()).toContain("✓");
    exercise("06.3", { ...inputs, permittedAcceleration: u.perS(1) }, u.m(10));
    expect(verdict()).toContain("Hint");
  });

  test("06.4 subtracts squares, and leaves no fall below a chute that is too fast", () => {
    const inputs = { chuteVelocity: u.mps(3), permittedImpact: u.mps(5) };
    exercise("06.4", inputs, u.m(16 / 19.62));
    expect(verdict()).toContain("✓");
    exercise("06.4", inputs, u.m(4 / 19.62));
    expect(verdict()).toContain("Hint");
    exercise("06.4", { ...inputs, chuteVelocity: u.mps(6) }, u.m(0));
    expect(verdict()).toContain("✓");
  });

  test("06.5 takes the stricter of both rules", () => {
    exercise("06.5", { fallHeight: u.m(4.4) }, u.m(1.1));
    expect(verdict()).toContain("✓");
    exercise("06.5", { fallHeight: u.m(2) }, u.m(0.5));
    expect(verdict()).toContain("Hint");
    exercise("06.5", { fallHeight: u.m(2) }, u.m(0.9));
    expect(verdict()).toContain("✓");
  });
});
