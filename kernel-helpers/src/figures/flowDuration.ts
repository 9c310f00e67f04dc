import { formatNumber } from "../quantity/format";
import { labelBoard } from "./labels";
import { axis, helpLine, layout, line, points } from "./look";
import { checkFinite, checkCount, checkSome, listed, type Numbers, said, shown } from "./numbers";
import type { FigureSpec, PlotlyLayout } from "./spec";

/** What `flowDuration` draws. */
export interface FlowDurationInput {
  readonly title?: string;
  /** Flows in m³/s. */
  readonly flows: Numbers;
  /** For each flow, the share of time (0..1) in which it is reached or exceeded. */
  readonly exceedance: Numbers;
  /** Flows to mark, such as the design discharge, in m³/s. */
  readonly marks?: readonly { readonly name: string; readonly flow: number }[];
  readonly caption?: string;
}

function share(value: number): string {
  return said(value, "%");
}

/** The share of time in which a flow is reached, between the neighbours in the ranked record. */
function timeReached(flow: number, ranked: readonly { flow: number; time: number }[]): number {
  const below = ranked.findIndex((one) => one.flow < flow);
  if (below === 0) return 0;
  if (below < 0) return 1;
  const [upper, lower] = [ranked[below - 1], ranked[below]];
  return upper.time + ((upper.flow - flow) / (upper.flow - lower.flow)) * (lower.time - upper.time);
}

/**
 * The flow duration curve: the share of time in which each flow is reached or exceeded.
 *
 * Returns a figure for `figure`. Marked flows are points of the curve, each with the share of time in which it
 * is reached: 0 above the record and 100 % below it. The flow axis is logarithmic where record and marks span a
 * factor of ten or more. Throws a `RangeError` where flows and shares do not pair.
 *
 * @example
 * flowDuration({ flows: [30, 20, 10], exceedance: [0.25, 0.5, 0.75], marks: [{ name: "design discharge", flow: 25 }] }).alt
 * // => "Flow duration curve: flow falls from 30 m³/s, reached 25 % of the time, to 10 m³/s, reached 75 % of the time;
 * //     design discharge 25 m³/s is reached 37.5 % of the time."
 */
export function flowDuration({
  title,
  flows,
  exceedance,
  marks = [],
  caption,
}: FlowDurationInput): FigureSpec {
  checkSome("flowDuration", "flows", flows);
  checkCount("flowDuration", "exceedance", exceedance, flows.length);
  checkFinite("flowDuration", "flows", flows);
  checkFinite("flowDuration", "exceedance", exceedance);
  const ranked = Array.from(flows, (flow, i) => ({ flow, time: exceedance[i] })).toSorted(
    (a, b) => b.flow - a.flow,
  );
  const [first, last] = [ranked[0], ranked[ranked.length - 1]];
  const named = marks
    .map(({ name, flow }) => ({
      flow,
      text: `${name} ${said(flow, "m3ps")}`,
      reached: timeReached(flow, ranked),
    }))
    .toSorted((a, b) => b.flow - a.flow);
  const x = shown(
    ranked.map((one) => one.time),
    "%",
  );
  const y = shown(
    ranked.map((one) => one.flow),
    "m3ps",
  );
  const onCurve = {
    ...points(0),
    name: "marked flows",
    showlegend: false,
    x: named.map(({ reached }) => 100 * reached),
    y: named.map(({ flow }) => flow),
  };
  const data = [{ ...line(0), name: "flow", x, y }, ...(named.length === 0 ? [] : [onCurve])];
  const scale = flowScale(ranked.map((one) => one.flow).concat(named.map(({ flow }) => flow)));
  const board = labelBoard({
    x: [0, 100],
    y: scale.range,
    busy: [
      { x, y: ranked.map((one) => scale.place(one.flow)) },
      ...named.map(({ flow, reached }) => ({
        x: [0, 100 * reached],
        y: [scale.place(flow), scale.place(flow)],
      })),
    ],
  });
  return {
    data,
    layout: layout(data, {
      title,
      x: axis("Share of time in which the flow is reached", "%", { range: [0, 100] }),
      y: axis("Flow", "m³/s", scale.axis),
      shapes: named.map(({ flow, reached }) => ({
        ...helpLine("y", flow),
        xref: "x",
        x0: 0,
        x1: 100 * reached,
      })),
      annotations: named.map(({ flow, text, reached }) =>
        board.point({
          x: 100 * reached,
          y: scale.place(flow),
          text: `${text}: ${share(reached)} of the time`,
        }),
      ),
    }),
    alt:
      `Flow duration curve: flow falls from ${said(first.flow, "m3ps")}, reached ${share(first.time)} of the time, ` +
      `to ${said(last.flow, "m3ps")}, reached ${share(last.time)} of the time` +
      (named.length === 0
        ? "."
        : `; ${listed(named.map(({ text, reached }) => `${text} is reached ${share(reached)} of the time`))}.`),
    caption,
  };
}

/** The axis of the flows: logarithmic where floods would press the rest flat. */
function flowScale(flows: readonly number[]): {
  readonly range: [number, number];
  readonly place: (flow: number) => number;
  readonly axis: PlotlyLayout;
} {
  const highest = flows.reduce((most, flow) => Math.max(most, flow), 0);
  const lowest = flows.reduce((least, flow) => Math.min(least, flow), highest);
  if (lowest <= 0 || highest / lowest < 10) {
    const range: [number, number] = [Math.min(0, lowest), 1.05 * highest];
    return { range, place: (flow) => flow, axis: { range } };
  }
  // On a logarithmic axis Plotly counts ranges and notes in powers of ten.
  const range: [number, number] = [Math.log10(lowest) - 0.05, Math.log10(highest) + 0.05];
  const decades = Array.from(
    { length: Math.ceil(range[1]) - Math.floor(range[0]) },
    (_, i) => i + Math.floor(range[0]),
  );
  const tickvals = decades.flatMap((decade) => [1, 2, 5].map((digit) => digit * 10 ** decade));
  return {
    range,
    place: Math.log10,
    axis: { type: "log", range, tickvals, ticktext: tickvals.map((flow) => formatNumber(flow)) },
  };
}
