import { axis, bar, fontSize, layout, plotSize, seriesName, wrapped } from "./look";
import { checkFinite, checkCount, checkSome, type Numbers, said, shown, symbolOf } from "./numbers";
import { type AxisText, lowerFirst } from "./lines";
import type { FigureSpec } from "./spec";

/** What `bars` draws. */
export interface BarsInput {
  readonly title?: string;
  readonly x: { readonly title: string; readonly categories: readonly string[] };
  readonly y: AxisText;
  readonly series: readonly { readonly name: string; readonly values: Numbers }[];
  /** Several series stand side by side unless told. */
  readonly stacked?: boolean;
  readonly alt?: string;
  readonly caption?: string;
}

/**
 * Bars, one for each category.
 *
 * Returns a figure for `figure`. Values are in SI units. Throws a `RangeError` where a series has more or
 * fewer values than there are categories.
 *
 * @example
 * bars({ x: { title: "Species", categories: ["roach", "ide"] }, y: { title: "Survival", unit: "" },
 *        series: [{ name: "survival", values: [0.9, 0.8] }] }).alt
 * // => "Survival for each species. survival: roach 0.9, ide 0.8."
 */
export function bars({ title, x, y, series, stacked = false, alt, caption }: BarsInput): FigureSpec {
  checkSome("bars", "series", series);
  checkSome("bars", "x.categories", x.categories);
  for (const { name, values } of series) {
    checkCount("bars", `series "${name}"`, values, x.categories.length);
    checkFinite("bars", `series "${name}"`, values);
  }
  const labels = categoryLabels(x.categories);
  const data = series.map(({ name, values }, index) => ({
    ...bar(index),
    name: seriesName(name),
    x: labels,
    y: shown(values, y.unit),
  }));
  const words = series.map(
    ({ name, values }) =>
      `${name}: ${x.categories.map((category, i) => `${category} ${said(values[i], y.unit)}`).join(", ")}.`,
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
      more: { barmode: stacked ? "stack" : "group", bargap: 0.3 },
    }),
    alt: alt ?? [`${y.title} for each ${lowerFirst(x.title)}.`, ...words].join(" "),
    caption,
  };
}

/** Categories in lines as long as a bar has room for, so that they need not be turned. */
function categoryLabels(categories: readonly string[]): string[] {
  const room = plotSize.width / categories.length;
  return categories.map((category) => wrapped(category, Math.floor(room / (0.6 * fontSize.label))));
}
