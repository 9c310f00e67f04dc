import { defineSchema } from "../schema";

/** The efficiency curve of one unit: one row a point, from the technical minimum to full discharge. */
export const efficiencyRecord = defineSchema({
  title: "efficiency of a unit",
  columns: {
    discharge: { kind: "quantity", unit: "m3ps", above: 0, unique: true, note: "discharge of the unit" },
    efficiency: {
      kind: "number",
      above: 0,
      atMost: 1,
      note: "power delivered over power of the water, turbine and generator together",
    },
  },
});
