import { checkSite, type Site } from "../movement/site";
import type { VelocityField } from "../velocity";
import { colour, helpColour, layout, points } from "./look";
import { said } from "./numbers";
import { metresPerPixel, placeInWords, siteNames, siteShapes } from "./sitePlan";
import { type SpeedField, speedMap, speedScaleName, speedsOn, type View } from "./speedMap";
import type { FigureSpec, PlotlyTrace } from "./spec";

/** What `velocityMap` draws. */
export interface VelocityMapInput {
  readonly title?: string;
  readonly field: VelocityField;
  /** Where rack and bypass entrance stand, as `movement.site` gives it. */
  readonly site: Site;
  /** Speeds at the two ends of the colours in m/s, so that two maps can be compared; those of the field unless told otherwise. */
  readonly range?: readonly [number, number];
  /** The part of the plan that is shown, m; all of the field and the site unless told otherwise. */
  readonly part?: { readonly x: readonly [number, number]; readonly y: readonly [number, number] };
  readonly caption?: string;
}

/**
 * Speeds in plan, to scale, with the direction of the water, the points measured, the rack and the bypass entrance.
 *
 * Returns a figure for `figure`. What is white was not measured around: nothing is extrapolated. Throws a RangeError for a
 * range that does not rise, a part outside of the plan, and for a site whose lines have no length.
 *
 * @example
 * velocityMap({ title: "Bottom opening", field, site: movement.site({ rackAngle: u.deg(38), channelWidth: u.m(1.5),
 *   bypassWidth: u.m(0.2) }) })
 */
export function velocityMap(input: VelocityMapInput): FigureSpec {
  const { title, field, site, range, part, caption } = input;
  checkSite("figures.velocityMap", site);
  if (range !== undefined && !(range[0] < range[1] && range.every(Number.isFinite))) {
    throw new RangeError(
      `figures.velocityMap: range is ${range.join(" to ")} m/s; it must rise from a lower speed to a higher one.`,
    );
  }
  const whole = viewOf(field, site);
  const view = part === undefined ? whole : partOf(whole, part);
  const speeds = speedsOn(field, view);
  if (speeds === undefined) {
    throw new RangeError("figures.velocityMap: the field holds no place between the walls of the site.");
  }
  const coloured: SpeedField = range === undefined ? speeds : { ...speeds, range };
  const plan = (view.y[1] - view.y[0]) / metresPerPixel(view.x);
  // Under the ticks and the title of the axis, in shares of the plan's height.
  const scaleAt = -92 / plan;
  const inView = field.points.filter(({ x, y }) => isIn(x, view.x) && isIn(y, view.y));
  const measured = {
    ...points(0, 5),
    marker: { color: helpColour, symbol: "circle", size: 4 },
    name: "measured",
    x: inView.map(({ x }) => thousandths(x)),
    y: inView.map(({ y }) => thousandths(y)),
  };
  const data = [...speedMap(coloured, scaleAt), ...arrows(field, view), measured];
  const place = { showgrid: false, zeroline: false, ticks: "outside", automargin: true, showline: false };
  return {
    data,
    layout: layout(data, {
      title,
      x: {
        ...place,
        title: { text: "Along the flow [m]", standoff: 6 },
        range: [...view.x],
        constrain: "domain",
      },
      y: {
        ...place,
        title: { text: "Across [m]", standoff: 8 },
        range: [...view.y],
        scaleanchor: "x",
        constrain: "domain",
        nticks: 5,
      },
      shapes: siteShapes(site, whole),
      annotations: [
        ...siteNames(site, whole).filter(({ x, y }) => isIn(Number(x), view.x) && isIn(Number(y), view.y)),
        ...speedScaleName(coloured, scaleAt),
      ],
      more: {
        height: Math.round(plan + 95 + 26 + (title === undefined ? 0 : 30) + 66),
        margin: { l: 20, r: 24, t: 16, b: 116 },
      },
    }),
    alt: inWords(field, site, speeds, part !== undefined),
    caption: caption ?? "White: not measured around. Nothing is extrapolated.",
  };
}

function viewOf(field: VelocityField, { rack, bypass }: Site): View {
  const ends = [rack.from, rack.to, bypass.from, bypass.to];
  const water = {
    x: [
      Math.min(field.box.x[0], ...ends.map(({ x }) => x)) - 0.02,
      Math.max(field.box.x[1], ...ends.map(({ x }) => x)) + 0.05,
    ],
    y: [Math.min(...ends.map(({ y }) => y)), Math.max(...ends.map(({ y }) => y))],
  } as const;
  // Rack and bypass are named outside the walls.
  const margin = 26 * metresPerPixel(water.x);
  return { x: water.x, y: [water.y[0] - margin, water.y[1] + margin], water };
}

/** Whether a range rises and touches another. */
const touches = ([low, high]: readonly [number, number], [from, to]: readonly [number, number]): boolean =>
  low < high && low < to && high > from;

function partOf(whole: View, { x, y }: NonNullable<VelocityMapInput["part"]>): View {
  if (!touches(x, whole.water.x) || !touches(y, whole.water.y)) {
    throw new RangeError(
      `figures.velocityMap: part runs from x ${x.join(" to ")} m and y ${y.join(" to ")} m; both must rise and lie ` +
        `in x ${whole.water.x.map(hundredths).join(" to ")} m and y ${whole.water.y.map(hundredths).join(" to ")} m.`,
    );
  }
  // Names stand outside the walls, where a wall is in view.
  const margin = 26 * metresPerPixel(x);
  return { x, y: [y[0] - margin, y[1] + margin], water: { x, y } };
}

const isIn = (value: number, [low, high]: readonly [number, number]): boolean =>
  value >= low && value <= high;

const arrowGrid = { columns: 10, rows: 6 } as const;

function middles([low, high]: readonly [number, number], count: number): number[] {
  return Array.from({ length: count }, (_, at) => low + ((high - low) * (at + 0.5)) / count);
}

/** Velocities as arrows on an even grid, as long as the water goes in a stated time. */
function arrows(field: VelocityField, { water }: View): PlotlyTrace[] {
  const found = middles(water.y, arrowGrid.rows).flatMap((y) =>
    middles(water.x, arrowGrid.columns).flatMap((x) => {
      const velocity = field(x, y);
      return velocity === undefined ? [] : [{ x, y, ...velocity }];
    }),
  );
  const speeds = found.map(({ alongFlow, across }) => Math.hypot(alongFlow, across));
  const fastest = speeds.reduce((high, one) => Math.max(high, one), 0);
  // The fastest arrow takes most of the way to the next, in a time that can be said.
  const seconds = fastest > 0 ? tenths((0.8 * (water.x[1] - water.x[0])) / arrowGrid.columns / fastest) : 0;
  const tips = found.map(({ x, y, alongFlow, across }) => ({
    x: x + seconds * alongFlow,
    y: y + seconds * across,
    angle: Math.round((180 / Math.PI) * Math.atan2(alongFlow, across)),
  }));
  return [
    {
      type: "scatter",
      mode: "lines",
      showlegend: false,
      hoverinfo: "skip",
      line: { color: colour(0), width: 1.5 },
      x: found.flatMap(({ x }, at) => [thousandths(x), thousandths(tips[at].x), null]),
      y: found.flatMap(({ y }, at) => [thousandths(y), thousandths(tips[at].y), null]),
    },
    {
      type: "scatter",
      mode: "markers",
      hoverinfo: "skip",
      name: `way of the water in ${seconds} s`,
      x: tips.map(({ x }) => thousandths(x)),
      y: tips.map(({ y }) => thousandths(y)),
      marker: { symbol: "arrow", size: 9, color: colour(0), angle: tips.map(({ angle }) => angle) },
    },
  ];
}

function inWords(field: VelocityField, { rack }: Site, speeds: SpeedField, isPart: boolean): string {
  const [low, high] = speeds.range;
  const cells = speeds.speed.flatMap((row, r) =>
    row.flatMap((value, c) => (value === null ? [] : [{ value, x: speeds.x[c], y: speeds.y[r] }])),
  );
  const where = (value: number): string => {
    const found = cells.find((cell) => cell.value === value);
    return found === undefined ? "" : ` at (${said(found.x, "")}, ${said(found.y, "")}) m`;
  };
  return (
    `Speeds in plan from ${field.points.length} points${isPart ? ", a part of the plan" : ""}: from ${said(low, "mps")}${where(low)} to ${said(high, "mps")}${where(high)}. ` +
    `The rack stands from ${placeInWords(rack.from)} to ${placeInWords(rack.to)}, ` +
    "the bypass entrance at its downstream end; arrows show the direction of the water."
  );
}

const thousandths = (value: number): number => Math.round(1000 * value) / 1000;
const tenths = (value: number): number => Math.max(0.1, Math.floor(10 * value) / 10);
const hundredths = (value: number): number => Math.round(100 * value) / 100;
