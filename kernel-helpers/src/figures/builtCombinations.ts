import type { ClassOfValues, Combination, Combinations } from "../rack/survey";
import type { AxisText } from "./lines";
import { axis, fontSize, helpColour, layout, legendText, points } from "./look";
import { listed, said, shown, symbolOf } from "./numbers";
import type { FigureSpec, PlotlyLayout } from "./spec";

/** What `builtCombinations` draws. */
export interface BuiltCombinationsInput {
  readonly title?: string;
  /** One value a plant in SI units, in the same order on both axes; undefined where the plant did not say. */
  readonly x: AxisText & { readonly values: readonly (number | undefined)[] };
  readonly y: AxisText & { readonly values: readonly (number | undefined)[] };
  /** As `survey.combinations` returns them for the values of x, then y: lines between classes, and gaps. */
  readonly combinations: Combinations;
  readonly caption?: string;
}

const gapColour = "#f3d9c4";

/**
 * Which combinations of two values have been built: one spot for each, larger where plants share it.
 *
 * Returns a figure for `figure`. Classes in which nobody built are marked with the number that would be expected; those
 * that chance would hardly leave empty are shaded as gaps.
 *
 * @example
 * builtCombinations({ x: { title: "Clear spacing", unit: "mm", values: spacings },
 *                     y: { title: "Rack angle", unit: "deg", values: angles },
 *                     combinations: survey.combinations({ values: spacings, edges }, { values: angles, edges: angleEdges }) })
 */
export function builtCombinations({
  title,
  x,
  y,
  combinations,
  caption,
}: BuiltCombinationsInput): FigureSpec {
  const { cells, count } = combinations;
  const spots = spotsOf(x.values, y.values, cells);
  const [across, up] = [spots.map((spot) => spot.x), spots.map((spot) => spot.y)];
  const style = points(2);
  const data = [
    {
      ...style,
      name: "plants, larger where several share a place",
      x: shown(across, x.unit),
      y: shown(up, y.unit),
      marker: {
        ...Object(style.marker),
        symbol: "circle",
        // The area counts the plants; beyond sixteen a spot would hide its neighbours.
        size: spots.map(({ plants }) => Math.round(9 * Math.sqrt(Math.min(16, plants)))),
      },
      customdata: spots.map(({ plants }) => plants),
      hovertemplate: "%{x}, %{y}: %{customdata} plants",
    },
    ...(cells.some(({ verdict }) => verdict === "gap")
      ? [
          {
            ...legendText("gap: chance would hardly leave it empty"),
            marker: { color: gapColour, symbol: "square", size: 14, line: { width: 0 } },
          },
        ]
      : []),
  ];
  const empty = cells.filter((cell) => cell.count === 0);
  return {
    data,
    layout: layout(data, {
      title,
      x: axis(x.title, symbolOf(x.unit), {
        range: rangeOf(
          cells.map(({ first }) => first),
          x,
        ),
        showgrid: false,
      }),
      y: axis(y.title, symbolOf(y.unit), {
        range: rangeOf(
          cells.map(({ second }) => second),
          y,
        ),
        showgrid: false,
      }),
      shapes: [
        ...empty.filter(({ verdict }) => verdict === "gap").map((cell) => shading(cell, x, y)),
        ...borders(cells, x, y),
      ],
      annotations: empty.map((cell) => emptyText(cell, x, y)),
      legendForOne: true,
    }),
    alt: inWords({ title, x, y, combinations }, empty, count),
    caption,
  };
}

interface Spot {
  readonly x: number;
  readonly y: number;
  readonly plants: number;
}

/** Whether a value lies within the outer edges; a slack of one part in a billion for 15 mm typed in cm. */
const inside = (value: number, classes: readonly ClassOfValues[]): boolean => {
  const [least, most] = ends(classes);
  const slack = 1e-9 * Math.max(Math.abs(least), Math.abs(most));
  return value >= least - slack && value <= most + slack;
};

/** The places of the plants inside the classes, plants at one place together. */
function spotsOf(
  xs: readonly (number | undefined)[],
  ys: readonly (number | undefined)[],
  cells: readonly Combination[],
): readonly Spot[] {
  const spots = new Map<string, Spot>();
  for (const [i, x] of xs.entries()) {
    const y = ys[i];
    if (x === undefined || y === undefined) continue;
    if (
      !inside(
        x,
        cells.map(({ first }) => first),
      ) ||
      !inside(
        y,
        cells.map(({ second }) => second),
      )
    )
      continue;
    const key = `${x.toPrecision(9)} ${y.toPrecision(9)}`;
    spots.set(key, { x, y, plants: (spots.get(key)?.plants ?? 0) + 1 });
  }
  return [...spots.values()];
}

const ends = (classes: readonly ClassOfValues[]): readonly [number, number] => [
  Math.min(...classes.map(({ from }) => from)),
  Math.max(...classes.map(({ to }) => to)),
];

/** From the first edge to the last, in the unit of an axis. */
const rangeOf = (classes: readonly ClassOfValues[], { unit }: AxisText): number[] =>
  shown(ends(classes), unit).map(Number);

function shading({ first, second }: Combination, x: AxisText, y: AxisText): PlotlyLayout {
  const [x0, x1] = shown([first.from, first.to], x.unit);
  const [y0, y1] = shown([second.from, second.to], y.unit);
  return { type: "rect", layer: "below", x0, x1, y0, y1, fillcolor: gapColour, line: { width: 0 } };
}

/** The edges between classes, without the first. */
const inner = (edges: readonly number[]): readonly number[] =>
  [...new Set(edges)].toSorted((a, b) => a - b).slice(1);

/** Lines between the classes; the frame of the plot is the border of the outer ones. */
function borders(cells: readonly Combination[], x: AxisText, y: AxisText): readonly PlotlyLayout[] {
  const line = { color: helpColour, width: 1, dash: "dot" };
  const upright = shown(inner(cells.map(({ first }) => first.from)), x.unit);
  const level = shown(inner(cells.map(({ second }) => second.from)), y.unit);
  return [
    ...upright.map((at) => ({
      type: "line",
      layer: "below",
      x0: at,
      x1: at,
      y0: 0,
      y1: 1,
      yref: "paper",
      line,
    })),
    ...level.map((at) => ({
      type: "line",
      layer: "below",
      y0: at,
      y1: at,
      x0: 0,
      x1: 1,
      xref: "paper",
      line,
    })),
  ];
}

function emptyText({ first, second, expected }: Combination, x: AxisText, y: AxisText): PlotlyLayout {
  const [across] = shown([(first.from + first.to) / 2], x.unit);
  const [up] = shown([(second.from + second.to) / 2], y.unit);
  return {
    x: across,
    y: up,
    text: `none<br>${expected.toFixed(1)} exp.`,
    font: { size: fontSize.label, color: helpColour },
    showarrow: false,
  };
}

function inWords(
  { x, y, combinations }: BuiltCombinationsInput,
  empty: readonly Combination[],
  count: number,
): string {
  const name = ({ first, second, expected }: Combination): string =>
    `${x.title.toLowerCase()} ${said(first.from, x.unit)} to ${said(first.to, x.unit)} with ${y.title.toLowerCase()} ` +
    `${said(second.from, y.unit)} to ${said(second.to, y.unit)} (${expected.toFixed(1)} expected)`;
  const gaps = empty.filter(({ verdict }) => verdict === "gap");
  const verdict =
    gaps.length === 0
      ? "Chance alone may have left each of them empty."
      : `Chance would hardly leave empty: ${listed(gaps.map(name))}.`;
  return [
    `${x.title} and ${y.title.toLowerCase()} of ${count} plants in ${combinations.cells.length} classes.`,
    ...(empty.length === 0
      ? ["None of them is empty."]
      : [`Nobody built ${listed(empty.map(name))}.`, verdict]),
  ].join(" ");
}
