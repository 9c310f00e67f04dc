import { describe, expect, test } from "vitest";
import { exercise } from "../../../kernel-helpers/src/notebook/exercise";
import { u } from "../../../kernel-helpers/src/quantity";
import { collectOutputs } from "../emitted";

describe("exercises of notebook 11", () => {
  const outputs = collectOutputs();
  const verdict = (): string => outputs.last("text/plain");

  test("11.1 asks for the water length and names a slip of the unit", () => {
    const runner = {
      discharge: u.m3ps(17),
      rotationalSpeed: u.rpm(187.5),
      blades: 4,
      runnerDiameter: u.m(1.95),
      hubDiameter: u.m(0.82),
      inflowAngle: u.deg(29.8),
    };
    const byHand = 17 / (3.125 * 4 * (Math.PI / 4) * (1.95 ** 2 - 0.82 ** 2) * Math.cos(0.5201));
    exercise("11.1", runner, u.m(byHand));
    expect(verdict()).toContain("right, 0.63");
    exercise("11.1", runner, u.m(1000 * byHand));
    expect(verdict()).toContain("1000 times the right one");
    exercise("11.1", runner, u.m(0.3));
    expect(verdict()).toContain("Hint");
    exercise("11.1", { ...runner, blades: 3 }, u.m(byHand));
    expect(verdict()).toContain("not yet");
  });

  test("11.2 asks for survival, not for mortality", () => {
    const fish = { waterLength: u.m(0.6), totalLength: u.cm(30) };
    exercise("11.2", fish, 1 - 0.5 * 0.43);
    expect(verdict()).toContain("right");
    exercise("11.2", fish, 78.5);
    expect(verdict()).toContain("100 times the right one");
    exercise("11.2", fish, 0.5 * 0.43);
    expect(verdict()).toContain("Hint");
    exercise("11.2", { ...fish, waterLength: u.m(1.2) }, 1 - 0.5 * 0.43);
    expect(verdict()).toContain("not yet");
  });

  test("11.3 knows that no regression was fitted to burbot, and follows another species", () => {
    exercise("11.3", { species: "burbot" }, undefined);
    expect(verdict()).toContain('one of "kaplanSalmonid", "kaplanEel", "none"');
    exercise("11.3", { species: "burbot" }, "none");
    expect(verdict()).toContain("right");
    exercise("11.3", { species: "burbot" }, "kaplanEel");
    expect(verdict()).toContain("Hint");
    exercise("11.3", { species: "silver eel" }, "kaplanEel");
    expect(verdict()).toContain("right");
  });

  test("11.4 takes the water length with the new number of blades", () => {
    const fish = { waterLength: u.m(0.6), totalLength: u.cm(30), blades: 4, newBlades: 3 };
    exercise("11.4", fish, 1 - 0.43 * 0.375);
    expect(verdict()).toContain("right");
    exercise("11.4", fish, 1 - 0.43 * 0.5);
    expect(verdict()).toContain("Hint");
    exercise("11.4", { ...fish, newBlades: 5 }, 1 - 0.43 * 0.375);
    expect(verdict()).toContain("not yet");
  });

  test("11.5 inverts the equation of falling pressure", () => {
    const inputs = { acclimationPressure: u.kPa(119), permittedMortality: 0.01 };
    const ratio = Math.exp((5.56 - Math.log(0.99 / 0.01)) / 3.85);
    exercise("11.5", inputs, u.kPa(119 / ratio));
    expect(verdict()).toContain("right");
    exercise("11.5", inputs, u.Pa(119 / ratio));
    expect(verdict()).toContain("1/1000 times the right one");
    exercise("11.5", inputs, u.kPa(72));
    expect(verdict()).toContain("Hint");
    exercise("11.5", { ...inputs, permittedMortality: 0.05 }, u.kPa(119 / ratio));
    expect(verdict()).toContain("not yet");
  });
});
