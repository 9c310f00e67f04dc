import type { Discharge, PlainNumber } from "../quantity/dimension";
import { formatNumber } from "../quantity/format";
import { u } from "../quantity/u";
import { meanOf } from "./meanFlow";
import { checkRecord, type FlowRecord } from "./record";

/** How often flows are reached or exceeded. */
export interface FlowDuration {
  /** The flows of the record, the largest first. */
  readonly flows: readonly Discharge[];
  /** Share of time in which each flow is reached or exceeded, i/(n + 1). */
  readonly exceedance: readonly number[];
  readonly mean: Discharge;
  /** Returns the flow that is reached or exceeded for this share of time, between the ranked flows in a straight line. */
  readonly quantile: (exceedance: PlainNumber) => Discharge;
}

/**
 * Flow duration: how often flows are reached or exceeded.
 *
 * Returns the ranked flows in cubic metres per second, their exceedance i/(n + 1), the mean, and a function for the flow
 * of any exceedance. That function refuses shares below 1/(n + 1) and above n/(n + 1): the record says nothing about
 * them. Throws a RangeError for a record with missing or doubled days or negative flows.
 *
 * @example
 * river.flowDuration([{ date: "2026-03-01", discharge: u.m3ps(40) }, { date: "2026-03-02", discharge: u.m3ps(30) },
 *   { date: "2026-03-03", discharge: u.m3ps(38) }]).quantile(0.5) // => 38 m³/s
 */
export function flowDuration(record: FlowRecord): FlowDuration {
  checkRecord("river.flowDuration", record);
  const flows = record.map((day) => day.discharge).toSorted((a, b) => b - a);
  const count = flows.length;
  const exceedance = flows.map((_, at) => (at + 1) / (count + 1));

  const quantile = (share: PlainNumber): Discharge => {
    // The rank may miss 1 or n by the last binary digit where the share was itself i/(n + 1).
    const slack = 1e-9 * (count + 1);
    const rank = share * (count + 1);
    if (!(rank >= 1 - slack && rank <= count + slack)) {
      throw new RangeError(
        `river.flowDuration: the exceedance is ${formatNumber(share)}; a record of ${count} days answers from ` +
          `${formatNumber(1 / (count + 1))} to ${formatNumber(count / (count + 1))}. Rarer flows need a longer ` +
          "record or an extreme-value analysis.",
      );
    }
    const within = Math.min(count, Math.max(1, rank));
    const lower = Math.floor(within);
    const upper = Math.min(count, lower + 1);
    return u.m3ps(flows[lower - 1] + (within - lower) * (flows[upper - 1] - flows[lower - 1]));
  };

  return { flows, exceedance, mean: meanOf(record), quantile };
}
