import { describe, expect, test } from "vitest";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { u } from "../../../kernel-helpers/src/quantity";
import { collectOutputs } from "../emitted";

describe("exercises of notebook 04", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");

  test("04.1 asks for the coefficient behind a head loss", () => {
    const inputs = { barCoefficient: 2.89, blockage: 0.45 };
    exercise("04.1", inputs, 2.89 * (0.45 / 0.55) ** 1.6);
    expect(verdict()).toContain("right");
    exercise("04.1", inputs, 0.0329);
    expect(verdict()).toContain("Hint");
    exercise("04.1", { ...inputs, blockage: 0.3 }, 2.89 * (0.45 / 0.55) ** 1.6);
    expect(verdict()).toContain("not yet");
  });

  test("04.2 asks for the velocity of twice the head loss, not for twice the velocity", () => {
    const inputs = { approachVelocity: u.mps(0.5) };
    exercise("04.2", inputs, u.mps(0.5 * Math.SQRT2));
    expect(verdict()).toContain("right");
    exercise("04.2", inputs, u.mps(1));
    expect(verdict()).toContain("Hint");
    exercise("04.2", { approachVelocity: u.mps(0.6) }, u.mps(0.5 * Math.SQRT2));
    expect(verdict()).toContain("not yet");
  });

  test("04.3 asks for the spacing of the same ratio and names a slip of the unit", () => {
    const inputs = { barThickness: u.mm(8), clearSpacing: u.mm(18), newThickness: u.mm(12) };
    exercise("04.3", inputs, u.mm(27));
    expect(verdict()).toContain("right, 27 mm");
    exercise("04.3", inputs, u.m(27));
    expect(verdict()).toContain("1000 times the right one");
    exercise("04.3", inputs, u.mm(22));
    expect(verdict()).toContain("Hint");
    exercise("04.3", { ...inputs, clearSpacing: u.mm(12) }, u.mm(27));
    expect(verdict()).toContain("not yet");
  });

  test("04.4 asks for the clogged share at which the open-share equation gives the cleaning head", () => {
    const inputs = { blockage: 0.34, normalVelocity: u.mps(0.342), cleaningHead: u.m(0.1) };
    const openRatio = 0.66 * (1 - 0.586);
    const headLoss = ((1.45 - 0.45 * openRatio - openRatio ** 2) * (0.342 / openRatio) ** 2) / (2 * 9.81);
    expect(headLoss).toBeCloseTo(0.1, 2);
    exercise("04.4", inputs, 0.586);
    expect(verdict()).toContain("right");
    exercise("04.4", inputs, 58.6);
    expect(verdict()).toContain("100 times the right one");
    exercise("04.4", inputs, 0.5);
    expect(verdict()).toContain("Hint");
    exercise("04.4", { ...inputs, cleaningHead: u.m(0.05) }, 0.586);
    expect(verdict()).toContain("not yet");
  });

  test("04.4 takes 0 where the clean rack reaches the threshold already", () => {
    exercise("04.4", { blockage: 0.9, normalVelocity: u.mps(0.5), cleaningHead: u.mm(1) }, 0);
    expect(verdict()).toContain("right");
  });

  test("04.5 asks for the share that foils save, not for the share that they cost", () => {
    const rectangular = { scale: 2.6, blockageExponent: 1.5, angleExponent: 1.3, overlayCoefficient: 2 };
    const foil = { ...rectangular, scale: 1.3 };
    const inputs = { rectangular, foil, blockage: 0.35, rackAngle: u.deg(38) };
    exercise("04.5", inputs, 0.5);
    expect(verdict()).toContain("right");
    exercise("04.5", { ...inputs, foil: { ...foil, scale: 1.56 } }, 0.6);
    expect(verdict()).toContain("Hint");
    exercise("04.5", { ...inputs, foil: { ...foil, scale: 1.56 } }, 0.5);
    expect(verdict()).toContain("not yet");
  });
});
