import { describe, expect, test } from "vitest";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { collectOutputs } from "../emitted";

describe("exercises of notebook 16", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");
  const plants = [
    { plant: "top", next: "mid", entering: 500, survival: 0.4 },
    { plant: "mid", next: "low", entering: 1000, survival: 0.7, reachMortality: 0.2 },
    { plant: "low", entering: 4000, survival: 0.8 },
  ];
  const options = [
    { plant: "top", survival: 0.95, cost: 1 },
    { plant: "mid", survival: 0.95, cost: 2 },
    { plant: "low", survival: 0.9, cost: 6 },
  ];

  test("16.1 multiplies from the plant down to the sea", () => {
    exercise("16.1", { plants, plant: "mid" }, 0.7 * 0.8 * 0.8);
    expect(verdict()).toContain("✓");
    exercise("16.1", { plants, plant: "mid" }, 0.8 * 0.8);
    expect(verdict()).toContain("Hint");
    exercise("16.1", { plants, plant: "mid" }, 44.8);
    expect(verdict()).toContain("100 times");
    exercise("16.1", { plants, plant: "low" }, 0.8);
    expect(verdict()).toContain("✓");
  });

  test("16.2 takes the root", () => {
    exercise("16.2", { count: 5, wanted: 0.6 }, 0.9029);
    expect(verdict()).toContain("✓");
    exercise("16.2", { count: 5, wanted: 0.6 }, 1 - 0.4 / 5);
    expect(verdict()).toContain("Hint");
    exercise("16.2", { count: 2, wanted: 0.49 }, 0.7);
    expect(verdict()).toContain("✓");
  });

  test("16.3 counts what a standstill gains at the sea", () => {
    // By hand: 1200 fish come to mid, 0.27 more of them survive it, 0.8 the reach and 0.8 the last plant.
    const standstill = { plants, plant: "mid", survival: 0.97 };
    exercise("16.3", standstill, 1200 * 0.27 * 0.64);
    expect(verdict()).toContain("✓");
    exercise("16.3", standstill, 1200 * 0.27);
    expect(verdict()).toContain("Hint");
  });

  test("16.4 finds the best set that the budget allows, not the best plant", () => {
    const low = 0.9 * (4000 + 0.8 * 0.7 * 1200);
    exercise("16.4", { plants, options, budget: 6 }, low);
    expect(verdict()).toContain("✓");
    exercise("16.4", { plants, options, budget: 6 }, 0.8 * (4000 + 0.8 * 0.95 * 1475));
    expect(verdict()).toContain("Hint");
    exercise("16.4", { plants, options, budget: 3 }, 0.8 * (4000 + 0.8 * 0.95 * 1475));
    expect(verdict()).toContain("✓");
  });
});
