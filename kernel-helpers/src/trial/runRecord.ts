import { defineSchema } from "../schema";
import { outcomes } from "./outcome";

/** The record of a live-fish trial: one row a fish. */
export const runRecord = defineSchema({
  title: "fish of a live-fish trial",
  columns: {
    runId: { kind: "text", note: "the run; its fish were in the flume together" },
    fishId: { kind: "text", unique: true, note: "the fish's label" },
    date: { kind: "day", note: "the day of the run" },
    batch: { kind: "text", note: "the delivery or catch that the fish came with" },
    species: { kind: "text", note: "a name in the species table" },
    totalLength: { kind: "quantity", unit: "mm", above: 0, note: "total length" },
    temperature: { kind: "quantity", unit: "degC", atLeast: 0, atMost: 40, note: "of the water" },
    clearSpacing: { kind: "quantity", unit: "mm", above: 0, note: "clear spacing of the rack's bars" },
    approachVelocity: {
      kind: "quantity",
      unit: "mps",
      above: 0,
      note: "mean velocity in the flume upstream of the rack",
    },
    entranceVelocityRatio: {
      kind: "number",
      atLeast: 0,
      note: "velocity at the bypass entrance over approach velocity",
    },
    cue: { kind: "text", note: "the added cue, such as light; none without one" },
    runDuration: { kind: "quantity", unit: "min", above: 0, note: "from the release to the end of the run" },
    outcome: { kind: "choice", oneOf: outcomes, note: "what the fish did" },
    outcomeTime: {
      kind: "quantity",
      unit: "min",
      atLeast: 0,
      optional: true,
      note: "from the release to bypass, passage or impingement; empty for refused and inactive fish",
    },
  },
});
