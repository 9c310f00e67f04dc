import { csvText } from "./csv";
import { halvernWeir as plant } from "./halvern-weir";

/** One unit; a number is absent where it has no meaning for the type. Units stand in `turbineColumns`. */
export interface TurbineUnit {
  readonly plant: string;
  readonly unit: string;
  readonly type: "kaplan" | "francis";
  readonly discharge: number;
  readonly bestDischarge: number;
  readonly head: number;
  readonly rotationalSpeed: number;
  readonly blades: number;
  readonly efficiency: number;
  readonly runnerDiameter?: number;
  readonly hubDiameter?: number;
  readonly inflowAngle?: number;
  readonly bladeSpacing?: number;
  readonly inletDiameter?: number;
  readonly outletDiameter?: number;
  readonly inletHeight?: number;
  readonly swirlFreeRatio?: number;
  readonly correlation: number;
  readonly acclimationPressure: number;
  readonly lowestPressure: number;
  readonly note: string;
}

const halvernUnit = {
  plant: "Halvern Weir",
  type: "kaplan",
  discharge: plant.dischargePerUnit,
  bestDischarge: plant.bestDischarge,
  head: plant.netHead,
  rotationalSpeed: plant.rotationalSpeed,
  blades: plant.blades,
  efficiency: plant.efficiency,
  runnerDiameter: plant.runnerDiameter,
  hubDiameter: plant.hubDiameter,
  inflowAngle: 29.8,
  bladeSpacing: 1.088,
  correlation: 0.15,
  acclimationPressure: 119,
  lowestPressure: 72,
  note: "vertical Kaplan; head is the net head with a clean rack",
} as const;

/** The units of `turbine.csv`. Nothing here is drawn at random. */
export const turbineUnits: readonly TurbineUnit[] = [
  { ...halvernUnit, unit: "1" },
  { ...halvernUnit, unit: "2" },
  {
    plant: "Kelmar Mill",
    unit: "1",
    type: "francis",
    discharge: 2.4,
    bestDischarge: 2,
    head: 12,
    rotationalSpeed: 300,
    blades: 13,
    efficiency: 0.88,
    inletDiameter: 0.78,
    outletDiameter: 0.8,
    inletHeight: 0.22,
    swirlFreeRatio: 1.05,
    correlation: 0.15,
    acclimationPressure: 119,
    lowestPressure: 62,
    note: "an aside: small Francis unit at a neighbouring plant",
  },
];

/** The columns of `turbine.csv` in order, each with its unit; null where the column has none. */
export const turbineColumns: readonly (readonly [key: keyof TurbineUnit, unit: string | null])[] = [
  ["plant", null],
  ["unit", null],
  ["type", null],
  ["discharge", "m3/s"],
  ["bestDischarge", "m3/s"],
  ["head", "m"],
  ["rotationalSpeed", "rpm"],
  ["runnerDiameter", "m"],
  ["hubDiameter", "m"],
  ["blades", null],
  ["efficiency", null],
  ["inflowAngle", "deg"],
  ["bladeSpacing", "m"],
  ["inletDiameter", "m"],
  ["outletDiameter", "m"],
  ["inletHeight", "m"],
  ["swirlFreeRatio", null],
  ["correlation", null],
  ["acclimationPressure", "kPa"],
  ["lowestPressure", "kPa"],
  ["note", null],
];

/** Returns `turbine.csv` as text, one row a unit; a cell is empty where the value has no meaning for the type. */
export function turbineCsv(units: readonly TurbineUnit[] = turbineUnits): string {
  const header = turbineColumns.map(([key, unit]) => (unit === null ? key : `${key} [${unit}]`));
  const rows = units.map((turbine) => turbineColumns.map(([key]) => String(turbine[key] ?? "")));
  return csvText(header, rows);
}
