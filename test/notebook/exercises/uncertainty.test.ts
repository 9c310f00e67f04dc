import { describe, expect, test } from "vitest";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { u } from "../../../kernel-helpers/src/quantity";
import { collectOutputs } from "../emitted";

describe("exercises of notebook 15", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");
  const spacing = { clearSpacing: u.mm(18), spacingError: u.mm(0.4), share: 0.975 };

  test("15.1 reads a quantile", () => {
    exercise("15.1", spacing, u.mm(18.784));
    expect(verdict()).toContain("✓");
    exercise("15.1", spacing, u.mm(17.216));
    expect(verdict()).toContain("Hint");
    exercise("15.1", { ...spacing, clearSpacing: u.mm(12) }, u.mm(12.784));
    expect(verdict()).toContain("✓");
  });

  test("15.2 asks four times the draws for half the error", () => {
    exercise("15.2", { standardDeviation: 0.02, wanted: 0.001 }, 400);
    expect(verdict()).toContain("✓");
    exercise("15.2", { standardDeviation: 0.02, wanted: 0.0005 }, 1600);
    expect(verdict()).toContain("✓");
    exercise("15.2", { standardDeviation: 0.02, wanted: 0.001 }, 20);
    expect(verdict()).toContain("Hint");
  });

  test("15.3 takes the share off the variance", () => {
    exercise("15.3", { now: 0.02, first: 0.75 }, 0.01);
    expect(verdict()).toContain("✓");
    exercise("15.3", { now: 0.02, first: 0.75 }, 0.015);
    expect(verdict()).toContain("Hint");
    exercise("15.3", { now: 0.02, first: 0.75 }, 1);
    expect(verdict()).toContain("100 times");
  });

  test("15.4 joins two sources", () => {
    exercise("15.4", { prior: 0.03, instrument: 0.04 }, 0.024);
    expect(verdict()).toContain("✓");
    exercise("15.4", { prior: 0.03, instrument: 0.04 }, 0.05);
    expect(verdict()).toContain("Hint");
  });

  test("15.5 weighs the gain against the cost", () => {
    const candidates = [
      { input: "curve", reduction: 0.01, cost: 50 },
      { input: "mortalityFactor", reduction: 0.006, cost: 20 },
    ];
    exercise("15.5", { candidates }, "mortalityFactor");
    expect(verdict()).toContain("✓");
    exercise("15.5", { candidates }, "curve");
    expect(verdict()).toContain("Hint");
    exercise("15.5", { candidates: [{ ...candidates[0], cost: 10 }, candidates[1]] }, "curve");
    expect(verdict()).toContain("✓");
  });
});
