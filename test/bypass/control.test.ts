import * as fc from "fast-check";
import { bypass, u } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const gate: bypass.SluiceGate = {
  kind: "sluiceGate",
  width: u.m(0.8),
  sillLevel: u.m(1),
  opening: u.m(0.4),
  accelerationLength: u.m(1),
};

const at = (control: bypass.Control, up: number, down: number): bypass.ControlFlow =>
  bypass.controlFlow(control, { upstreamLevel: u.m(up), downstreamLevel: u.m(down) });

describe("bypass.controlFlow", () => {
  test("is dry where the water does not reach the control", () => {
    expect(at(gate, 0.9, 0.5)).toMatchObject({ discharge: 0, state: "dry" });
  });

  test("a gate runs free over low water, drowned over high water, and never passes more when drowned", () => {
    const coefficient = bypass.sluiceGateCoefficient({ opening: u.m(0.4), upstreamDepth: u.m(2) });
    const free = bypass.sluiceGate({
      width: u.m(0.8),
      opening: u.m(0.4),
      upstreamDepth: u.m(2),
      coefficient,
    });
    expect(at(gate, 3, 0.5)).toMatchObject({ state: "free" });
    expect(at(gate, 3, 0.5).discharge).toBeCloseTo(free, 9);
    const drowned = at(gate, 3, 2.6);
    expect(drowned.state).toBe("drowned");
    expect(drowned.discharge).toBeLessThan(free);
  });

  test("a gate lifted out of the water is a crest, and says so", () => {
    const lifted = at({ ...gate, opening: u.m(2) }, 2.5, 1);
    const crest = bypass.broadCrestedWeir({ crestWidth: u.m(0.8), energyHead: u.m(1.5) });
    expect(lifted.discharge).toBeCloseTo(crest, 12);
    expect(lifted.cautions.join()).toContain("controls nothing");
  });

  test("an orifice takes its head to the water behind once that covers it, to its middle before", () => {
    const orifice: bypass.Orifice = {
      kind: "orifice",
      width: u.m(0.5),
      height: u.m(0.5),
      sillLevel: u.m(0),
      accelerationLength: u.m(1),
    };
    expect(at(orifice, 2, 1).head).toBeCloseTo(1, 12);
    expect(at(orifice, 2, 0.2).head).toBeCloseTo(1.75, 12);
    expect(at(orifice, 0.6, 0.55).cautions.join()).toContain("barely covers");
  });

  test("says that a crest may be drowned where the water behind stands above critical depth", () => {
    const crest: bypass.RampedCrest = {
      kind: "rampedCrest",
      crestWidth: u.m(1),
      crestLevel: u.m(0),
      accelerationLength: u.m(3),
    };
    expect(at(crest, 0.9, 0.6).state).toBe("free");
    const drowned = at(crest, 0.9, 0.75);
    expect(drowned.state).toBe("drowned");
    expect(drowned.cautions.join()).toContain("lower than this");
  });

  test("refuses an unknown control and water that stands higher downstream", () => {
    const unknown = { ...gate, kind: "flap" } as unknown as bypass.Control;
    expect(() => at(unknown, 3, 1)).toThrow(
      'there is no control "flap"; the controls are rampedCrest, sharpCrest, sluiceGate, orifice',
    );
    expect(() => at(gate, 3, 3)).toThrow("water does not flow uphill");
    const low = { kind: "sharpCrest", crestWidth: u.m(1), crestLevel: u.m(0), floorLevel: u.m(0) } as const;
    expect(() => at({ ...low, accelerationLength: u.m(1) }, 1, -1)).toThrow("must be above floorLevel, 0 m");
  });
});

describe("bypass.drownedSluiceGate", () => {
  test("passes nothing as both levels meet, and the free discharge over low water", () => {
    const depths = { width: u.m(1), opening: u.m(0.3), upstreamDepth: u.m(2) };
    expect(bypass.drownedSluiceGate({ ...depths, downstreamDepth: u.m(2 - 1e-9) })).toBeLessThan(1e-3);
    const coefficient = bypass.sluiceGateCoefficient({ opening: u.m(0.3), upstreamDepth: u.m(2) });
    expect(bypass.drownedSluiceGate({ ...depths, downstreamDepth: u.m(0.5) })).toBeCloseTo(
      bypass.sluiceGate({ ...depths, coefficient }),
      12,
    );
  });

  test("falls as the water behind rises, and keeps energy and momentum", () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 0.5, noNaN: true }),
        fc.double({ min: 0.75, max: 0.99, noNaN: true }),
        (opening, share) => {
          const depths = { width: u.m(1), opening: u.m(opening), upstreamDepth: u.m(2) };
          const low = bypass.drownedSluiceGate({ ...depths, downstreamDepth: u.m(2 * share) });
          const high = bypass.drownedSluiceGate({ ...depths, downstreamDepth: u.m(2 * (share + 0.005)) });
          expect(high).toBeLessThanOrEqual(low);
        },
      ),
    );
  });
});

describe("settings for a wanted discharge", () => {
  test("turn their equations round", () => {
    fc.assert(
      fc.property(fc.double({ min: 0.01, max: 3, noNaN: true }), (wanted) => {
        const weir = { crestWidth: u.m(0.8), crestHeight: u.m(2) };
        const discharge = u.m3ps(wanted);
        const head = bypass.sharpCrestedWeirHead({ ...weir, discharge });
        expect(bypass.sharpCrestedWeir({ ...weir, head })).toBeCloseTo(wanted, 9);
        const energyHead = bypass.broadCrestedWeirHead({ discharge, crestWidth: u.m(0.8), coefficient: 0.9 });
        expect(bypass.broadCrestedWeir({ crestWidth: u.m(0.8), energyHead, coefficient: 0.9 })).toBeCloseTo(
          wanted,
          9,
        );
        const gateChannel = { width: u.m(0.8), upstreamDepth: u.m(2.5) };
        const opening = bypass.sluiceGateOpening({ ...gateChannel, discharge });
        const coefficient = bypass.sluiceGateCoefficient({ opening, upstreamDepth: u.m(2.5) });
        expect(bypass.sluiceGate({ ...gateChannel, opening, coefficient })).toBeCloseTo(wanted, 9);
      }),
    );
  });

  test("a discharge beyond the gate's reach is refused with the most it passes", () => {
    expect(() =>
      bypass.sluiceGateOpening({ discharge: u.m3ps(20), width: u.m(0.8), upstreamDepth: u.m(1) }),
    ).toThrow(/discharge is 20 m³\/s; a gate in water 1 m deep passes at most 1\.\d+ m³\/s/);
  });
});
