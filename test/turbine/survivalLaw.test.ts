import * as fc from "fast-check";
import { turbine, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";
import { axialPassage, francisUnit, kaplanUnit, propellerUnit } from "./units";

const strike = { correlation: 0.15 } as const;

const models: readonly turbine.TurbineModel[] = [
  { model: "waterLengthStrike", unit: kaplanUnit, inflowAngle: u.deg(29.8), injuryShare: 0.5 },
  { model: "kaplanStrike", unit: kaplanUnit, ...strike },
  { model: "propellerStrike", unit: propellerUnit, ...strike },
  { model: "francisStrike", unit: francisUnit, ...strike },
  { model: "kaplanSalmonid", unit: kaplanUnit },
  { model: "kaplanEel", unit: kaplanUnit },
  { model: "francisSalmonid", unit: francisUnit },
];

/** Drops a field as a record read from a file may, past what the compiler can see. */
const without = (choice: turbine.TurbineModel, field: string): turbine.TurbineModel =>
  Object.fromEntries(
    Object.entries(choice).filter(([name]) => name !== field),
  ) as unknown as turbine.TurbineModel;

describe("survivalLaw", () => {
  it.each(models)("$model gives shares that never rise with length", (choice) => {
    const law = turbine.survivalLaw(choice);
    const lengths = fc.double({ min: 10, max: 2000, noNaN: true });
    fc.assert(
      fc.property(lengths, lengths, (one, other) => {
        const short = law(u.mm(Math.min(one, other)));
        const long = law(u.mm(Math.max(one, other)));
        expect(long).toBeLessThanOrEqual(short);
        expect(long).toBeGreaterThanOrEqual(0);
        expect(short).toBeLessThanOrEqual(1);
      }),
    );
  });

  it("a strike law is strike, injury and pressure put together", () => {
    const law = turbine.survivalLaw({
      model: "kaplanStrike",
      unit: kaplanUnit,
      correlation: 0.15,
      injuryShare: "byLength",
      pressureMortality: 0.03,
    });
    const totalLength = axialPassage.totalLength;
    const expected = turbine.survival({
      strikeProbability: turbine.strikeKaplan(axialPassage),
      injuryShare: turbine.injuryShareByLength({ totalLength }),
      pressureMortality: 0.03,
    });
    expect(law(totalLength)).toBe(expected);
    expect(law.strike?.(totalLength)).toBe(turbine.strikeKaplan(axialPassage));
  });

  it("a regression law is one less its mortality and knows no strike", () => {
    const law = turbine.survivalLaw({ model: "francisSalmonid", unit: francisUnit });
    const mortality = turbine.mortalityFrancisSalmonid({ ...francisUnitInputs(), totalLength: u.mm(150) });
    expect(law(u.mm(150))).toBe(1 - mortality);
    expect(law.strike).toBeUndefined();
  });

  it("kaplanSalmonid takes the blade spacing from runner and hub where none is given", () => {
    const spacing = turbine.bladeSpacing({ runnerDiameter: u.m(1.95), hubDiameter: u.m(0.82), blades: 4 });
    const given = turbine.survivalLaw({
      model: "kaplanSalmonid",
      unit: { ...kaplanUnit, bladeSpacing: spacing },
    });
    const derived = turbine.survivalLaw({ model: "kaplanSalmonid", unit: kaplanUnit });
    expect(derived(u.mm(200))).toBe(given(u.mm(200)));
  });

  it("the strike kernel without its injury share is refused, never taken as 1", () => {
    expect(() => turbine.survivalLaw(without(models[0], "injuryShare"))).toThrow(
      'turbine.survivalLaw: injuryShare is "undefined"; give "vonRaben", "byLength" or a share from 0 to 1.',
    );
  });

  it.each(models.filter((choice) => "correlation" in choice))(
    "$model holds the injured share in its correlation factor: alone it counts every strike, and names no share",
    (choice) => {
      const law = turbine.survivalLaw(choice);
      expect(law(u.mm(200))).toBe(1 - (law.strike?.(u.mm(200)) ?? Number.NaN));
      expect(law(u.mm(200))).toBe(turbine.survivalLaw({ ...choice, injuryShare: 1 })(u.mm(200)));
      expect(law.title).toMatch(/strike, correlation 0\.15$/);
      expect(law.cautions(u.mm(200)).join()).not.toContain("twice");
    },
  );

  it.each(["vonRaben", "byLength", 0.9] as const)(
    "an injury share %s beside a correlation factor is taken, and always called mercy counted twice",
    (injuryShare) => {
      for (const choice of models.filter((one) => "correlation" in one)) {
        const law = turbine.survivalLaw({ ...choice, injuryShare });
        expect(law(u.mm(200))).toBeGreaterThan(turbine.survivalLaw(choice)(u.mm(200)));
        expect(
          law.cautions(u.mm(200)).filter((text) => text.includes("counts the same mercy twice")),
        ).toHaveLength(1);
      }
    },
  );

  it("the strike kernel counts every touch, so its injury share raises no such caution", () => {
    expect(turbine.survivalLaw(models[0]).cautions(u.mm(200)).join()).not.toContain("twice");
  });

  it("an injury share outside 0..1 is refused", () => {
    expect(() =>
      turbine.survivalLaw({ ...strike, model: "kaplanStrike", unit: kaplanUnit, injuryShare: 43 }),
    ).toThrow(/turbine\.survival: injuryShare is 43; it must be/);
  });

  it("a model that does not describe the unit is refused by name", () => {
    const mixed = { ...models[1], unit: francisUnit } as unknown as turbine.TurbineModel; // as a record may bring it
    expect(() => turbine.survivalLaw(mixed)).toThrow(
      "turbine.survivalLaw: kaplanStrike describes kaplan units; this one is francis.",
    );
  });

  it("a number that the model needs and the unit lacks is named", () => {
    const { bestDischarge: _, hubDiameter: __, ...bare } = kaplanUnit;
    expect(() => turbine.survivalLaw({ ...strike, model: "propellerStrike", unit: bare })).toThrow(
      "turbine.survivalLaw: propellerStrike needs the unit's bestDischarge, which is missing.",
    );
    expect(() => turbine.survivalLaw({ model: "kaplanSalmonid", unit: bare })).toThrow(
      "turbine.survivalLaw: kaplanSalmonid needs the unit's bladeSpacing or hubDiameter, which is missing.",
    );
  });

  it("an unknown model is refused with the names there are", () => {
    const unknown = { model: "bulb", unit: kaplanUnit } as unknown as turbine.TurbineModel; // as typed in plain JavaScript
    expect(() => turbine.survivalLaw(unknown)).toThrow(
      /there is no model "bulb"; the models are waterLengthStrike/,
    );
  });

  it("a regression refuses an injury share, which it already counts", () => {
    const twice = { ...models[4], injuryShare: 0.43 } as unknown as turbine.TurbineModel; // as typed in plain JavaScript
    expect(() => turbine.survivalLaw(twice)).toThrow(/injuryShare does not belong to kaplanSalmonid/);
  });

  it("a bad number of the unit is refused when the law is made, in the formula's words", () => {
    const unit = { ...kaplanUnit, blades: 3.5 };
    expect(() => turbine.survivalLaw({ ...strike, model: "kaplanStrike", unit })).toThrow(
      /turbine\.strikeKaplan: blades is 3\.5; it must be a whole number/,
    );
  });
});

describe("survivalByLength", () => {
  it("returns one entry a length, and every caution once", () => {
    const lengths = [u.mm(100), u.mm(200), u.mm(300)];
    const result = turbine.survivalByLength({ model: "kaplanSalmonid", unit: kaplanUnit, lengths });
    expect(result.totalLength).toEqual(lengths);
    result.survival.forEach((survival, at) => expect(survival + result.mortality[at]).toBeCloseTo(1, 12));
    expect(result.tested).toEqual([true, true, true]);
    expect(result.cautions).toHaveLength(2);
  });

  it("flags lengths whose inputs lie outside the tested range", () => {
    const result = turbine.survivalByLength({
      ...strike,
      model: "kaplanStrike",
      unit: kaplanUnit,
      correlation: 0.4,
      lengths: [u.mm(100)],
    });
    expect(result.tested).toEqual([false]);
    expect(result.cautions.join()).toMatch(/its source tested 0\.1 to 0\.2/);
  });

  it("refuses a length that is not above 0, naming its place in the list", () => {
    expect(() =>
      turbine.survivalByLength({ model: "kaplanEel", unit: kaplanUnit, lengths: [u.mm(100), u.mm(0)] }),
    ).toThrow("turbine.survivalByLength: lengths[1] is 0 mm; it must be above 0 mm.");
  });
});

function francisUnitInputs() {
  const { head, inletDiameter, rotationalSpeed } = francisUnit;
  return { head, inletDiameter, rotationalSpeed };
}
