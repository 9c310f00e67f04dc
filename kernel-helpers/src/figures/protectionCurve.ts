import { type Band, bandInWords, bandTraces, checkBand } from "./band";
import { curveTraces } from "./curves";
import { labelBoard } from "./labels";
import { axis, colour, helpLine, layout, seriesName, points } from "./look";
import { checkCount, checkSome, course, listed, type Numbers, said, shown } from "./numbers";
import { shareAxis, shareRange } from "./shareAxis";
import type { FigureSpec } from "./spec";

/** A measured protection with its interval, where there is one. */
export interface ProtectionPoint {
  readonly relativeWidth: number;
  readonly protection: number;
  readonly interval?: readonly [lower: number, upper: number];
}

/** What `protectionCurve` draws. */
export interface ProtectionCurveInput {
  readonly title?: string;
  /** Body width over clear spacing. */
  readonly relativeWidth: Numbers;
  /** Each may have a band about it, with an entry for each relative width: `protection.band` of a fit. */
  readonly curves: readonly {
    readonly name: string;
    readonly protection: Numbers;
    readonly band?: Band;
  }[];
  /** What was measured, by group. */
  readonly points?: readonly { readonly name: string; readonly values: readonly ProtectionPoint[] }[];
  /** The relative width below which nothing is protected. */
  readonly threshold?: number;
  /** What the curves are a share of, where it is not all of protection; "Protection" unless given. */
  readonly what?: string;
  readonly caption?: string;
}

/**
 * Protection against relative width, with measured points where there are any.
 *
 * Returns a figure for `figure`. A line marks relative width 1, where the body is as wide as the gap.
 * Throws a `RangeError` where a curve has more or fewer values than there are relative widths.
 *
 * @example
 * protectionCurve({ relativeWidth: [0, 1], curves: [{ name: "ramp", protection: [0, 1] }] }).alt
 * // => "Protection against relative width. ramp: rises from 0 at 0 to 1 at 1, one half by 1."
 */
export function protectionCurve(input: ProtectionCurveInput): FigureSpec {
  const {
    title,
    relativeWidth,
    curves,
    points: measured = [],
    threshold,
    what = "Protection",
    caption,
  } = input;
  checkSome("protectionCurve", "relativeWidth", relativeWidth);
  checkSome("protectionCurve", "curves and points", [...curves, ...measured]);
  for (const { name, protection, band } of curves) {
    checkCount("protectionCurve", `curve "${name}"`, protection, relativeWidth.length);
    checkBand("protectionCurve", name, band, relativeWidth.length);
  }
  const x = shown(relativeWidth, "");
  const drawn = curveTraces(curves.map(({ name, protection }) => ({ name, x, y: shown(protection, "") })));
  const dots = measured.map(({ name, values }, i) => {
    const index = curves.length + i;
    return {
      ...points(index),
      name: seriesName(name),
      x: values.map((value) => value.relativeWidth),
      y: values.map((value) => value.protection),
      error_y: {
        type: "data",
        symmetric: false,
        color: colour(index),
        thickness: 2,
        width: 4,
        array: values.map(({ interval, protection }) =>
          interval === undefined ? 0 : interval[1] - protection,
        ),
        arrayminus: values.map(({ interval, protection }) =>
          interval === undefined ? 0 : protection - interval[0],
        ),
      },
    };
  });
  const bands = curves.flatMap(({ band }, i) => bandTraces(x, band, i));
  const data = [...bands, ...drawn, ...dots];
  const marks = [
    ...(threshold === undefined ? [] : [{ at: threshold, text: `threshold ${said(threshold, "")}` }]),
    { at: 1, text: "as wide as the gap" },
  ];
  const widest = Math.max(1, ...Array.from(relativeWidth), ...dots.flatMap((trace) => trace.x));
  const range = shareRange([[0], ...dots.map(({ y }) => y)]);
  const board = labelBoard({
    x: [0, widest * 1.02],
    y: range,
    busy: [...curves.map(({ protection }) => ({ x, y: shown(protection, "") })), ...dots],
  });
  const curveWords = curves.map(({ name, protection, band }) => {
    const run = course({ values: relativeWidth, unit: "" }, { values: protection, unit: "" });
    return `${name}: ${run}${halfInWords(relativeWidth, protection)}${bandInWords(band)}.`;
  });
  const pointWords = measured.map(
    ({ name, values }) =>
      `${name}: ${listed(values.map((value) => `${said(value.protection, "")} at ${said(value.relativeWidth, "")}`))}.`,
  );
  return {
    data,
    layout: layout(data, {
      title,
      x: axis("Relative width (body width over clear spacing)", "", { range: [0, widest * 1.02] }),
      y: shareAxis(what, range),
      shapes: marks.map(({ at }) => helpLine("x", at)),
      annotations: marks.map(({ at, text }) => board.verticalLine({ x: at, text })),
    }),
    alt: [`${what} against relative width.`, ...curveWords, ...pointWords].join(" "),
    caption,
  };
}

/** Where a curve first reaches one half, rounding aside: it tells curves apart that share both ends. */
function halfInWords(relativeWidth: Numbers, protection: Numbers): string {
  const reached = Array.from(protection).findIndex((share) => share >= 0.5 - 1e-9);
  return reached > 0 ? `, one half by ${said(relativeWidth[reached], "")}` : "";
}
