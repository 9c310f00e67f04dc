import { describe, expect, test } from "vitest";
import { species } from "../../../kernel-helpers/src/fish";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { u } from "../../../kernel-helpers/src/quantity";
import { collectOutputs } from "../emitted";

describe("exercises of notebook 10", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");
  const perchAtGap = { clearSpacing: u.mm(18), species: species("perch") };
  const body = { totalLength: u.mm(110), widthRatio: 0.11, spread: 0.06, blocked: 0.95 };
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

  test("10.3 divides the fish by their design effect, and leaves them where it is below 1", () => {
    exercise("10.3", { fish: 800, designEffect: 1.6 }, 500);
    expect(verdict()).toContain("✓");
    exercise("10.3", { fish: 800, designEffect: 1.6 }, 1280);
    expect(verdict()).toContain("Hint");
    exercise("10.3", { fish: 800, designEffect: 0.9 }, 800);
    expect(verdict()).toContain("✓");
    exercise("10.3", { fish: 800, designEffect: undefined }, 800);
    expect(verdict()).toContain("✓");
  });

  test("10.4 takes the slim end of the bodies, and follows their spread", () => {
    // By hand: 0.11 · 110 mm · exp(−1.6449 · 0.06) = 10.963 mm.
    exercise("10.4", body, u.mm(10.963));
    expect(verdict()).toContain("✓");
    exercise("10.4", body, u.mm(12.1));
    expect(verdict()).toContain("Hint");
    exercise("10.4", body, u.cm(109.63));
    expect(verdict()).toContain("look at its unit");
    exercise("10.4", { ...body, spread: 0 }, u.mm(12.1));
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
