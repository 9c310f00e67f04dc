import { describe, expect, test } from "vitest";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { u } from "../../../kernel-helpers/src/quantity";
import { collectOutputs } from "../emitted";

describe("exercises of notebook 18", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");
  const rack = { rackAngle: u.deg(30), normalVelocity: u.mps(0.3) };

  test("18.1 takes what the fish meets the gap with over the relative width", () => {
    // By hand: a grayling meets the gap with a tenth of its length; 25 mm / 0.8 = 31.25 mm.
    const asked = { totalLength: u.mm(250), species: "grayling", relativeWidth: 0.8 };
    exercise("18.1", asked, u.mm(31.25));
    expect(verdict()).toContain("✓");
    exercise("18.1", asked, u.mm(20));
    expect(verdict()).toContain("Hint");
    exercise("18.1", asked, u.m(31.25));
    expect(verdict()).toContain("1000");
  });

  test("18.2 divides by the sine of the angle", () => {
    exercise("18.2", rack, u.mps(0.6));
    expect(verdict()).toContain("✓");
    exercise("18.2", rack, u.mps(0.15));
    expect(verdict()).toContain("Hint");
  });

  test("18.3 multiplies sweep time, normal velocity and cosine", () => {
    exercise("18.3", { ...rack, sweepTime: u.s(60) }, u.m(18 * Math.cos(Math.PI / 6)));
    expect(verdict()).toContain("✓");
    exercise("18.3", { ...rack, sweepTime: u.s(30) }, u.m(18 * Math.cos(Math.PI / 6)));
    expect(verdict()).toContain("✗");
  });
});
