import { defineSchema, type RowsRule, withRules } from "../schema";
import { linkFaults } from "./network";

/** The links of a river: every next plant is there, and the water runs to the sea. */
const linksInOrder: RowsRule<{ readonly next: string | undefined; readonly plant: string }> = {
  columns: ["next", "plant"],
  allowed: "a plant of the file, or an empty cell for the sea, and no loop",
  faults: (rows) =>
    linkFaults(rows)
      .filter(({ column }) => column === "next")
      .map(({ index, fault }) => ({ index, fault: `${fault}.` })),
};

/** The plants of a river: one row a plant, with the reach below it and the refit that is considered. */
export const plantRecord = withRules(
  defineSchema({
    title: "plants of a river",
    columns: {
      plant: { kind: "text", unique: true, note: "name of the plant" },
      river: { kind: "text", note: "the river that it stands on" },
      next: { kind: "text", optional: true, note: "the next plant downstream; empty for the sea" },
      reachLength: {
        kind: "quantity",
        unit: "km",
        atLeast: 0,
        note: "from this plant to the next, or to the sea",
      },
      mortalityPerKilometre: {
        kind: "number",
        atLeast: 0,
        atMost: 1,
        note: "share lost in one kilometre of it",
      },
      entering: { kind: "number", atLeast: 0, note: "fish that start between the plants above and this one" },
      spillFlowShare: { kind: "number", atLeast: 0, atMost: 1, note: "share of the flow over the spillway" },
      spillEffectiveness: { kind: "number", atLeast: 0, note: "share of the fish over share of the flow" },
      spillSurvival: { kind: "number", atLeast: 0, atMost: 1, note: "of fish that go over the spillway" },
      clearSpacing: { kind: "quantity", unit: "mm", above: 0, note: "of the rack, as it is" },
      protectedSurvival: {
        kind: "number",
        atLeast: 0,
        atMost: 1,
        note: "of fish that the rack keeps from the turbine, as it is",
      },
      turbineSurvival: { kind: "number", atLeast: 0, atMost: 1, note: "of fish that pass the turbine" },
      refitSpacing: {
        kind: "quantity",
        unit: "mm",
        above: 0,
        optional: true,
        note: "of the rack that is considered",
      },
      refitProtectedSurvival: {
        kind: "number",
        atLeast: 0,
        atMost: 1,
        optional: true,
        note: "of fish that the new rack keeps from the turbine, with its bypass",
      },
      refitCost: { kind: "number", atLeast: 0, optional: true, note: "of the new rack, in millions" },
      note: { kind: "text", optional: true },
    },
  }),
  [linksInOrder],
);
