/** The demo plant's files, read for the key results. */
import { readFileSync } from "node:fs";
import { join } from "node:path";
import type { Angle, Discharge, Length, Quantity } from "../quantity/dimension";
import { u } from "../quantity/u";
import { unitSpelled } from "../quantity/spelling";
import { checkRecords, type Records } from "../records/records";
import { readTable } from "../records/readTable";
import { defineSchema, type Schema } from "../schema";
import type { AxialUnit } from "../turbine";

const plantValue = defineSchema({
  title: "value of the plant",
  columns: {
    key: { kind: "text", unique: true },
    value: { kind: "number" },
    unit: { kind: "text" },
    note: { kind: "text", optional: true },
  },
});

const turbineUnit = defineSchema({
  title: "turbine unit",
  columns: {
    plant: { kind: "text" },
    type: { kind: "choice", oneOf: ["kaplan", "francis"] },
    discharge: { kind: "quantity", unit: "m3ps", above: 0 },
    bestDischarge: { kind: "quantity", unit: "m3ps", above: 0 },
    head: { kind: "quantity", unit: "m", above: 0 },
    rotationalSpeed: { kind: "quantity", unit: "rpm", above: 0 },
    runnerDiameter: { kind: "quantity", unit: "m", above: 0, optional: true },
    hubDiameter: { kind: "quantity", unit: "m", above: 0, optional: true },
    blades: { kind: "number", whole: true, above: 0 },
    efficiency: { kind: "number", above: 0, atMost: 1 },
    inflowAngle: { kind: "quantity", unit: "deg", above: 0, below: 90, optional: true },
  },
  others: true,
});

/** What the key results need to know about the plant. */
export interface DemoPlant {
  readonly name: string;
  readonly designDischarge: Discharge;
  readonly channelWidth: Length;
  readonly channelDepth: Length;
  readonly rackAngle: Angle;
  readonly barThickness: Length;
  readonly supportShare: number;
  readonly turbine: AxialUnit;
  readonly inflowAngle: Angle;
}

/** Reads the plant's files in `folder`. Throws an Error for a value that is missing or has a unit of something else. */
export async function readDemoPlant(folder: string): Promise<DemoPlant> {
  const values = await read(folder, "plant.csv", plantValue);
  const rowOf = (key: string): { value: number; unit: string } => {
    const row = values.rows.find((one) => one.key === key);
    if (row === undefined) throw new Error(`${values.place} has no row "${key}".`);
    return row;
  };
  const quantityOf = <D extends "angle" | "discharge" | "length">(key: string, dimension: D): Quantity<D> => {
    const { value, unit } = rowOf(key);
    const name = unitSpelled(unit, dimension);
    if (name === undefined) {
      throw new Error(`${values.place}: ${key} has the unit "${unit}"; it must be a unit of ${dimension}.`);
    }
    // The unit is one of this dimension; the compiler can't pair the two for an unknown name.
    return (u[name] as (value: number) => unknown)(value) as Quantity<D>;
  };
  const kaplan = (await read(folder, "turbine.csv", turbineUnit)).rows.find((row) => row.type === "kaplan");
  if (kaplan?.runnerDiameter === undefined || kaplan.inflowAngle === undefined) {
    throw new Error("data-demo/turbine.csv has no Kaplan unit with a runnerDiameter and an inflowAngle.");
  }
  const { inflowAngle, discharge, bestDischarge, head, rotationalSpeed, blades, efficiency } = kaplan;
  const { runnerDiameter, hubDiameter } = kaplan;
  return {
    name: kaplan.plant,
    designDischarge: quantityOf("designDischarge", "discharge"),
    channelWidth: quantityOf("channelWidth", "length"),
    channelDepth: quantityOf("channelDepth", "length"),
    rackAngle: quantityOf("rackAngle", "angle"),
    barThickness: quantityOf("barThickness", "length"),
    supportShare: rowOf("supportShare").value,
    turbine: {
      type: "kaplan",
      discharge,
      bestDischarge,
      head,
      rotationalSpeed,
      blades,
      efficiency,
      runnerDiameter,
      hubDiameter,
    },
    inflowAngle,
  };
}

async function read<const S extends Schema>(folder: string, name: string, schema: S): Promise<Records<S>> {
  return checkRecords(await readTable(readFileSync(join(folder, name)), join("data-demo", name), {}), schema);
}
