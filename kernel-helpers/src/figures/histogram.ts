import type { AxisText } from "./lines";
import { axis, bar, helpLine, layout } from "./look";
import { type Mark, marksInWords } from "./marks";
import { labelBoard } from "./labels";
import { checkFinite, checkSome, type Numbers, said, shown, symbolOf } from "./numbers";
import type { FigureSpec } from "./spec";

/** What `histogram` draws. */
export interface HistogramInput {
  readonly title?: string;
  readonly x: AxisText;
  /** In SI units; missing answers left out. */
  readonly values: Numbers;
  /** Edges of the classes in SI units, rising; a class holds its lower edge, the last one both. */
  readonly edges: Numbers;
  /** What is counted: "plants". */
  readonly counted: string;
  /** Values of the x axis to mark: a median, a limit. */
  readonly marks?: readonly { readonly at: number; readonly text: string }[];
  readonly caption?: string;
}

/**
 * How many values fall into each class.
 *
 * Returns a figure for `figure`. Values outside the classes are counted in the alt text and not drawn. Throws a
 * RangeError for edges that don't rise and values that are not finite.
 *
 * @example
 * histogram({ x: { title: "Clear spacing", unit: "mm" }, values: [0.01, 0.012, 0.02], edges: [0, 0.015, 0.03],
 *             counted: "plants" }).alt
 * // => "Clear spacing of 3 plants. From 0 mm to 15 mm: 2; from 15 mm to 30 mm: 1."
 */
export function histogram({
  title,
  x,
  values,
  edges,
  counted,
  marks = [],
  caption,
}: HistogramInput): FigureSpec {
  checkSome("histogram", "values", values);
  checkFinite("histogram", "values", values);
  checkFinite("histogram", "edges", edges);
  if (edges.length < 2) {
    throw new RangeError(`figures.histogram: edges has ${edges.length} edges; one class takes two.`);
  }
  const falling = Array.from(edges).findIndex((edge, i) => i > 0 && !(edge > edges[i - 1]));
  if (falling > 0) {
    throw new RangeError(
      `figures.histogram: edges[${falling}] is ${edges[falling]}; it must be above the edge before it, ${edges[falling - 1]}.`,
    );
  }
  const classes = edges.length - 1;
  // A slack of one part in a billion: 15 mm typed in cm must not miss its edge by a last digit.
  const slack = 1e-9 * Math.max(Math.abs(edges[0]), Math.abs(edges[classes]));
  const counts = Array.from(
    { length: classes },
    (_, i) =>
      Array.from(values).filter(
        (value) =>
          value >= edges[i] - slack &&
          (value < edges[i + 1] - slack || (i === classes - 1 && value <= edges[classes] + slack)),
      ).length,
  );
  const at = shown(edges, x.unit).map(Number);
  const middles = counts.map((_, i) => (at[i] + at[i + 1]) / 2);
  const ranges = counts.map((_, i) => `from ${said(edges[i], x.unit)} to ${said(edges[i + 1], x.unit)}`);
  const data = [
    {
      ...bar(0),
      name: counted,
      x: middles,
      y: counts,
      width: counts.map((_, i) => at[i + 1] - at[i]),
      customdata: ranges,
      hovertemplate: "%{customdata}: %{y}",
    },
  ];
  const y: AxisText = { title: capital(counted), unit: "" };
  const lines: readonly Mark[] = marks.map((mark) => ({ ...mark, axis: "x" }));
  const top = (marks.length > 0 ? 1.3 : 1.05) * Math.max(...counts);
  const board = labelBoard({
    x: [at[0], at[classes]],
    y: [0, top],
    busy: counts.flatMap((count, i) => filled(at, i, count)),
  });
  const placed = marks.map(({ at: place, text }) => ({ x: placeOf(place, text, x), text }));
  const outside = values.length - counts.reduce((sum, count) => sum + count, 0);
  return {
    data,
    layout: layout(data, {
      title,
      x: axis(x.title, symbolOf(x.unit), { range: [at[0], at[classes]] }),
      // Room above the bars is for the texts of the marks.
      y: axis(y.title, "", { range: [0, top] }),
      shapes: placed.map((mark) => ({ ...helpLine("x", mark.x), layer: "above" })),
      annotations: placed.map(board.verticalLine),
      more: { bargap: 0 },
    }),
    alt: [
      `${x.title} of ${values.length} ${counted}.`,
      `${capital(filledInWords(ranges, counts))}.`,
      ...(outside > 0 ? [`${outside} lie outside these classes.`] : []),
      ...marksInWords(lines, { x, y }),
    ].join(" "),
    caption,
  };
}

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);

/** Classes with their counts; the empty ones are many, and follow from these. */
function filledInWords(ranges: readonly string[], counts: readonly number[]): string {
  const filledClasses = ranges.flatMap((range, i) => (counts[i] > 0 ? [`${range}: ${counts[i]}`] : []));
  return filledClasses.length === 0 ? "0 lie in the classes" : filledClasses.join("; ");
}

/** A bar as lines that labels keep off. */
function filled(
  at: readonly number[],
  place: number,
  count: number,
): { readonly x: number[]; readonly y: number[] }[] {
  return [0.1, 0.3, 0.5, 0.7, 0.9].map((part) => {
    const x = at[place] + part * (at[place + 1] - at[place]);
    return { x: [x, x], y: [0, count] };
  });
}

function placeOf(value: number, text: string, { unit }: AxisText): number {
  const [place] = shown([value], unit);
  if (place === null) {
    throw new RangeError(
      `figures.histogram: mark "${text}" is at ${String(value)}; it must be a finite number.`,
    );
  }
  return place;
}
