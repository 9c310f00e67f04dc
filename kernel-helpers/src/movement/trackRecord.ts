import { defineSchema } from "../schema";

/** Positions of fish from cameras or telemetry: one row a picture in which a fish was found, in order of time. */
export const trackRecord = defineSchema({
  title: "position of a fish",
  columns: {
    fishId: { kind: "text", note: "the fish's label, as in the record of the trial" },
    time: { kind: "quantity", unit: "s", atLeast: 0, note: "time from the release" },
    x: { kind: "quantity", unit: "m", note: "along the flow, downstream positive" },
    y: { kind: "quantity", unit: "m", note: "across the flow" },
  },
});
