import { speciesTable } from "../fish/species";
import { defineSchema, type RowOf, withRules } from "../schema";
import { catchRules } from "./catchRules";
import { demoPlants, type MonitoredPlant } from "./plants";

/** The nets, behind the two ways past the rack. */
export const nets = ["bypass", "turbine"] as const;
export type Net = (typeof nets)[number];

/** Migrants; fish released upstream of the route; fish released in the net. */
export const groups = ["wild", "treated", "control"] as const;
export type Group = (typeof groups)[number];

const catchColumns = (plants: readonly string[], species: readonly string[]) =>
  defineSchema({
    title: "net catches",
    columns: {
      catchId: { kind: "text", unique: true, note: "label of the catch" },
      plant: { kind: "choice", oneOf: plants, note: "where the nets stood" },
      night: { kind: "day", note: "date of the evening" },
      net: { kind: "choice", oneOf: nets, note: "behind which of the two ways the net stood" },
      group: {
        kind: "choice",
        oneOf: groups,
        note: "wild: migrants; treated: released upstream of the way; control: released in the net",
      },
      species: { kind: "choice", oneOf: species, note: "a name in the species table" },
      lengthFrom: { kind: "quantity", unit: "mm", above: 0, note: "lower bound of the length class" },
      lengthTo: { kind: "quantity", unit: "mm", above: 0, note: "upper bound of the length class" },
      released: {
        kind: "number",
        whole: true,
        atLeast: 1,
        optional: true,
        note: "fish released; empty for wild fish",
      },
      caught: { kind: "number", whole: true, atLeast: 0, note: "fish in the net, dead ones included" },
      uninjured: { kind: "number", whole: true, atLeast: 0, note: "of the catch: without injury" },
      lightlyInjured: { kind: "number", whole: true, atLeast: 0, note: "of the catch: lightly injured" },
      severelyInjured: {
        kind: "number",
        whole: true,
        atLeast: 0,
        note: "of the catch: severely injured, dead ones included; the three classes add up to the catch",
      },
      deadAtOnce: { kind: "number", whole: true, atLeast: 0, note: "of the catch: dead in the net" },
      deadAfter96h: {
        kind: "number",
        whole: true,
        atLeast: 0,
        note: "of those alive in the net: dead 96 hours later",
      },
      turbineLoad: { kind: "quantity", unit: "kW", atLeast: 0, note: "mean load of the plant in the night" },
      turbineFlow: { kind: "quantity", unit: "m3ps", atLeast: 0, note: "mean flow through the turbines" },
      bypassFlow: { kind: "quantity", unit: "m3ps", atLeast: 0, note: "flow through the bypass" },
    },
  });

/** One row of a catch record that fits its schema. */
export type CatchRow = RowOf<ReturnType<typeof catchColumns>>;

/**
 * The schema of net catches at your own plants: what one row holds, and what must hold between columns and rows.
 *
 * Returns a schema for `readRecords`. Beside every entry by itself it checks that the injury classes add up to the catch,
 * that no more are dead than were caught or left alive, that a length class ends above its beginning, that fish were
 * released where they should and no more caught than that, that the flow is possible at the plant and the same in all
 * rows of its night, that a plant that stood still killed no fish, and that no catch stands twice. Throws an Error for an
 * empty list of plants or species.
 *
 * @example
 * monitoring.catchRecordFor({ plants: [{ plant: "Halvern Weir", fullFlow: u.m3ps(34) }],
 *   species: ["roach", "perch"] }).title // => "net catches"
 */
export function catchRecordFor({
  plants,
  species,
}: {
  readonly plants: readonly MonitoredPlant[];
  readonly species: readonly string[];
}): ReturnType<typeof catchColumns> {
  const schema = catchColumns(
    plants.map(({ plant }) => plant),
    species,
  );
  return withRules(schema, catchRules(plants));
}

/** The schema of the demo plants' net catches; `monitoring.catchRecordFor` makes one for others. */
export const catchRecord = catchRecordFor({
  plants: demoPlants,
  species: speciesTable.map(({ name }) => name),
});
