import { defineSchema, type RowOf, type RowRule, withRules } from "../../schema";
import type { RangeOf } from "./settings";

/** What each type of runner needs besides the columns that every plant has. */
const needed = {
  kaplan: ["runnerDiameter"],
  propeller: ["runnerDiameter", "bestDischarge"],
  francis: ["inletDiameter", "outletDiameter", "inletHeight", "bestDischarge", "swirlFreeRatio"],
} as const;

type Sizes = Readonly<Record<(typeof needed)[keyof typeof needed][number], number | undefined>>;

/** A plant has the sizes of its type of runner. */
const sizesOfTheType: RowRule<Sizes & { readonly type: keyof typeof needed }> = {
  columns: [
    "type",
    "runnerDiameter",
    "bestDischarge",
    "inletDiameter",
    "outletDiameter",
    "inletHeight",
    "swirlFreeRatio",
  ],
  allowed: "with the sizes that the type of runner needs",
  fault(row) {
    const missing = needed[row.type].filter((name) => row[name] === undefined);
    return missing.length === 0
      ? undefined
      : `a ${row.type} runner needs ${missing.join(", ")}; fill in what is empty, or correct the type.`;
  },
};

/** The plants of a catchment: one row a plant. Columns that are not listed are passed over. */
export const plantRecord = withRules(
  defineSchema({
    title: "plants of a catchment",
    columns: {
      plant: { kind: "text", note: "name of the plant; its draws depend on it and on the seed" },
      type: { kind: "choice", oneOf: ["kaplan", "propeller", "francis"], note: "type of the runner" },
      discharge: { kind: "quantity", unit: "m3ps", above: 0, note: "of one unit" },
      head: { kind: "quantity", unit: "m", above: 0, note: "net head" },
      rotationalSpeed: { kind: "quantity", unit: "rpm", above: 0 },
      blades: { kind: "number", whole: true, atLeast: 1 },
      efficiency: { kind: "number", above: 0, atMost: 1 },
      clearSpacing: { kind: "quantity", unit: "mm", above: 0, note: "of the rack" },
      spillFlowShare: { kind: "number", atLeast: 0, atMost: 1, note: "share of the flow over the spillway" },
      spillEffectiveness: { kind: "number", atLeast: 0, note: "share of the fish over share of the flow" },
      spillSurvival: { kind: "number", atLeast: 0, atMost: 1, note: "of fish that go over the spillway" },
      runnerDiameter: { kind: "quantity", unit: "m", above: 0, optional: true, note: "kaplan, propeller" },
      bestDischarge: { kind: "quantity", unit: "m3ps", above: 0, optional: true, note: "propeller, francis" },
      inletDiameter: { kind: "quantity", unit: "m", above: 0, optional: true, note: "francis" },
      outletDiameter: { kind: "quantity", unit: "m", above: 0, optional: true, note: "francis" },
      inletHeight: { kind: "quantity", unit: "m", above: 0, optional: true, note: "francis" },
      swirlFreeRatio: { kind: "number", above: 0, optional: true, note: "francis" },
    },
    others: true,
  }),
  [sizesOfTheType],
);

/** One checked plant, in SI. */
export type CatchmentPlant = RowOf<typeof plantRecord>;

/** The species that are screened: one row a species. */
export const speciesRecord = defineSchema({
  title: "species of a screening",
  columns: {
    species: { kind: "text", unique: true },
    widthRatio: { kind: "number", above: 0, atMost: 1, note: "body width over total length" },
    heightRatio: { kind: "number", above: 0, atMost: 1, note: "body height over total length" },
    turnsOnSide: { kind: "choice", oneOf: ["yes", "no"], note: "whether it meets a gap with its width" },
    medianLength: { kind: "quantity", unit: "mm", above: 0, note: "of the fish that come down" },
    lengthSpread: { kind: "number", above: 0, note: "standard deviation of ln(length)" },
  },
  others: true,
});

/** The numbers that are drawn, each evenly from a range: one row a number. */
export const rangeRecord = defineSchema({
  title: "ranges of a screening",
  columns: {
    number: {
      kind: "choice",
      oneOf: ["threshold", "exponent", "correlation", "protectedSurvival", "bodyFactor"],
      unique: true,
    },
    lowest: { kind: "number", atLeast: 0 },
    highest: { kind: "number", atLeast: 0 },
  },
  others: true,
});

/** Whether a name is one of the drawn numbers'. */
export type RangeName = keyof RangeOf;
