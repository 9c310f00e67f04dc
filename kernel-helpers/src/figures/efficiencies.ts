import { percent } from "../quantity/format";
import { axis, colour, helpColour, layout, plain, wrapped } from "./look";
import { checkSome } from "./numbers";
import type { FigureSpec } from "./spec";

/** An efficiency with both of its intervals, as `trial.efficiencies` gives it; undefined where there is none. */
export interface DrawnEfficiency {
  readonly group: string;
  readonly trials: number;
  readonly runs: number;
  readonly estimate: number | undefined;
  readonly lower: number | undefined;
  readonly upper: number | undefined;
  readonly naiveLower: number | undefined;
  readonly naiveUpper: number | undefined;
  /** 0.95 unless given. */
  readonly level?: number;
}

/** What `efficiencies` draws. */
export interface EfficienciesInput {
  readonly title?: string;
  /** What the share is: "Guidance (bypassed of all active fish)". */
  readonly share: string;
  /** From top to bottom. */
  readonly rows: readonly DrawnEfficiency[];
  /** What the rows are called where their group does not say it. */
  readonly names?: readonly string[];
  readonly caption?: string;
}

/** How far above and below its row an interval lies. */
const apart = 0.14;

/**
 * Efficiencies by group: dots with the interval of runs, and below each the interval of fish taken as independent.
 *
 * Returns a figure for `figure`. The interval of runs is a thick line with a filled circle, the naive one a thin dashed
 * line with an open square. Throws a `RangeError` where there are no rows, or not as many names as rows.
 *
 * @example
 * figures.efficiencies({ share: "Guidance", rows: [{ group: "light", trials: 40, runs: 10, estimate: 0.6, lower: 0.4,
 *   upper: 0.78, naiveLower: 0.45, naiveUpper: 0.74 }] }).alt
 * // => "Guidance by group, with 95 % intervals of runs and of fish as if independent. light: 60 %, 40 % to 78 % (naive 45 % to 74 %)."
 */
export function efficiencies({ title, share, rows, names, caption }: EfficienciesInput): FigureSpec {
  checkSome("efficiencies", "rows", rows);
  if (names !== undefined && names.length !== rows.length) {
    throw new RangeError(
      `figures.efficiencies: names has ${names.length} values; it must have ${rows.length}, one for each row.`,
    );
  }
  const nameOf = (at: number): string => names?.[at] ?? rows[at].group;
  const places = rows.map((_, at) => rows.length - at);
  const data = [
    {
      ...intervals(rows, places, apart, ({ lower, upper }) => [lower, upper]),
      name: `runs as clusters, ${levelOf(rows)}`,
      mode: "lines+markers",
      line: { color: colour(0), width: 4 },
      marker: dotsOf(rows, { symbol: "circle", color: colour(0), size: 11 }),
    },
    {
      ...intervals(rows, places, -apart, ({ naiveLower, naiveUpper }) => [naiveLower, naiveUpper]),
      name: "fish as if independent (naive)",
      mode: "lines+markers",
      line: { color: colour(3), width: 2, dash: "dot" },
      marker: dotsOf(rows, { symbol: "square-open", color: colour(3), size: 9 }),
    },
  ];
  const labels = rows.map(
    ({ trials, runs }, at) => `${wrapped(nameOf(at), 20)}<br>${plain(`${trials} fish, ${runs} runs`)}`,
  );
  const shapes = rows.slice(1).map((_, at) => ({
    type: "line",
    layer: "below",
    xref: "paper",
    x0: 0,
    x1: 1,
    y0: places[at] - 0.5,
    y1: places[at] - 0.5,
    line: { color: helpColour, width: 0.5 },
  }));
  return {
    data,
    layout: layout(data, {
      title,
      x: axis(share, "", { range: [0, 1], dtick: 0.2, tickformat: ".1f" }),
      y: axis("Group", "", {
        tickvals: places,
        ticktext: labels,
        range: [0.4, rows.length + 0.6],
        showgrid: false,
        ticks: "",
      }),
      shapes,
      more: { height: Math.max(330, 150 + 56 * rows.length) },
    }),
    alt: inWords(share, rows, nameOf),
    caption,
  };
}

/** Each interval as three points of one broken line, its estimate in the middle. */
function intervals(
  rows: readonly DrawnEfficiency[],
  places: readonly number[],
  shift: number,
  limits: (row: DrawnEfficiency) => readonly [number | undefined, number | undefined],
) {
  return {
    type: "scatter",
    x: rows.flatMap((row) => {
      const [lower, upper] = limits(row);
      return [lower ?? null, row.estimate ?? null, upper ?? null, null];
    }),
    y: places.flatMap((place) => [place + shift, place + shift, place + shift, null]),
  };
}

/** A marker at the estimate, none at the ends of its interval. */
function dotsOf(
  rows: readonly DrawnEfficiency[],
  { symbol, color, size }: { readonly symbol: string; readonly color: string; readonly size: number },
) {
  return { symbol, color, opacity: 1, size: rows.flatMap(() => [0, size, 0, 0]), line: { color, width: 2 } };
}

const levelOf = (rows: readonly DrawnEfficiency[]): string => percent(rows[0].level ?? 0.95);

const shortly = (share: number | undefined): string => (share === undefined ? "unknown" : percent(share, 2));

function inWords(share: string, rows: readonly DrawnEfficiency[], nameOf: (at: number) => string): string {
  const sentences = rows.map(({ estimate, lower, upper, naiveLower, naiveUpper }, at) => {
    if (estimate === undefined) return `${nameOf(at)}: no fish in the denominator.`;
    const interval = lower === undefined ? "no interval of runs" : `${shortly(lower)} to ${shortly(upper)}`;
    return `${nameOf(at)}: ${shortly(estimate)}, ${interval} (naive ${shortly(naiveLower)} to ${shortly(naiveUpper)}).`;
  });
  return [
    `${share} by group, with ${levelOf(rows)} intervals of runs and of fish as if independent.`,
    ...sentences,
  ].join(" ");
}
