import { describe, expect, test } from "vitest";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { u } from "../../../kernel-helpers/src/quantity";
import { collectOutputs } from "../emitted";

describe("exercises of notebook 13", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");
  const counts = { treatedAlive: 171, treated: 200, controlAlive: 96, control: 100 };
  const wanted = {
    wanted: 0.8,
    intercept: -1.2,
    bodyRatio: 0.11,
    totalLength: u.mm(150),
    threshold: 0.2,
    exponent: 1,
  };

  test("13.1 divides the catch by the efficiency", () => {
    exercise("13.1", { caught: 36, efficiency: 0.8 }, 45);
    expect(verdict()).toContain("✓");
    exercise("13.1", { caught: 36, efficiency: 0.8 }, 28.8);
    expect(verdict()).toContain("Hint");
    exercise("13.1", { caught: 36, efficiency: 0.9 }, 40);
    expect(verdict()).toContain("✓");
  });

  test("13.2 puts one share alive over the other", () => {
    exercise("13.2", counts, 0.890625);
    expect(verdict()).toContain("✓");
    exercise("13.2", counts, 0.855);
    expect(verdict()).toContain("Hint");
    exercise("13.2", counts, 89.0625);
    expect(verdict()).toContain("100 times");
    exercise("13.2", { ...counts, controlAlive: 85 }, 0.855 / 0.85);
    expect(verdict()).toContain("✓");
  });

  test("13.3 follows the fish that no net sees", () => {
    // Of 1000 fish 800 are held back and 720 of them come to the bypass; 200 go through the turbine.
    exercise("13.3", { protection: 0.8, turningRound: 0.1 }, 720 / 920);
    expect(verdict()).toContain("✓");
    exercise("13.3", { protection: 0.8, turningRound: 0.1 }, 0.72);
    expect(verdict()).toContain("Hint");
    exercise("13.3", { protection: 0.8, turningRound: 0 }, 0.8);
    expect(verdict()).toContain("✓");
  });

  test("13.4 moves a share on the logit", () => {
    // By hand: odds of 4 times e^−1.2 are 1.2048; over 2.2048.
    exercise("13.4", { predicted: 0.8, intercept: -1.2 }, 0.5464);
    expect(verdict()).toContain("✓");
    exercise("13.4", { predicted: 0.8, intercept: -1.2 }, -0.4);
    expect(verdict()).toContain("Hint");
    exercise("13.4", { predicted: 0.8, intercept: 0 }, 0.8);
    expect(verdict()).toContain("✓");
  });

  test("13.5 lets the curve promise more, and the spacing follows", () => {
    // By hand: odds of 4 · e^1.2 = 13.28, a share of 0.93; relative width 0.944; 16.5 mm over it.
    exercise("13.5", wanted, u.mm(17.48));
    expect(verdict()).toContain("✓");
    exercise("13.5", wanted, u.mm(19.6));
    expect(verdict()).toContain("Hint");
    exercise("13.5", wanted, u.m(17.48));
    expect(verdict()).toContain("1000 times");
    exercise("13.5", { ...wanted, intercept: 0 }, u.mm(16.5 / 0.84));
    expect(verdict()).toContain("✓");
  });
});
