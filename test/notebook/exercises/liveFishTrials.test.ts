import { describe, expect, test } from "vitest";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { collectOutputs } from "../emitted";

describe("exercises of notebook 09", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");

  test("09.1 keeps refused fish out of the denominator of those that passed", () => {
    exercise("09.1", { bypassed: 57, rackPassed: 108 }, 57 / 165);
    expect(verdict()).toContain("✓");
    exercise("09.1", { bypassed: 57, rackPassed: 108 }, 57 / 197);
    expect(verdict()).toContain("Hint");
    exercise("09.1", { bypassed: 57, rackPassed: 108 }, 5700 / 165);
    expect(verdict()).toContain("a share is a ratio from 0 to 1");
  });

  test("09.2 divides the count by the design effect, and follows the correlation", () => {
    const trial = { active: 800, fishPerRun: 4, correlation: 0.2 };
    exercise("09.2", trial, 500);
    expect(verdict()).toContain("✓");
    exercise("09.2", trial, 800);
    expect(verdict()).toContain("Hint");
    exercise("09.2", { ...trial, correlation: 1 }, 200);
    expect(verdict()).toContain("✓");
  });

  test("09.3 leaves the bypassed fish and widens the denominator", () => {
    exercise("09.3", { bypassed: 40, active: 80, inactive: 20 }, 0.4);
    expect(verdict()).toContain("✓");
    exercise("09.3", { bypassed: 40, active: 80, inactive: 20 }, 0.5);
    expect(verdict()).toContain("Hint");
  });

  test("09.4 takes the rise of the curve as a share of the fish still waiting", () => {
    const course = { shareBefore: 0.45, shareAtEnd: 0.6, waiting: 0.3 };
    exercise("09.4", course, 0.5);
    expect(verdict()).toContain("✓");
    exercise("09.4", course, 0.15);
    expect(verdict()).toContain("Hint");
  });

  test("09.5 takes the root of the ratio of design effects", () => {
    const runs = { fishPerRun: 4, otherFishPerRun: 2, correlation: 0.4 };
    exercise("09.5", runs, Math.sqrt(1.4 / 2.2));
    expect(verdict()).toContain("✓");
    exercise("09.5", runs, 1.4 / 2.2);
    expect(verdict()).toContain("Hint");
    exercise("09.5", { ...runs, correlation: 0 }, 1);
    expect(verdict()).toContain("✓");
  });
});
