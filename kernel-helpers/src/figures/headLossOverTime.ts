import type { CloggedDay } from "../rack/clogging";
import { axis, colour, helpColour, helpLine, layout, line, seriesName } from "./look";
import { checkSome, said } from "./numbers";
import type { FigureSpec, PlotlyLayout, PlotlyTrace } from "./spec";

/** What `headLossOverTime` draws. */
export interface HeadLossOverTimeInput {
  readonly title?: string;
  /** Days of `clogging.headLossOverTime`, a year or less. */
  readonly days: readonly CloggedDay[];
  /** Head loss at which the machine starts, in metres. */
  readonly threshold?: number;
  readonly caption?: string;
}

/**
 * Head loss day by day, with the clean rack beneath it and the cleanings as spikes on an axis of their own.
 *
 * Returns a figure for `figure`, head losses in centimetres. Days on which the machine is out of order are shaded. Throws a
 * RangeError for a list without days or of more than 400.
 *
 * @example
 * headLossOverTime({ title: "The year 2023", days: run.days, threshold: u.m(0.1) })
 */
export function headLossOverTime({ title, days, threshold, caption }: HeadLossOverTimeInput): FigureSpec {
  checkSome("headLossOverTime", "days", days);
  if (days.length > 400) {
    throw new RangeError(
      `figures.headLossOverTime: days has ${days.length} entries; it takes at most 400, so that single cleanings can be seen.`,
    );
  }
  const dates = days.map(({ date }) => date);
  const cleaned = days.some(({ cleanings }) => cleanings > 0);
  const data: PlotlyTrace[] = [
    { ...line(0, 2), name: "highest of the day", x: dates, y: days.map((day) => cm(day.peakHeadLoss)) },
    {
      ...line(2, 2),
      line: { color: colour(2), width: 2 },
      name: "clean rack",
      x: dates,
      y: days.map((day) => cm(day.cleanHeadLoss)),
    },
    ...spikes(days),
  ];
  const highest = Math.max(threshold ?? 0, ...days.map(({ peakHeadLoss }) => peakHeadLoss));
  return {
    data,
    layout: layout(data, {
      title,
      x: axis("Date", "", { type: "date", tickformat: "%b<br>%Y", nticks: 8 }),
      y: axis("Head loss", "cm", { range: [0, cm(highest * 1.08)] }),
      ...(cleaned ? { y2: rightAxis(days) } : {}),
      shapes: [
        ...(threshold === undefined ? [] : [helpLine("y", cm(threshold))]),
        ...broken(days).map(shade),
      ],
      ...noteOf(threshold, days),
    }),
    alt: inWords(days, threshold),
    caption,
  };
}

/** Spikes keep to the lowest fifth, under the curves. */
function rightAxis(days: readonly CloggedDay[]): PlotlyLayout {
  const most = Math.max(...days.map(({ cleanings }) => cleanings));
  return axis("Cleanings a day", "", {
    range: [0, 5 * most],
    tickvals: [0, most],
    gridcolor: "rgba(0,0,0,0)",
  });
}

/** One upright line for each day with cleanings, as high as they are many: a single path, whatever their number. */
function spikes(days: readonly CloggedDay[]): PlotlyTrace[] {
  const cleaned = days.filter(({ cleanings }) => cleanings > 0);
  if (cleaned.length === 0) return [];
  const trace = {
    type: "scatter",
    mode: "lines",
    name: seriesName("cleanings (right)"),
    yaxis: "y2",
    line: { color: colour(1), width: 1.5 },
    opacity: 0.75,
    x: cleaned.flatMap(({ date }) => [date, date, null]),
    y: cleaned.flatMap(({ cleanings }) => [0, cleanings, null]),
  };
  return [trace];
}

function noteOf(threshold: number | undefined, days: readonly CloggedDay[]): { readonly note?: string } {
  const parts = [
    ...(threshold === undefined ? [] : [`dashed: the machine starts at ${said(threshold, "cm")}`]),
    ...(broken(days).length === 0 ? [] : ["shaded: the machine is out of order"]),
  ];
  return parts.length === 0 ? {} : { note: parts.join("; ") };
}

/** Stretches of days without the machine. */
function broken(days: readonly CloggedDay[]): readonly (readonly [from: string, to: string])[] {
  const stretches: [string, string][] = [];
  days.forEach(({ date, machineInOrder }, at) => {
    if (machineInOrder) return;
    const last = stretches.at(-1);
    if (last !== undefined && at > 0 && !days[at - 1].machineInOrder) last[1] = date;
    else stretches.push([date, date]);
  });
  return stretches;
}

const shade = ([from, to]: readonly [string, string]): PlotlyLayout => ({
  type: "rect",
  layer: "below",
  line: { width: 0 },
  fillcolor: helpColour,
  opacity: 0.2,
  x0: from,
  x1: to,
  y0: 0,
  y1: 1,
  yref: "paper",
});

const cm = (metres: number): number => Math.round(1e4 * metres) / 100;

function inWords(days: readonly CloggedDay[], threshold: number | undefined): string {
  const worst = days.reduce((most, day) => (day.peakHeadLoss > most.peakHeadLoss ? day : most));
  const busiest = days.reduce((most, day) => (day.cleanings > most.cleanings ? day : most));
  const count = days.reduce((sum, { cleanings }) => sum + cleanings, 0);
  const out = days.filter(({ machineInOrder }) => !machineInOrder).length;
  return [
    `Head loss day by day from ${days[0].date} to ${days[days.length - 1].date}: highest on ${worst.date} with ` +
      `${said(worst.peakHeadLoss, "cm")}, where the clean rack has ${said(worst.cleanHeadLoss, "cm")}.`,
    `${count} cleanings${threshold === undefined ? "" : ` at ${said(threshold, "cm")}`}` +
      (busiest.cleanings > 0 ? `, at most ${busiest.cleanings} a day on ${busiest.date}.` : "."),
    ...(out === 0 ? [] : [`The machine is out of order on ${out} days.`]),
  ].join(" ");
}
