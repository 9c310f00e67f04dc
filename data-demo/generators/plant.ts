import { csvText } from "./csv";
import { halvernWeir as plant } from "./halvern-weir";

/** One fact of the plant; `unit` is "-" for a pure number, a count or a month's number. */
export interface PlantFact {
  readonly key: string;
  readonly value: number;
  readonly unit: string;
  readonly note: string;
}

const HANDBOOK = "handbook shape factor of the head loss of racks";

/** The facts of `plant.csv`, in the order of the file. Nothing here is drawn at random. */
export const plantFacts: readonly PlantFact[] = [
  fact("meanFlow", plant.meanFlow, "m3/s", "mean of the daily flow record 2012 to 2023"),
  fact("designDischarge", plant.designDischarge, "m3/s", "both units at full discharge"),
  fact("units", plant.units, "-", "equal Kaplan units"),
  fact("dischargePerUnit", plant.dischargePerUnit, "m3/s", "one unit at full discharge"),
  fact("bestDischarge", plant.bestDischarge, "m3/s", "one unit at its best efficiency"),
  fact("grossHead", plant.grossHead, "m", "difference of the water levels at mean flow"),
  fact("netHead", plant.netHead, "m", "gross head less rack and intake losses; clean rack"),
  fact("rotationalSpeed", plant.rotationalSpeed, "rpm", "synchronous with a 50 Hz grid: 32 poles"),
  fact("runnerDiameter", plant.runnerDiameter, "m", "outer diameter of the runner"),
  fact("hubDiameter", plant.hubDiameter, "m", "0.42 of the runner diameter"),
  fact("blades", plant.blades, "-", "runner blades of one unit"),
  fact("efficiency", plant.efficiency, "-", "of a unit at its best point"),
  fact("residualFlow", 2.5, "m3/s", "left to the old river course the whole year"),
  fact("technicalMinimum", 4, "m3/s", "below this turbine flow both units stand still"),
  fact("bypassShare", 0.04, "-", "share of the design discharge given to the bypass"),
  fact("channelWidth", plant.channelWidth, "m", "approach channel at the rack"),
  fact("channelDepth", plant.channelDepth, "m", "water depth in the approach channel at the rack"),
  fact("rackAngle", 38, "deg", "in plan between rack and flow; 90 would be square to it"),
  fact("rackInclination", 90, "deg", "to the horizontal: the rack stands upright"),
  fact("barThickness", 8, "mm", "horizontal bars"),
  fact("barDepth", 60, "mm", "length of a bar's section along the flow"),
  fact("supportShare", 0.05, "-", "share of the gaps taken by spacers and supports"),
  ...plant.clearSpacings.map((spacing) =>
    fact(`clearSpacing${spacing}`, spacing, "mm", "clear spacing considered"),
  ),
  fact("shapeFactorRectangle", 2.42, "-", `bar considered: sharp rectangle; ${HANDBOOK}`),
  fact("shapeFactorRoundNoseAndTail", 1.67, "-", `bar considered: round nose and tail; ${HANDBOOK}`),
  fact("shapeFactorStreamlined", 0.76, "-", `bar considered: fully streamlined; ${HANDBOOK}`),
  fact("cleaningHeadDifference", 0.1, "m", "the rack cleaner starts at this head difference"),
  fact("springMigrationFirstMonth", 4, "-", "month of the year"),
  fact("springMigrationLastMonth", 5, "-", "month of the year"),
  fact("autumnMigrationFirstMonth", 9, "-", "month of the year"),
  fact("autumnMigrationLastMonth", 11, "-", "month of the year"),
];

/** Returns `plant.csv` as text, one row a fact. */
export function plantCsv(facts: readonly PlantFact[] = plantFacts): string {
  return csvText(
    ["key", "value", "unit", "note"],
    facts.map(({ key, value, unit, note }) => [key, String(value), unit, note]),
  );
}

function fact(key: string, value: number, unit: string, note: string): PlantFact {
  return { key, value, unit, note };
}
