import { describe, expect, test } from "vitest";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { u } from "../../../kernel-helpers/src/quantity";
import { collectOutputs } from "../emitted";

describe("exercises of notebook 05", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");

  test("05.1 asks for the mass on the whole rack, and follows the threshold", () => {
    const rack = {
      coefficients: { scale: 5, loadExponent: 2, spacingExponent: 0.5 },
      rackArea: u.m2(100),
      clearSpacing: u.mm(20),
      cleanHeadLoss: u.mm(5),
      threshold: u.mm(105),
    };
    // By hand: the factor is 21, 20 = 5 load², load 2 kg/m².
    exercise("05.1", rack, u.kg(200));
    expect(verdict()).toContain("✓");
    exercise("05.1", rack, u.kg(2));
    expect(verdict()).not.toContain("✓");
    exercise("05.1", { ...rack, threshold: u.mm(30) }, u.kg(100));
    expect(verdict()).toContain("✓");
  });

  test("05.2 counts the water above the bypass's own, for twice the time", () => {
    const flushing = {
      flushingDischarge: u.m3ps(3),
      bypassDischarge: u.m3ps(1),
      flushingTime: u.min(5),
      flushings: 10,
    };
    exercise("05.2", flushing, u.m3(2 * 600 * 10));
    expect(verdict()).toContain("✓");
    exercise("05.2", flushing, u.m3(3 * 600 * 10));
    expect(verdict()).toContain("Hint");
  });

  test("05.3 takes the square of the velocity", () => {
    exercise("05.3", { reach: 0.8 }, 1.5625);
    expect(verdict()).toContain("✓");
    exercise("05.3", { reach: 0.8 }, 1.25);
    expect(verdict()).toContain("Hint");
  });

  test("05.4 shortens the span by the root, and spots metres for millimetres", () => {
    const bar = {
      span: u.m(0.8),
      naturalFrequency: u.Hz(20),
      sheddingFrequency: u.Hz(20),
      leastRatio: 4,
    };
    exercise("05.4", bar, u.m(0.4));
    expect(verdict()).toContain("✓");
    exercise("05.4", bar, u.mm(0.4));
    expect(verdict()).toContain("1/1000 times");
    exercise("05.4", { ...bar, leastRatio: 1 }, u.m(0.8));
    expect(verdict()).toContain("✓");
  });

  test("05.5 weighs energy against the worth of cleanings", () => {
    const choices = [
      { threshold: u.cm(2), cleanings: 100, energy: u.MWh(10) },
      { threshold: u.cm(5), cleanings: 40, energy: u.MWh(20) },
      { threshold: u.cm(10), cleanings: 20, energy: u.MWh(60) },
    ];
    exercise("05.5", { choices, worthOfCleaning: u.MWh(0.5) }, u.cm(5));
    expect(verdict()).toContain("✓");
    exercise("05.5", { choices, worthOfCleaning: u.MWh(0.1) }, u.cm(2));
    expect(verdict()).toContain("✓");
    exercise("05.5", { choices, worthOfCleaning: u.MWh(0.1) }, u.cm(10));
    expect(verdict()).toContain("Hint");
  });
});
