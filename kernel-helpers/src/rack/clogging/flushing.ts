import { defineFormula } from "../../formula/formula";
import { count, discharge, printValue, time } from "../../formula/input";
import { derived } from "../../formula/source";

/**
 * Water that flushing debris through the bypass takes, above what the bypass has anyway.
 *
 * Returns a volume in cubic metres. Valid for flushings of the same length. Throws where the bypass has more than the
 * flushing. On days on which the river brings more than the plant can use, this water costs nothing.
 *
 * @example
 * clogging.flushingWater({ flushingDischarge: u.m3ps(3), bypassDischarge: u.m3ps(1.36), flushingTime: u.min(10),
 *                          flushings: 120 }) // => 118080 m³
 */
export const flushingWater = defineFormula({
  id: "clogging.flushingWater",
  title: "Water for flushing through the bypass",
  symbol: "V",
  result: "volume",
  inputs: {
    flushingDischarge: discharge("Q_f", { above: 0, note: "through the bypass while flushing" }),
    bypassDischarge: discharge("Q_b", { atLeast: 0, note: "through the bypass at other times" }),
    flushingTime: time("t", { above: 0, unit: "min", note: "of one flushing" }),
    flushings: count("n", { atLeast: 0 }),
  },
  tex: (q) => `${q.flushings}\\left(${q.flushingDischarge} - ${q.bypassDischarge}\\right) ${q.flushingTime}`,
  source: derived("volume as discharge times time"),
  refuse: ({ flushingDischarge, bypassDischarge }) =>
    bypassDischarge > flushingDischarge
      ? `bypassDischarge is ${printValue(bypassDischarge, "discharge")}; it must be at most flushingDischarge, ` +
        `${printValue(flushingDischarge, "discharge")}.`
      : undefined,
  evaluate: ({ flushingDischarge, bypassDischarge, flushingTime, flushings }) =>
    flushings * (flushingDischarge - bypassDischarge) * flushingTime,
});
