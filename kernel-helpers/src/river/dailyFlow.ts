import { defineSchema } from "../schema";

/** The record of daily mean flows: one row a day, in order of date. */
export const dailyFlow = defineSchema({
  title: "daily mean flow",
  columns: {
    date: { kind: "day", unique: true, note: "the day, in order of date without a gap" },
    discharge: { kind: "quantity", unit: "m3ps", atLeast: 0, note: "mean discharge of the day" },
  },
});
