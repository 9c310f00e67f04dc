import { describe, expect, test } from "vitest";
import { species } from "../../../kernel-helpers/src/fish";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { u } from "../../../kernel-helpers/src/quantity";
import { collectOutputs } from "../emitted";

describe("exercises of notebook 10", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");
  const perchAtGap = { clearSpacing: u.mm(18), species: species("perch") };
  const barrier = { midpoint: 0.6, shareAtBarrier: 0.99 };
  const roach = { totalLength: u.mm(110), species: species("roach"), ratioError: 0.1 };
  const goal = {
    medians: [
      { species: "perch", totalLength: u.mm(129) },
      { species: "bleak", totalLength: u.mm(93) },
    ],
    wanted: 0.8,
    threshold: 0.2,
    exponent: 1,
  };

  test("10.1 asks for the width of the body, not its height, and follows the spacing", () => {
    exercise("10.1", perchAtGap, u.mm(150));
    expect(verdict()).toContain("right, 150 mm");
    exercise("10.1", perchAtGap, u.mm(72));
    expect(verdict()).toContain("Hint");
    exercise("10.1", perchAtGap, u.m(150));
    expect(verdict()).toContain("1000 times");
    exercise("10.1", { ...perchAtGap, clearSpacing: u.mm(12) }, u.mm(100));
    expect(verdict()).toContain("✓");
  });

  test("10.2 turns the ramp round, and its exponent becomes a root", () => {
    exercise("10.2", { threshold: 0.2, exponent: 1 }, 0.6);
    expect(verdict()).toContain("✓");
    exercise("10.2", { threshold: 0.2, exponent: 1 }, 0.5);
    expect(verdict()).toContain("Hint");
    exercise("10.2", { threshold: 0.2, exponent: 2 }, 0.2 + 0.8 * Math.SQRT1_2);
    expect(verdict()).toContain("✓");
  });

  test("10.3 asks for the steepness that leaves one blocked fish in a hundred", () => {
    // By hand: ln(0.99 / 0.01) = 4.595, over 0.4.
    exercise("10.3", barrier, 11.49);
    expect(verdict()).toContain("✓");
    exercise("10.3", barrier, 8);
    expect(verdict()).toContain("Hint");
    exercise("10.3", { ...barrier, midpoint: 0.5 }, 9.19);
    expect(verdict()).toContain("✓");
  });

  test("10.3 refuses a midpoint from which no steepness reaches the share", () => {
    expect(() => exercise("10.3", { ...barrier, midpoint: 1.2 }, 5)).toThrow(
      /midpoint is 1.2; it must be below 1/,
    );
  });

  test("10.4 takes the error off the body and knows who meets the gap with its height", () => {
    exercise("10.4", roach, u.mm(10.89));
    expect(verdict()).toContain("✓");
    exercise("10.4", roach, u.mm(12.1));
    expect(verdict()).toContain("Hint");
    exercise("10.4", roach, u.cm(108.9));
    expect(verdict()).toContain("look at its unit");
    exercise("10.4", { ...roach, species: species("perch") }, u.mm(24.75));
    expect(verdict()).toContain("✓");
  });

  test("10.5 lets the smallest body decide and rounds the spacing down", () => {
    // By hand: 93 · 0.09 / 0.84 = 9.96 mm.
    exercise("10.5", goal, u.mm(9));
    expect(verdict()).toContain("✓");
    exercise("10.5", goal, u.mm(10));
    expect(verdict()).toContain("Hint");
    exercise("10.5", { ...goal, wanted: 1 }, u.mm(8));
    expect(verdict()).toContain("✓");
    exercise("10.5", { ...goal, medians: [goal.medians[0]] }, u.mm(38));
    expect(verdict()).toContain("✓");
  });

  test("10.5 counts a spacing of exactly whole millimetres as that", () => {
    const grayling = [{ species: "grayling", totalLength: u.mm(180) }];
    exercise("10.5", { ...goal, medians: grayling, wanted: 1 }, u.mm(18));
    expect(verdict()).toContain("✓");
  });
});
