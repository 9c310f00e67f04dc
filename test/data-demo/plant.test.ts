import { describe, expect, it } from "vitest";
import { demoRows, demoText } from "./files";

const facts = new Map(demoRows("plant.csv").map((row) => [row.key, Number(row.value)]));
const turbines = demoRows("turbine.csv");

function fact(key: string): number {
  const value = facts.get(key);
  if (value === undefined) throw new Error(`plant.csv has no "${key}".`);
  return value;
}

function number(row: Record<string, string>, column: string): number {
  const cell = row[column];
  if (cell === undefined || cell === "") throw new Error(`turbine.csv has no value for "${column}".`);
  return Number(cell);
}

describe("plant.csv", () => {
  it("names each fact once", () => {
    expect(facts.size).toBe(demoRows("plant.csv").length);
  });

  it("holds the scenario", () => {
    expect(Object.fromEntries(facts)).toMatchObject({
      meanFlow: 41,
      designDischarge: 34,
      units: 2,
      dischargePerUnit: 17,
      grossHead: 5.4,
      rotationalSpeed: 187.5,
      runnerDiameter: 1.95,
      blades: 4,
      efficiency: 0.9,
      channelWidth: 17,
      channelDepth: 3.6,
      rackAngle: 38,
      barThickness: 8,
      clearSpacing12: 12,
      clearSpacing18: 18,
      clearSpacing25: 25,
      clearSpacing40: 40,
    });
  });

  it("agrees with itself: units, heads, minimum", () => {
    expect(fact("units") * fact("dischargePerUnit")).toBe(fact("designDischarge"));
    expect(fact("netHead")).toBeLessThan(fact("grossHead"));
    expect(fact("bestDischarge")).toBeLessThan(fact("dischargePerUnit"));
    expect(fact("technicalMinimum")).toBeLessThan(fact("bestDischarge"));
  });

  it("gives an approach velocity of 0.4 to 0.8 m/s at design discharge, usual for an intake", () => {
    const velocity = fact("designDischarge") / (fact("channelWidth") * fact("channelDepth"));
    expect(velocity).toBeGreaterThan(0.4);
    expect(velocity).toBeLessThan(0.8);
  });

  it("names no place but the invented ones", () => {
    for (const { plant } of turbines) expect(["Halvern Weir", "Kelmar Mill"]).toContain(plant);
    // Capitalised words in the records: only the invented names, the turbine makers' trade words and ids.
    const words = ["plant.csv", "turbine.csv", "species.csv"].flatMap(
      (name) => demoText(name).match(/\b[A-Z][a-z]+\b/g) ?? [],
    );
    expect([...new Set(words)].toSorted()).toEqual([
      "Francis",
      "Halvern",
      "Hz",
      "Kaplan",
      "Kelmar",
      "Mill",
      "Weir",
    ]);
  });
});

describe("turbine.csv", () => {
  const kaplans = turbines.filter(({ type }) => type === "kaplan");
  const francis = turbines.filter(({ type }) => type === "francis");

  it("has the plant's two equal Kaplan units and one Francis unit", () => {
    expect(kaplans).toHaveLength(fact("units"));
    expect({ ...kaplans[0], unit: "" }).toEqual({ ...kaplans[1], unit: "" });
    expect(francis).toHaveLength(1);
  });

  it("agrees with plant.csv", () => {
    const [unit] = kaplans;
    expect(number(unit, "discharge [m3/s]")).toBe(fact("dischargePerUnit"));
    expect(number(unit, "bestDischarge [m3/s]")).toBe(fact("bestDischarge"));
    expect(number(unit, "head [m]")).toBe(fact("netHead"));
    expect(number(unit, "rotationalSpeed [rpm]")).toBe(fact("rotationalSpeed"));
    expect(number(unit, "runnerDiameter [m]")).toBe(fact("runnerDiameter"));
    expect(number(unit, "hubDiameter [m]")).toBe(fact("hubDiameter"));
    expect(number(unit, "blades")).toBe(fact("blades"));
    expect(number(unit, "efficiency")).toBe(fact("efficiency"));
  });

  it("turns every runner at a synchronous speed: a whole, even number of poles at 50 Hz", () => {
    for (const unit of turbines) {
      const poles = (120 * 50) / number(unit, "rotationalSpeed [rpm]");
      expect(poles % 2).toBe(0);
    }
  });

  // Common-practice bands for low-head Kaplan runners (specific speed in rpm, m³/s and m).
  it("has Kaplan units of common practice: specific speed, hub, tip speed, unit discharge, diameter", () => {
    const [unit] = kaplans;
    const discharge = number(unit, "discharge [m3/s]");
    const head = number(unit, "head [m]");
    const speed = number(unit, "rotationalSpeed [rpm]");
    const diameter = number(unit, "runnerDiameter [m]");
    const hub = number(unit, "hubDiameter [m]");

    const specificSpeed = (speed * Math.sqrt(discharge)) / head ** 0.75;
    expect(specificSpeed).toBeGreaterThan(120);
    expect(specificSpeed).toBeLessThan(300);

    const hubRatio = hub / diameter;
    expect(hubRatio).toBeGreaterThan(0.35);
    expect(hubRatio).toBeLessThan(0.5);

    const tipSpeedRatio = (Math.PI * diameter * (speed / 60)) / Math.sqrt(2 * 9.81 * head);
    expect(tipSpeedRatio).toBeGreaterThan(1.4);
    expect(tipSpeedRatio).toBeLessThan(2.3);

    const unitDischarge = discharge / (diameter ** 2 * Math.sqrt(head));
    expect(unitDischarge).toBeGreaterThan(1);
    expect(unitDischarge).toBeLessThan(2.5);

    // Specific diameter on the usual diagram of best runners: about 1.4 to 1.8 at this specific speed.
    const specificDiameter = (1.054 * diameter * (2 * 9.81 * head) ** 0.25) / Math.sqrt(discharge);
    expect(specificDiameter).toBeGreaterThan(1.4);
    expect(specificDiameter).toBeLessThan(1.8);
  });

  it("has a Francis unit of common practice: specific speed, inlet tip speed, outlet velocity", () => {
    const [unit] = francis;
    const head = number(unit, "head [m]");
    const spouting = Math.sqrt(2 * 9.81 * head);
    const speed = number(unit, "rotationalSpeed [rpm]");
    const specificSpeed = (speed * Math.sqrt(number(unit, "discharge [m3/s]"))) / head ** 0.75;
    expect(specificSpeed).toBeGreaterThan(20);
    expect(specificSpeed).toBeLessThan(120);
    const tipSpeedRatio = (Math.PI * number(unit, "inletDiameter [m]") * (speed / 60)) / spouting;
    expect(tipSpeedRatio).toBeGreaterThan(0.6);
    expect(tipSpeedRatio).toBeLessThan(1.1);
    const outlet =
      number(unit, "discharge [m3/s]") / ((Math.PI / 4) * number(unit, "outletDiameter [m]") ** 2) / spouting;
    expect(outlet).toBeGreaterThan(0.15);
    expect(outlet).toBeLessThan(0.4);
  });

  it("has the inflow angle of Euler's equation and the blade spacing of the geometry", () => {
    const [unit] = kaplans;
    const omega = (2 * Math.PI * number(unit, "rotationalSpeed [rpm]")) / 60;
    const diameter = number(unit, "runnerDiameter [m]");
    const hub = number(unit, "hubDiameter [m]");
    // tan a = (π/2) E η / (q r) at r = 0.75 of the tip radius
    const energy = (9.81 * number(unit, "head [m]")) / (omega * diameter) ** 2;
    const flow = number(unit, "discharge [m3/s]") / (omega * diameter ** 3);
    const tangent = ((Math.PI / 2) * energy * number(unit, "efficiency")) / (flow * 0.75);
    expect((Math.atan(tangent) * 180) / Math.PI).toBeCloseTo(number(unit, "inflowAngle [deg]"), 1);
    const spacing = (Math.PI * (diameter + hub)) / 2 / number(unit, "blades");
    expect(spacing).toBeCloseTo(number(unit, "bladeSpacing [m]"), 3);
  });

  it("leaves cells empty exactly where the type has no such value", () => {
    const kaplanOnly = ["runnerDiameter [m]", "hubDiameter [m]", "inflowAngle [deg]", "bladeSpacing [m]"];
    const francisOnly = ["inletDiameter [m]", "outletDiameter [m]", "inletHeight [m]", "swirlFreeRatio"];
    for (const unit of turbines) {
      const empty = Object.keys(unit).filter((column) => unit[column] === "");
      expect(empty).toEqual(unit.type === "kaplan" ? francisOnly : kaplanOnly);
    }
  });
});
