import { defineSchema, type RowOf } from "../../schema";

const mass = { kind: "quantity", unit: "kg", atLeast: 0 } as const;

/** The record of the debris that drifts in a river: one row a day, wet mass by type. */
export const debrisRecord = defineSchema({
  title: "debris of a day",
  columns: {
    date: { kind: "day", unique: true, note: "the day" },
    leaves: { ...mass, note: "leaves" },
    wood: { ...mass, note: "twigs and branches" },
    waterPlants: { ...mass, note: "water plants" },
    ice: { ...mass, note: "frazil ice" },
  },
});

/** One row of `clogging.debrisRecord`. */
export type DebrisRow = RowOf<typeof debrisRecord>;
