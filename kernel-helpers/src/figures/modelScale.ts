import { noteUse } from "../formula/usage";
import { froudeScale, modelBarReynolds, type ModelScales } from "../rack";
import { labelBoard } from "./labels";
import { axis, colour, helpColour, helpLine, layout, line } from "./look";
import { said } from "./numbers";
import { u } from "../quantity/u";
import type { FigureSpec, PlotlyLayout, PlotlyTrace } from "./spec";

/** What `modelScale` draws. */
export interface ModelScaleInput {
  readonly title?: string;
  /** As `rack.modelScales` returns them. */
  readonly scales: ModelScales;
  /** Discharge of the whole channel in nature, in m³/s. */
  readonly discharge: number;
  /** The largest scale that is drawn, nature over model; wide enough for all demands unless told. */
  readonly upTo?: number;
  readonly caption?: string;
}

const steps = 60;
const bandColour = "rgba(42,157,143,0.18)";

/**
 * The bars' Reynolds number and the discharge of a Froude model against its length scale, with what flume and bars ask.
 *
 * Returns a figure for `figure`, both axes in powers of ten. The band of scales that meet all demands is shaded; where
 * there is none, the alt text says so.
 *
 * @example
 * modelScale({ scales: rack.modelScales(input), discharge: input.discharge })
 */
export function modelScale({ title, scales, discharge, upTo, caption }: ModelScaleInput): FigureSpec {
  const { least, greatest, fits, limit } = scales;
  const end = upTo ?? 2 * Math.max(least, greatest, 2);
  const start = Math.min(1, greatest / 1.5, least / 1.5);
  if (!(Number.isFinite(end) && end > start)) {
    throw new RangeError(
      `figures.modelScale: upTo is ${String(upTo)}; it must be above ${start.toPrecision(3)}, where the figure starts.`,
    );
  }
  if (!(discharge > 0 && Number.isFinite(discharge))) {
    throw new RangeError(`figures.modelScale: discharge is ${String(discharge)}; it must be above 0 m³/s.`);
  }
  for (const { id } of [froudeScale, modelBarReynolds]) noteUse(id);
  const at = Array.from({ length: steps + 1 }, (_, i) => start * (end / start) ** (i / steps));
  const reynolds = at.map((scale) => scales.barReynolds / scale ** 1.5);
  const flows = at.map((scale) => discharge / froudeScale.evaluate({ lengthScale: scale }).discharge);
  const data: PlotlyTrace[] = [
    { ...line(0), name: "Reynolds number (left)", x: at, y: reynolds },
    {
      ...line(3),
      name: "discharge (right)",
      x: at,
      y: flows.map((flow) => u.to.Lps(u.m3ps(flow))),
      yaxis: "y2",
    },
  ];
  const flowRange = logRange(flows.map((flow) => u.to.Lps(u.m3ps(flow))));
  const highest = logRange([...reynolds, limit.least])[1];
  // As many powers of ten on both axes: the two slopes can be compared, and the lines do not lie on each other.
  const decades = flowRange[1] - flowRange[0];
  const ranges = {
    x: [Math.log10(start), Math.log10(end)] as const,
    y: [highest - decades, highest] as const,
    y2: flowRange,
  };
  // Labels stand where neither curve runs; the second one is seen on the first one's axis.
  const turned = logarithms(flows.map((flow) => 1000 * flow)).map(
    (value) =>
      ranges.y[0] + ((value - ranges.y2[0]) / (ranges.y2[1] - ranges.y2[0])) * (ranges.y[1] - ranges.y[0]),
  );
  const board = labelBoard({
    x: ranges.x,
    y: ranges.y,
    busy: [
      { x: logarithms(at), y: logarithms(reynolds) },
      { x: logarithms(at), y: turned },
    ],
  });
  const governing = scales.demands.find(
    ({ lengthScale, must }) => must === "at least" && lengthScale === least,
  );
  const texts = {
    limit: `least Reynolds number ${said(limit.least, "")}`,
    flume: `${governing?.demand ?? "flume"}: at least ${said(least, "")}`,
    bars: `bars: at most ${said(greatest, "")}`,
  };
  const inPlot = (scale: number): boolean => scale > start && scale < end;
  const uprights = [
    { scale: greatest, text: texts.bars },
    { scale: least, text: texts.flume },
  ].filter(({ scale }) => inPlot(scale));
  return {
    data,
    layout: layout(data, {
      title,
      x: logAxis("Length scale, nature over model", ranges.x),
      y: logAxis("Reynolds number of a bar", ranges.y),
      y2: { ...logAxis("Discharge in the model", ranges.y2, "L/s"), showgrid: false },
      shapes: [
        ...(fits ? [band(least, greatest)] : []),
        helpLine("y", limit.least, colour(0)),
        ...uprights.map(({ scale }) => helpLine("x", scale)),
      ],
      annotations: [
        board.horizontalLine({ y: Math.log10(limit.least), text: texts.limit }),
        ...uprights.map(({ scale, text }) => board.verticalLine({ x: Math.log10(scale), text })),
      ],
    }),
    alt: [
      `Reynolds number of a bar and discharge of a Froude model against its length scale, ${said(start, "")} to ${said(end, "")}.`,
      `In nature the bar has ${said(scales.barReynolds, "")}; it falls to ${said(reynolds[steps], "")}, below the limit of ${said(limit.least, "")} from scale ${said(greatest, "")} on.`,
      `The flume holds the channel from scale ${said(least, "")} on (${governing?.demand ?? "flume"}).`,
      fits ? "Scales between the two meet all demands." : "No scale meets all demands.",
    ].join(" "),
    caption,
  };
}

const logarithms = (values: readonly number[]): number[] => values.map((value) => Math.log10(value));

/** Powers of ten around values, with a little room. */
function logRange(values: readonly number[]): readonly [number, number] {
  const [least, most] = [Math.log10(Math.min(...values)), Math.log10(Math.max(...values))];
  const room = 0.06 * Math.max(0.5, most - least);
  return [least - room, most + room];
}

/** Ticks at 1, 2 and 5 times powers of ten, written out. */
function logAxis(title: string, range: readonly [number, number], unit = ""): PlotlyLayout {
  const decades = Array.from(
    { length: Math.ceil(range[1]) - Math.floor(range[0]) + 1 },
    (_, i) => Math.floor(range[0]) + i,
  );
  const wanted = range[1] - range[0] > 2.5 ? [1] : [1, 2, 5];
  const ticks = decades
    .flatMap((decade) => wanted.map((digit) => digit * 10 ** decade))
    .filter((value) => Math.log10(value) >= range[0] && Math.log10(value) <= range[1]);
  return axis(title, unit, {
    type: "log",
    range: [...range],
    tickvals: ticks,
    ticktext: ticks.map((value) => said(value, "")),
  });
}

function band(from: number, to: number): PlotlyLayout {
  return {
    type: "rect",
    layer: "below",
    x0: from,
    x1: to,
    y0: 0,
    y1: 1,
    yref: "paper",
    fillcolor: bandColour,
    line: { color: helpColour, width: 0 },
  };
}
