import { describe, expect, test } from "vitest";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { u } from "../../../kernel-helpers/src/quantity";
import { collectOutputs } from "../emitted";

describe("exercises of notebook 07", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");
  const samples = [95, 84, 80, 60].map((correlation) => ({ correlation }));

  test("07.1 accepts the share below the limit and follows the limit", () => {
    exercise("07.1", { samples, lowestCorrelation: 85 }, 0.75);
    expect(verdict()).toContain("✓");
    exercise("07.1", { samples, lowestCorrelation: 70 }, 0.75);
    expect(verdict()).toContain("Hint");
    exercise("07.1", { samples, lowestCorrelation: 70 }, 0.25);
    expect(verdict()).toContain("✓");
  });

  test("07.2 asks for four times the time, not twice", () => {
    exercise("07.2", { duration: u.s(60) }, u.s(240));
    expect(verdict()).toContain("✓");
    exercise("07.2", { duration: u.s(60) }, u.s(120));
    expect(verdict()).toContain("Hint");
  });

  test("07.3 takes the part of the cross flow away and spots a slip of units", () => {
    const water = { alongFlow: u.mps(0.6), across: u.mps(0.1), rackAngle: u.deg(30) };
    exercise("07.3", water, u.mps(0.6 * 0.5 - 0.1 * Math.sqrt(0.75)));
    expect(verdict()).toContain("✓");
    exercise("07.3", water, u.mps(0.3));
    expect(verdict()).toContain("Hint");
    exercise("07.3", water, u.cmps(0.6 * 0.5 - 0.1 * Math.sqrt(0.75)));
    expect(verdict()).toContain("1/100 times");
  });

  test("07.4 divides the rise by the permitted gradient", () => {
    const rise = { velocityStart: u.mps(0.5), velocityEnd: u.mps(0.75), permittedAcceleration: u.perS(0.2) };
    exercise("07.4", rise, u.m(1.25));
    expect(verdict()).toContain("✓");
    exercise("07.4", rise, u.m(0.05));
    expect(verdict()).toContain("Hint");
  });

  test("07.5 names the layout with the lower velocity", () => {
    const highestNormal = { "full depth": u.mps(0.31), "bottom opening": u.mps(0.4) };
    exercise("07.5", { highestNormal }, "full depth");
    expect(verdict()).toContain("✓");
    exercise("07.5", { highestNormal }, "bottom opening");
    expect(verdict()).toContain("Hint");
  });
});
