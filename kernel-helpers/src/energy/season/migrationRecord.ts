import { defineSchema, type RowOf, uniqueTogether, withRules } from "../../schema";

/** The days fish move: one row a day and species, days without fish included. */
export const migrationRecord = withRules(
  defineSchema({
    title: "days of migration",
    columns: {
      date: { kind: "day", note: "the day" },
      species: { kind: "text", note: "a name in the species table" },
      byDay: { kind: "number", whole: true, atLeast: 0, note: "fish that come by day" },
      byNight: { kind: "number", whole: true, atLeast: 0, note: "fish that come in the night" },
    },
  }),
  [uniqueTogether("date", "species")],
);

/** One row of a record of migration days. */
export type MigrationRow = RowOf<typeof migrationRecord>;
