import type { CleanedRecord, CleanedSample, Component, SampleVerdict } from "../velocity";
import { axis, helpColour, layout, line, points, seriesName } from "./look";
import { said } from "./numbers";
import type { FigureSpec, PlotlyTrace } from "./spec";

/** What `probeRecord` draws. */
export interface ProbeRecordInput {
  readonly title?: string;
  readonly record: CleanedRecord;
  /** "velocityX" unless told otherwise. */
  readonly component?: Component;
  /** Part of the record in s; its first 20 s unless told otherwise. */
  readonly from?: number;
  readonly to?: number;
  readonly caption?: string;
}

const directions: Readonly<Record<Component, string>> = {
  velocityX: "along the flow",
  velocityY: "across the flow",
  velocityZ: "upwards",
};

/**
 * A raw probe record against time, with the samples that were left out marked by their reason.
 *
 * Returns a figure for `figure`. Every sample is drawn as the probe gave it; what is kept is a dark line over it. Throws a
 * RangeError for a part of the record without samples.
 *
 * @example
 * probeRecord({ title: "Point V001", record: velocity.cleanRecord(samples), component: "velocityX", from: 0, to: 20 })
 */
export function probeRecord(input: ProbeRecordInput): FigureSpec {
  const { title, record, component = "velocityX", from = 0, to = from + 20, caption } = input;
  const shown = record.samples.filter(({ time }) => time >= from && time <= to);
  if (shown.length < 2) {
    const [first, last] = [record.samples[0].time, record.samples[record.samples.length - 1].time];
    throw new RangeError(
      `figures.probeRecord: from ${from} s to ${to} s the record has ${shown.length} samples; it runs from ${first} s to ${last} s.`,
    );
  }
  const time = shown.map((sample) => hundredths(sample.time));
  const raw = {
    type: "scatter",
    mode: "lines",
    name: "as the probe gave it",
    x: time,
    y: shown.map((sample) => thousandths(sample[component])),
    line: { color: helpColour, width: 1 },
    opacity: 0.6,
  };
  const kept = {
    ...line(0, 2),
    name: "kept",
    x: time,
    y: shown.map((sample) => (sample.verdict === "good" ? thousandths(sample[component]) : null)),
  };
  const data = [
    raw,
    kept,
    ...left(shown, "spike", component, 1),
    ...left(shown, "poor correlation", component, 3),
  ];
  return {
    data,
    layout: layout(data, {
      title,
      x: axis("Time", "s"),
      y: axis(`Velocity ${directions[component]}`, "m/s"),
    }),
    alt: inWords(record, shown, component),
    caption,
  };
}

function left(
  shown: readonly CleanedSample[],
  verdict: SampleVerdict,
  component: Component,
  index: number,
): PlotlyTrace[] {
  const found = shown.filter((sample) => sample.verdict === verdict);
  if (found.length === 0) return [];
  return [
    {
      ...points(index, 7),
      name: seriesName(`${verdict} (${found.length})`),
      x: found.map(({ time }) => hundredths(time)),
      y: found.map((sample) => thousandths(sample[component])),
    },
  ];
}

function inWords(record: CleanedRecord, shown: readonly CleanedSample[], component: Component): string {
  const of = (verdict: SampleVerdict): number => shown.filter((one) => one.verdict === verdict).length;
  const range = (samples: readonly CleanedSample[]): string => {
    const values = samples.map((sample) => sample[component]);
    const [low, high] = [values.reduce((a, b) => Math.min(a, b)), values.reduce((a, b) => Math.max(a, b))];
    return `from ${said(low, "mps")} to ${said(high, "mps")}`;
  };
  const good = shown.filter(({ verdict }) => verdict === "good");
  const keptRange = good.length === 0 ? "none are kept" : `those kept run ${range(good)}`;
  return (
    `Velocity ${directions[component]} against time, ${shown.length} samples of ${record.count.samples}: ` +
    `the probe's values run ${range(shown)}, ${keptRange}; ` +
    `${of("spike")} are marked as spikes and ${of("poor correlation")} as of poor correlation.`
  );
}

const hundredths = (value: number): number => Math.round(100 * value) / 100;
const thousandths = (value: number): number => Math.round(1000 * value) / 1000;
