import { describe, expect, test } from "vitest";
import { catalogue, rackLoss, u } from "kernel-helpers";

const description = {
  barThickness: u.mm(8),
  clearSpacing: u.mm(18),
  supportShare: 0.05,
  rackAngle: u.deg(38),
  approachVelocity: u.mps(0.556),
};

const rowOf = (id: string, rack: rackLoss.RackDescription) => {
  const row = rackLoss.compareLosses(rack).find((one) => one.id === id);
  if (row === undefined) throw new Error(`no row ${id}`);
  return row;
};

const areaRatio = (rack: rackLoss.RackDescription) => rowOf("rackLoss.areaRatio", rack).headLoss;

describe("rackLoss.compareLosses", () => {
  test("asks every published head-loss equation of the catalogue once", () => {
    const helpers = ["fromCoefficient", "cloggedOpenRatio", "fitted", "fromLevels"].map(
      (name) => `rackLoss.${name}`,
    );
    const equations = catalogue
      .list("rackLoss")
      .map(({ id }) => id)
      .filter((id) => !helpers.includes(id) && !id.endsWith("Turn"));
    expect(
      rackLoss
        .compareLosses(description)
        .map(({ id }) => id)
        .toSorted(),
    ).toEqual(equations.toSorted());
  });

  test("marks each equation: for horizontal bars or another orientation, and how it stands to what was tested", () => {
    const rows = rackLoss.compareLosses(description);
    expect(rows.filter((row) => row.forHorizontalBars).map(({ id }) => id)).toEqual([
      "rackLoss.horizontalBars",
    ]);
    expect(rowOf("rackLoss.horizontalBars", description).marks).toEqual([
      "meant for horizontal bars",
      "no tested range known",
    ]);
    expect(rowOf("rackLoss.streamwiseBars", description).marks).toEqual([
      "meant for another bar orientation",
      "no tested range known",
    ]);
    expect(rowOf("rackLoss.angledBars", { ...description, clearSpacing: u.mm(12) }).marks).toEqual([
      "meant for another bar orientation",
    ]);
    expect(rowOf("rackLoss.inclinedBars", description).marks).toEqual([
      "meant for another bar orientation",
      "another kind of rack",
      "no tested range known",
    ]);
    // 38° lies outside 45° to 90°; a blockage of 0.342 outside 0.35 to 0.60.
    for (const id of ["rackLoss.blockageAngle", "rackLoss.angledBars"])
      expect(rowOf(id, description).marks).toEqual([
        "meant for another bar orientation",
        "outside its tested range",
      ]);
  });

  test("knows a tested range where the catalogue does, for every part of a sum, and calls no rack tested otherwise", () => {
    const rows = rackLoss.compareLosses({ ...description, rackAngle: u.deg(90) });
    for (const { id, testedRangeKnown, withinTestedRange } of rows) {
      const known = Object.values(catalogue.get(id).inputs).some(({ tested }) => tested !== undefined);
      expect([id, testedRangeKnown]).toEqual([id, known]);
      expect(withinTestedRange && !known).toBe(false);
    }
    expect(rows.filter((row) => row.testedRangeKnown).map(({ id }) => id)).toEqual([
      "rackLoss.kirschmer",
      "rackLoss.blockageAngle",
      "rackLoss.angledBars",
    ]);
  });

  test("marks a shape factor outside Kirschmer's in its sum with oblique flow, of which no range is known", () => {
    expect(rowOf("rackLoss.obliqueFlow", { ...description, shapeFactor: 3 }).marks).toEqual([
      "meant for another bar orientation",
      "outside its tested range",
    ]);
  });

  test("gives the head loss of the formula itself", () => {
    const { headLoss } = rowOf("rackLoss.horizontalBars", description);
    // By hand: O = 8/26, ξ = 3.85 (8/18)^1.65 sin²38° + 1.79 (0.05/0.95)^0.77, times 0.556²/19.62.
    const coefficient =
      3.85 * (8 / 18) ** 1.65 * Math.sin((38 * Math.PI) / 180) ** 2 + 1.79 * (0.05 / 0.95) ** 0.77;
    expect(headLoss).toBeCloseTo((coefficient * 0.556 ** 2) / 19.62, 12);
  });

  test("spreads the flow over the larger rack, angled or inclined, for equations with the velocity between the bars", () => {
    const open = (18 / 26) * 0.95;
    const angled = Math.sin((38 * Math.PI) / 180);
    const inclined = Math.sin((60 * Math.PI) / 180);
    const loss = (between: number): number => ((1.45 - 0.45 * open - open ** 2) * between ** 2) / 19.62;
    expect(areaRatio(description)).toBeCloseTo(loss((0.556 * angled) / open), 12);
    expect(areaRatio({ ...description, inclination: u.deg(60) })).toBeCloseTo(
      loss((0.556 * angled * inclined) / open),
      12,
    );
  });

  test("keeps the row of an equation that refuses the rack, without head loss and with the reason", () => {
    const row = rowOf("rackLoss.openingVelocity", description);
    expect(row).toMatchObject({ headLoss: undefined, withinTestedRange: false });
    expect(row.marks).toEqual(["meant for another bar orientation", "no tested range known"]);
    expect(row.cautions).toEqual([
      "rackLoss.openingVelocity: openingVelocity is 0.52 m/s; it must be at least approachVelocity, 0.556 m/s.",
    ]);
    expect(
      rowOf("rackLoss.openingVelocity", { ...description, rackAngle: u.deg(90) }).headLoss,
    ).toBeGreaterThan(0);
  });

  test("says which racks an equation was made for where this one is another", () => {
    expect(rowOf("rackLoss.kirschmer", description)).toMatchObject({
      withinTestedRange: false,
      marks: ["meant for another bar orientation", "another kind of rack"],
      cautions: ["rackLoss.kirschmer: made for racks square to the flow in plan; this one stands at 38°."],
    });
    expect(rowOf("rackLoss.kirschmer", { ...description, rackAngle: u.deg(90) })).toMatchObject({
      withinTestedRange: true,
      cautions: [],
    });
    expect(rowOf("rackLoss.horizontalBars", { ...description, inclination: u.deg(70) }).cautions[0]).toBe(
      "rackLoss.horizontalBars: made for upright racks; this one is inclined at 70°.",
    );
  });

  test("always says that the equation for horizontal bars is an approximation", () => {
    expect(rowOf("rackLoss.horizontalBars", description).cautions.join()).toContain("approximate");
  });

  test("takes the handbook shape factor of the profile unless told otherwise", () => {
    const square = { ...description, rackAngle: u.deg(90) };
    const rectangular = rowOf("rackLoss.kirschmer", square).headLoss ?? Number.NaN;
    const hydrodynamic = rowOf("rackLoss.kirschmer", { ...square, barProfile: "hydrodynamic" }).headLoss;
    const rod = rowOf("rackLoss.kirschmer", {
      ...square,
      shapeFactor: rackLoss.shapeFactors.roundRod,
    }).headLoss;
    expect(hydrodynamic).toBeCloseTo((rectangular * 1.035) / 2.42, 12);
    expect(rod).toBeCloseTo((rectangular * 1.79) / 2.42, 12);
  });

  test.each([
    [
      { ...description, clearSpacing: u.mm(0) },
      "rackLoss.compareLosses: clearSpacing is 0 mm; it must be above 0 mm.",
    ],
    [
      { ...description, supportShare: 1 },
      "rackLoss.compareLosses: supportShare is 1; it must be at least 0 and below 1",
    ],
    [{ ...description, barProfil: "round" }, 'rackLoss.compareLosses: it has no input "barProfil"'],
    [
      { ...description, barProfile: "round" },
      'barProfile is "round"; it must be rectangular or hydrodynamic.',
    ],
  ])("refuses a rack that can't be built", (rack, sentence) => {
    expect(() => rackLoss.compareLosses(rack as rackLoss.RackDescription)).toThrow(sentence);
  });
});

describe("rackLoss.sweepLosses", () => {
  test("agrees with compareLosses point by point", () => {
    const spacings = [u.mm(12), u.mm(18), u.mm(25), u.mm(40)];
    const curves = rackLoss.sweepLosses(description, "clearSpacing", spacings);
    spacings.forEach((clearSpacing, at) => {
      const rows = rackLoss.compareLosses({ ...description, clearSpacing });
      expect(curves.map((curve) => curve.headLoss[at])).toEqual(
        rows.map((row) => row.headLoss ?? Number.NaN),
      );
      expect(curves.map((curve) => curve.withinTestedRange[at])).toEqual(
        rows.map((row) => row.withinTestedRange),
      );
      expect(curves.map((curve) => curve.testedRangeKnown)).toEqual(rows.map((row) => row.testedRangeKnown));
    });
  });

  test("has NaN where an equation refuses the rack", () => {
    const [curve] = rackLoss
      .sweepLosses(description, "rackAngle", [u.deg(30), u.deg(90)])
      .filter(({ id }) => id === "rackLoss.openingVelocity");
    expect(curve.headLoss[0]).toBeNaN();
    expect(curve.headLoss[1]).toBeGreaterThan(0);
  });

  test("shows tested ranges along the sweep: blockageAngle from 45° on", () => {
    const angles = [30, 44, 45, 60, 90];
    const [curve] = rackLoss
      .sweepLosses(
        description,
        "rackAngle",
        angles.map((angle) => u.deg(angle)),
      )
      .filter(({ id }) => id === "rackLoss.blockageAngle");
    expect(curve.withinTestedRange).toEqual([false, false, true, true, true]);
  });

  test("refuses what it can't sweep and a value that no rack can have", () => {
    const hostile = rackLoss.sweepLosses as (
      rack: unknown,
      over: string,
      values: readonly number[],
    ) => unknown;
    expect(() => hostile(description, "colour", [1])).toThrow(
      'it can\'t sweep "colour"; it sweeps clearSpacing, ',
    );
    expect(() => hostile(description, "clearSpacing", [0.018, -1])).toThrow("clearSpacing is -1000 mm");
  });
});

describe("debris counted once", () => {
  const inputs = { shapeFactor: 2.42, blockage: 0.35, rackAngle: u.deg(60), inclination: u.deg(90) };

  test("a clogging factor asks for the blockage of the clean rack", () => {
    expect(rackLoss.blockageAngle.cautions(inputs)).toEqual([]);
    const [caution] = rackLoss.blockageAngle.cautions({ ...inputs, cloggingFactor: 1.3 });
    expect(caution).toContain("the blockage must be that of the clean rack");
    expect(caution).toContain("counts the same debris twice");
  });

  test("a clogged open share warns of a clogging factor on top", () => {
    expect(rackLoss.cloggedOpenRatio.cautions({ openRatio: 0.7, cloggedShare: 0 })).toEqual([]);
    expect(rackLoss.cloggedOpenRatio.cautions({ openRatio: 0.7, cloggedShare: 0.2 })[0]).toContain("twice");
  });
});
