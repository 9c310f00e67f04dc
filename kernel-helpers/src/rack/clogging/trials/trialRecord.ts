import { defineSchema, type RowOf, withRules } from "../../../schema";

const loss = { kind: "quantity", unit: "mm", above: 0 } as const;

/** The record of clogging trials in a flume: one row a trial, begun with a clean rack and fresh debris. */
export const trialRecord = withRules(
  defineSchema({
    title: "clogging trials in a flume",
    columns: {
      trialId: { kind: "text", unique: true, note: "the trial's label" },
      date: { kind: "day", note: "the day of the trial" },
      configuration: { kind: "text", note: "the same for trials that repeat each other" },
      clearSpacing: { kind: "quantity", unit: "mm", above: 0, note: "between the bars" },
      rackArea: { kind: "quantity", unit: "m2", above: 0, note: "gross area of the rack under water" },
      leafMass: { kind: "quantity", unit: "kg", above: 0, note: "wet leaves on the rack" },
      approachVelocity: { kind: "quantity", unit: "mps", above: 0, note: "mean velocity before the rack" },
      cleanLoss: { ...loss, note: "head loss of the clean rack, friction of the flume taken off" },
      cloggedLoss: { ...loss, note: "the same with the leaves" },
      lossError: { ...loss, note: "standard error of one reading of the head loss" },
    },
  }),
  [
    {
      columns: ["cleanLoss", "lossError"],
      allowed: "a clean loss of at least five times its error",
      fault: ({ cleanLoss, lossError }) =>
        cleanLoss >= 5 * lossError
          ? undefined
          : "the clean loss is too small beside its error to be divided by; run the trial at a higher velocity.",
    },
  ],
);

/** One row of `clogging.trialRecord`. */
export type CloggingTrialRow = RowOf<typeof trialRecord>;
