import type { Discharge, Length, Velocity } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { capturedShare, daysAtOrAbove } from "../../river/operation";
import { flowDuration } from "../../river/flowDuration";
import type { FlowRecord } from "../../river/record";
import { defineExercise } from "./definition";

/** A flow record, and the days a year on which a design discharge shall be reached or exceeded. */
export interface WantedDays {
  readonly record: FlowRecord;
  readonly daysAYear: number;
}

const daysOfYear = 365.25;

const dischargeOn = ({ record, daysAYear }: WantedDays): Discharge =>
  flowDuration(record).quantile(daysAYear / daysOfYear);

/** Exercises of notebook 01, river and plant. */
export const riverAndPlantExercises = {
  "01.1": defineExercise({
    expected: ({ record, exceedance }: { readonly record: FlowRecord; readonly exceedance: number }) =>
      flowDuration(record).quantile(exceedance),
    within: 0.01,
    unit: "m3ps",
    hint: "the flow duration curve of the notebook answers for any share of time, written as a ratio.",
  }),
  "01.2": defineExercise({
    expected: ({ record, flow }: { readonly record: FlowRecord; readonly flow: Discharge }): number =>
      (daysAtOrAbove(record, flow) / record.length) * daysOfYear,
    within: 0.01,
    hint: "count the days of the whole record, then divide by its years.",
  }),
  "01.3": defineExercise({
    expected: (inputs: { readonly record: FlowRecord; readonly designDischarge: Discharge }): number =>
      capturedShare(inputs.record, inputs.designDischarge),
    within: 0.01,
    hint: "cut every day's flow at the design discharge, add up, and divide by the sum of all flows.",
  }),
  "01.4": defineExercise({
    expected: dischargeOn,
    within: 0.01,
    unit: "m3ps",
    hint: "turn the days into a share of the year; the flow duration curve does the rest.",
  }),
  "01.5": defineExercise({
    expected: ({
      waterDepth,
      permittedVelocity,
      ...wanted
    }: WantedDays & { readonly waterDepth: Length; readonly permittedVelocity: Velocity }): Length =>
      u.m(dischargeOn(wanted) / (permittedVelocity * waterDepth)),
    within: 0.01,
    unit: "m",
    hint: "continuity: the discharge is width times depth times velocity.",
  }),
};
