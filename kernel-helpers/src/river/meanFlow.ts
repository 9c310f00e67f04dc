import type { Discharge } from "../quantity/dimension";
import { u } from "../quantity/u";
import { checkRecord, type FlowRecord } from "./record";

/** The mean of a record that is already checked. */
export const meanOf = (record: FlowRecord): Discharge =>
  u.m3ps(record.reduce((sum, day) => sum + day.discharge, 0) / record.length);

/**
 * Mean flow of a record.
 *
 * Returns the mean in cubic metres per second. Throws a RangeError for a record with missing or doubled days or negative
 * flows.
 *
 * @example
 * river.meanFlow([{ date: "2026-03-01", discharge: u.m3ps(40) },
 *   { date: "2026-03-02", discharge: u.m3ps(30) }]) // => 35 m³/s
 */
export function meanFlow(record: FlowRecord): Discharge {
  checkRecord("river.meanFlow", record);
  return meanOf(record);
}
