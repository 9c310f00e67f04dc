import { defineSchema } from "../schema";

/** Fish measured for their bodies: one row a fish. */
export const bodyRecord = defineSchema({
  title: "fish measured for their bodies",
  columns: {
    fishId: { kind: "text", unique: true, note: "the fish's label" },
    species: { kind: "text", note: "a name in the species table" },
    totalLength: { kind: "quantity", unit: "mm", above: 0, note: "total length" },
    width: { kind: "quantity", unit: "mm", above: 0, note: "greatest width of the body" },
    height: { kind: "quantity", unit: "mm", above: 0, note: "greatest height of the body" },
    weight: { kind: "quantity", unit: "g", above: 0, optional: true, note: "weight" },
  },
});
