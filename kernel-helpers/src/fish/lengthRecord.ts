import { defineSchema } from "../schema";

/** A sample of measured fish: one row a fish. */
export const lengthRecord = defineSchema({
  title: "measured fish",
  columns: {
    fishId: { kind: "text", unique: true, note: "the fish's label" },
    date: { kind: "day", note: "the day it was measured" },
    species: { kind: "text", note: "a name in the species table" },
    totalLength: { kind: "quantity", unit: "mm", above: 0, note: "total length" },
    weight: { kind: "quantity", unit: "g", above: 0, note: "weight" },
  },
});
