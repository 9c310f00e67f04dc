import type { Flow } from "../movement/flow";
import { fontSize, helpColour } from "./look";
import type { PlotlyLayout, PlotlyTrace } from "./spec";

type Range = readonly [number, number];

/** A part of the plan, in metres: what is shown, and where there is water. */
export interface View {
  readonly x: Range;
  readonly y: Range;
  readonly water: { readonly x: Range; readonly y: Range };
}

/** Speeds in m/s on a grid in plan, with the direction of the water in degrees clockwise from up; null where not known. */
export interface SpeedField {
  readonly x: readonly number[];
  readonly y: readonly number[];
  readonly speed: readonly (readonly (number | null)[])[];
  readonly direction: readonly (readonly (number | null)[])[];
  readonly range: Range;
}

/** About how many columns and rows the map has: fine enough for its bands, coarse enough for a small picture. */
const grid = { columns: 60, rows: 24 } as const;

const places = ([low, high]: Range, count: number): number[] =>
  Array.from({ length: count }, (_, at) => low + ((high - low) * (at + 0.5)) / count);

/** Returns the speeds on a grid over the water of the view; undefined where the flow is known nowhere in it. */
export function speedsOn(flow: Flow, { water }: View): SpeedField | undefined {
  const [x, y] = [places(water.x, grid.columns), places(water.y, grid.rows)];
  const velocities = y.map((across) => x.map((along) => flow(along, across)));
  const speed = velocities.map((row) =>
    row.map((one) => (one === undefined ? null : Math.hypot(one.alongFlow, one.across))),
  );
  const known = speed.flat().filter((value) => value !== null);
  if (known.length === 0) return undefined;
  return {
    x,
    y,
    speed,
    direction: velocities.map((row) =>
      row.map((one) => (one === undefined ? null : (180 / Math.PI) * Math.atan2(one.alongFlow, one.across))),
    ),
    range: [
      known.reduce((low, value) => Math.min(low, value)),
      known.reduce((high, value) => Math.max(high, value)),
    ],
  };
}

const isEven = ({ range: [low, high] }: SpeedField): boolean => high - low <= 1e-3 * high;

/** The speeds as bands of pale colour with a scale at a height of the plot; nothing where the speed is the same everywhere. */
export function speedMap(field: SpeedField, scaleAt: number): PlotlyTrace[] {
  if (isEven(field)) return [];
  const [low, high] = field.range;
  const size = roundStep((high - low) / 7);
  return [
    {
      type: "contour",
      x: field.x.map(thousandths),
      y: field.y.map(thousandths),
      z: field.speed.map((row) => row.map((value) => (value === null ? null : thousandths(value)))),
      autocontour: false,
      contours: {
        start: thousandths(Math.ceil(low / size) * size),
        end: thousandths(Math.floor(high / size) * size),
        size,
        coloring: "fill",
        showlines: false,
      },
      line: { width: 0 },
      colorscale: [
        [0, "#f3f7fa"],
        [1, "#86b6d6"],
      ],
      hoverinfo: "skip",
      showlegend: false,
      colorbar: {
        orientation: "h",
        thickness: 14,
        len: 0.62,
        x: 1,
        xanchor: "right",
        xpad: 0,
        y: scaleAt,
        yanchor: "middle",
        ypad: 0,
        outlinewidth: 0,
        tickfont: { size: fontSize.label },
      },
    },
  ];
}

/** What the scale of the speeds means, to its left: Plotly would write it on the scale. */
export function speedScaleName(field: SpeedField, scaleAt: number): PlotlyLayout[] {
  if (isEven(field)) return [];
  return [
    {
      x: 0,
      xref: "paper",
      xanchor: "left",
      y: scaleAt,
      yref: "paper",
      yanchor: "middle",
      text: "Speed of the water [m/s]",
      showarrow: false,
      font: { size: fontSize.label },
    },
  ];
}

/** Small arrows in the direction of the water, all of one size: the map tells the speed. */
export function arrowsOf({ x, y, direction }: SpeedField): PlotlyTrace {
  const found: { x: number; y: number; angle: number }[] = [];
  for (let row = 4; row < y.length; row += 5) {
    for (let column = 3; column < x.length; column += 8) {
      const angle = direction[row][column];
      if (angle !== null) found.push({ x: thousandths(x[column]), y: thousandths(y[row]), angle });
    }
  }
  return {
    type: "scatter",
    mode: "markers",
    name: "direction of the water",
    hoverinfo: "skip",
    x: found.map((one) => one.x),
    y: found.map((one) => one.y),
    marker: {
      symbol: "arrow",
      size: 9,
      color: helpColour,
      opacity: 0.7,
      angle: found.map(({ angle }) => Math.round(angle)),
    },
  };
}

/** The next number of the row 1, 2, 5, 10, …: steps that read well on a scale. */
function roundStep(step: number): number {
  const ten = 10 ** Math.floor(Math.log10(step));
  return ten * ([1, 2, 5].find((one) => one * ten >= step * 0.9) ?? 10);
}

const thousandths = (value: number): number => Math.round(1000 * value) / 1000;
