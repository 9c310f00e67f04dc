import { lowerFirst } from "./lines";
import {
  axis,
  bar,
  colour,
  fontSize,
  helpColour,
  layout,
  plotSize,
  points,
  seriesName,
  wrapped,
} from "./look";
import { checkCount, checkFinite, checkSome, said, shown, type ShownUnit, symbolOf } from "./numbers";
import type { FigureSpec, PlotlyTrace } from "./spec";

/** An estimate with the interval that is drawn around it. */
export interface IntervalValue {
  readonly estimate: number;
  readonly lower: number;
  readonly upper: number;
}

/** What `intervals` draws. */
export interface IntervalsInput {
  readonly title?: string;
  readonly x: { readonly title: string; readonly categories: readonly string[] };
  readonly y: { readonly title: string; readonly unit: ShownUnit };
  /** An entry is undefined where a category has no value. */
  readonly series: readonly {
    readonly name: string;
    readonly values: readonly (IntervalValue | undefined)[];
  }[];
  /** A level to compare with: 1 for a relative survival. */
  readonly reference?: number;
  /** Bars from 0, for numbers of things, or points. Points unless told. */
  readonly drawn?: "points" | "bars";
  readonly caption?: string;
}

/**
 * Estimates with their intervals, one for each category and series.
 *
 * Returns a figure for `figure`. Values are in SI units. A value that is undefined leaves its place empty. Throws a
 * RangeError where a series has more or fewer values than there are categories, and for numbers that are not finite.
 *
 * @example
 * intervals({ x: { title: "Way", categories: ["bypass"] }, y: { title: "Survival", unit: "" },
 *   series: [{ name: "at once", values: [{ estimate: 0.98, lower: 0.95, upper: 1.01 }] }] }).alt
 * // => "Survival for each way, with intervals. At once: bypass 0.98 (0.95 to 1.01)."
 */
export function intervals({
  title,
  x,
  y,
  series,
  reference,
  drawn = "points",
  caption,
}: IntervalsInput): FigureSpec {
  checkSome("intervals", "series", series);
  checkSome("intervals", "x.categories", x.categories);
  for (const { name, values } of series) {
    checkCount("intervals", `series "${name}"`, values, x.categories.length);
    const numbers = values.flatMap((value) =>
      value === undefined ? [] : [value.estimate, value.lower, value.upper],
    );
    checkFinite("intervals", `series "${name}"`, numbers);
  }
  const room = Math.floor(plotSize.width / x.categories.length / (0.6 * fontSize.label));
  const labels = x.categories.map((category) => wrapped(category, Math.max(6, room)));
  const inUnit = (values: readonly number[]): readonly (number | null)[] => shown(values, y.unit);
  const data: PlotlyTrace[] = series.map(({ name, values }, index) => {
    const part = (read: (value: IntervalValue) => number): readonly (number | null)[] =>
      inUnit(values.map((value) => (value === undefined ? NaN : read(value))));
    return {
      ...(drawn === "bars" ? paleBar(index) : { ...points(index, 12), offsetgroup: `${index}` }),
      name: seriesName(name),
      x: labels,
      y: part(({ estimate }) => estimate),
      error_y: {
        type: "data",
        symmetric: false,
        color: drawn === "bars" ? "#22303c" : colour(index),
        thickness: 2,
        width: 5,
        array: part(({ estimate, upper }) => upper - estimate),
        arrayminus: part(({ estimate, lower }) => estimate - lower),
      },
    };
  });
  const words = series.map(
    ({ name, values }) =>
      `${name.charAt(0).toUpperCase()}${name.slice(1)}: ${inWords(x.categories, values, y.unit)}.`,
  );
  return {
    data,
    layout: layout(data, {
      title,
      x: axis(x.title, "", {
        type: "category",
        ticks: "",
        showgrid: false,
        tickfont: { size: fontSize.label },
      }),
      y: axis(y.title, symbolOf(y.unit), { rangemode: "tozero" }),
      ...(reference === undefined ? {} : { shapes: [referenceLine(inUnit([reference])[0])] }),
      more: drawn === "bars" ? { barmode: "group", bargap: 0.3 } : { scattermode: "group", scattergap: 0.5 },
    }),
    alt: [`${y.title} for each ${lowerFirst(x.title)}, with intervals.`, ...words].join(" "),
    caption,
  };
}

/** More categories than this are summed up by the lowest and the highest estimate. */
const mostInWords = 12;

function inWords(
  categories: readonly string[],
  values: readonly (IntervalValue | undefined)[],
  unit: ShownUnit,
): string {
  const each = categories.flatMap((category, at) => {
    const value = values[at];
    return value === undefined ? [] : [{ category, value }];
  });
  const one = ({ category, value }: (typeof each)[number]): string =>
    `${category} ${said(value.estimate, unit)} (${said(value.lower, unit)} to ${said(value.upper, unit)})`;
  if (each.length === 0) return "no value";
  if (each.length <= mostInWords) return each.map(one).join("; ");
  const ordered = each.toSorted((a, b) => a.value.estimate - b.value.estimate);
  const [lowest, highest] = [ordered[0], ordered[ordered.length - 1]];
  return `lowest ${said(lowest.value.estimate, unit)} at ${lowest.category}, highest ${said(highest.value.estimate, unit)} at ${highest.category}`;
}

/** A bar on which the lower half of its interval can be seen. */
const paleBar = (index: number): PlotlyTrace => ({ ...bar(index), opacity: 0.6 });

const referenceLine = (at: number | null) => ({
  type: "line",
  xref: "paper",
  x0: 0,
  x1: 1,
  y0: at,
  y1: at,
  line: { color: helpColour, width: 2, dash: "dash" },
  layer: "above",
});
