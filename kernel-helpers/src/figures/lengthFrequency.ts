import { axis, bar, layout, seriesName } from "./look";
import { checkFinite, checkCount, checkSome, course, listed, type Numbers, said, shown } from "./numbers";
import { shareAxis, shareRange } from "./shareAxis";
import type { FigureSpec, PlotlyTrace } from "./spec";

/** What `lengthFrequency` draws. */
export interface LengthFrequencyInput {
  readonly title?: string;
  /** Edges of the length classes in metres, rising, one more than there are classes. */
  readonly classEdges: Numbers;
  /** Fish in each class, for each species. */
  readonly counts: readonly { readonly species: string; readonly numbers: Numbers }[];
  /** Survival against length, drawn on an axis at the right. */
  readonly survival?: { readonly name: string; readonly totalLength: Numbers; readonly survival: Numbers };
  readonly caption?: string;
}

/**
 * How many fish of each species there are in each length class, with survival where it is given.
 *
 * Returns a figure for `figure`, lengths in centimetres. Throws a `RangeError` where the edges do not rise
 * or a species has more or fewer numbers than there are classes.
 *
 * @example
 * lengthFrequency({ classEdges: [0, 0.1, 0.2], counts: [{ species: "roach", numbers: [30, 12] }] }).alt
 * // => "Length frequency of 42 fish: roach 42. Most fish, 30, are from 0 cm to 10 cm long."
 */
export function lengthFrequency({
  title,
  classEdges,
  counts,
  survival,
  caption,
}: LengthFrequencyInput): FigureSpec {
  checkSome("lengthFrequency", "counts", counts);
  checkEdges(classEdges);
  const classes = classEdges.length - 1;
  for (const { species, numbers } of counts) {
    checkCount("lengthFrequency", `species "${species}"`, numbers, classes);
    checkFinite("lengthFrequency", `species "${species}"`, numbers);
  }
  const edges = Array.from(classEdges, (edge) => 100 * edge);
  const middles = edges.slice(1).map((edge, i) => (edge + edges[i]) / 2);
  const widths = edges.slice(1).map((edge, i) => edge - edges[i]);
  const ranges = edges
    .slice(1)
    .map((edge, i) => `${said(edges[i] / 100, "cm")} to ${said(edge / 100, "cm")}`);
  const stacks: PlotlyTrace[] = counts.map(({ species, numbers }, i) => ({
    ...bar(i),
    name: seriesName(species),
    x: middles,
    y: Array.from(numbers),
    width: widths,
    customdata: ranges,
    hovertemplate: "%{customdata}: %{y}",
  }));
  const curve: PlotlyTrace[] = [];
  if (survival !== undefined) {
    checkCount("lengthFrequency", "survival", survival.survival, survival.totalLength.length);
    const series = {
      type: "scatter",
      mode: "lines",
      yaxis: "y2",
      name: seriesName(survival.name),
      x: shown(survival.totalLength, "cm"),
      y: shown(survival.survival, ""),
    };
    // A white edge keeps the line apart from dark bars.
    curve.push({ ...series, line: { color: "#fff", width: 8 }, showlegend: false, hoverinfo: "skip" });
    curve.push({ ...series, line: { color: "#000", width: 4 } });
  }
  const data = [...stacks, ...curve];
  const totals = middles.map((_, i) => counts.reduce((sum, { numbers }) => sum + numbers[i], 0));
  return {
    data,
    layout: layout(data, {
      title,
      x: axis("Total length", "cm", { range: [edges[0], edges[classes]] }),
      y: axis("Number of fish", ""),
      y2:
        survival === undefined
          ? undefined
          : { ...shareAxis("Survival", shareRange([survival.survival])), showgrid: false },
      more: { barmode: "stack", bargap: 0 },
    }),
    alt: inWords(counts, totals, ranges, survival),
    caption,
  };
}

function checkEdges(classEdges: Numbers): void {
  if (classEdges.length < 2) {
    throw new RangeError(
      `figures.lengthFrequency: classEdges has ${classEdges.length} edges; one class takes two.`,
    );
  }
  checkFinite("lengthFrequency", "classEdges", classEdges);
  for (let i = 1; i < classEdges.length; i++) {
    if (classEdges[i] > classEdges[i - 1]) continue;
    throw new RangeError(
      `figures.lengthFrequency: classEdges[${i}] is ${classEdges[i]} m; it must be above the edge before it, ${classEdges[i - 1]} m.`,
    );
  }
}

function inWords(
  counts: LengthFrequencyInput["counts"],
  totals: readonly number[],
  ranges: readonly string[],
  survival: LengthFrequencyInput["survival"],
): string {
  const all = totals.reduce((sum, total) => sum + total, 0);
  const bySpecies = counts.map(
    ({ species, numbers }) =>
      `${species} ${said(
        Array.from(numbers).reduce((sum, one) => sum + one, 0),
        "",
      )}`,
  );
  const fullest = totals.indexOf(Math.max(...totals));
  const sentences = [
    `Length frequency of ${said(all, "")} fish: ${listed(bySpecies)}.`,
    `Most fish, ${said(totals[fullest], "")}, are from ${ranges[fullest]} long.`,
  ];
  if (survival !== undefined) {
    const run = course({ values: survival.totalLength, unit: "cm" }, { values: survival.survival, unit: "" });
    sentences.push(`${survival.name}: ${run}.`);
  }
  return sentences.join(" ");
}
