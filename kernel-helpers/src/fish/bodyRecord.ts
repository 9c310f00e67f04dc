import { defineSchema, withRules } from "../schema";

const columns = defineSchema({
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

/** A body as large as the whole fish is a slip of the pen or of the decimal point. */
const belowLength = (measure: "width" | "height") => ({
  columns: [measure, "totalLength"] as const,
  allowed: "below the total length",
  fault: (fish: { readonly width: number; readonly height: number; readonly totalLength: number }) =>
    fish[measure] < fish.totalLength
      ? undefined
      : `the ${measure} is not below the total length; check the decimal points and units of both.`,
});

/** Fish measured for their bodies: one row a fish. */
export const bodyRecord = withRules(columns, [belowLength("width"), belowLength("height")]);
