import { curveTraces } from "./curves";
import { axis, layout } from "./look";
import { type Mark, markedLayout, marksInWords } from "./marks";
import { checkCount, checkSome, course, type Numbers, type ShownUnit, shown, symbolOf } from "./numbers";
import type { FigureSpec } from "./spec";

/** A named curve over the places of the x axis, in SI units. */
export interface Curve {
  readonly name: string;
  readonly values: Numbers;
  /** For each value, whether it lies in the range that the source of its law tested. */
  readonly tested?: ArrayLike<boolean>;
}

/** What an axis shows: a title, and the unit that SI numbers are turned into. */
export interface AxisText {
  readonly title: string;
  /** A unit of the course, such as "cm" or "deg", into which SI numbers are turned; "%" for ratios; any other text as it is. */
  readonly unit: ShownUnit;
}

/** What `lines` draws. */
export interface LinesInput {
  readonly title?: string;
  readonly x: AxisText & { readonly values: Numbers };
  readonly y: AxisText;
  readonly curves: readonly Curve[];
  /** Values of an axis to mark with a line and a text: a limit, a threshold. */
  readonly marks?: readonly Mark[];
  /** What the figure shows, in words; made from the numbers where it is not given. */
  readonly alt?: string;
  readonly caption?: string;
  readonly drawn?: "lines" | "points";
}

/**
 * Curves over one axis. What lies outside a tested range is drawn pale and dotted.
 *
 * Returns a figure for `figure`. Values are in SI units; ratios may be shown in "%". Throws a `RangeError`
 * where a curve has more or fewer values than the x axis, or a mark is not a finite number.
 *
 * @example
 * lines({ x: { title: "Depth", unit: "m", values: [0, 1] }, y: { title: "Velocity", unit: "mps" },
 *         curves: [{ name: "probe", values: [0.2, 0.6] }] }).alt
 * // => "Velocity against depth. probe: rises from 0.2 m/s at 0 m to 0.6 m/s at 1 m."
 */
export function lines(input: LinesInput): FigureSpec {
  const { title, x, y, curves, marks = [], alt, caption, drawn = "lines" } = input;
  checkSome("lines", "curves", curves);
  checkSome("lines", "x.values", x.values);
  for (const { name, values, tested } of curves) {
    checkCount("lines", `curve "${name}"`, values, x.values.length);
    if (tested !== undefined) checkCount("lines", `curve "${name}", tested,`, tested, x.values.length);
  }
  const places = shown(x.values, x.unit);
  const rows = curves.map(({ values }) => ({ x: places, y: shown(values, y.unit) }));
  const data = curveTraces(curves.map(({ name, tested }, i) => ({ ...rows[i], name, tested, drawn })));
  const { xRange, yRange, ...lineParts } = markedLayout(marks, { x, y, rows });
  const opening = `${y.title} against ${lowerFirst(x.title)}.`;
  return {
    data,
    layout: layout(data, {
      title,
      x: axis(x.title, symbolOf(x.unit), xRange),
      y: axis(y.title, symbolOf(y.unit), yRange),
      ...lineParts,
    }),
    alt: alt ?? [linesInWords(opening, { x, y, curves }), ...marksInWords(marks, { x, y })].join(" "),
    caption,
  };
}

/** How each curve runs, behind an opening sentence. */
export function linesInWords(
  opening: string,
  { x, y, curves }: Pick<LinesInput, "x" | "y" | "curves">,
): string {
  const sentences = curves.map(({ name, values, tested }) => {
    const run = course({ values: x.values, unit: x.unit }, { values, unit: y.unit });
    return `${name}: ${run}${testedInWords(tested)}.`;
  });
  return [opening, ...sentences].join(" ");
}

function testedInWords(tested: ArrayLike<boolean> | undefined): string {
  if (tested === undefined) return "";
  const inside = Array.from(tested).filter(Boolean).length;
  if (inside === tested.length) return "";
  return inside === 0 ? "; all of it outside its tested range" : "; partly outside its tested range";
}

/** A title inside a sentence; an abbreviation such as "TL" keeps its capitals. */
export function lowerFirst(text: string): string {
  return /^[A-Z][a-z]/.test(text) ? text.charAt(0).toLowerCase() + text.slice(1) : text;
}
