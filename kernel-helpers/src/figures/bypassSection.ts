import { type BypassAtWork, type BypassLines, bypassLines, type Place } from "./bypassGeometry";
import { labelBoard } from "./labels";
import { axis, colour, helpColour, layout, plotSize } from "./look";
import { said } from "./numbers";
import type { FigureSpec, PlotlyLayout, PlotlyTrace } from "./spec";

/** What `bypassSection` draws. */
export interface BypassSectionInput extends BypassAtWork {
  readonly title?: string;
  /** From the approach channel to the pool unless given; the parts are drawn larger. */
  readonly part?: "whole" | "entrance" | "outfall";
  readonly caption?: string;
}

/**
 * A long section of a bypass with its water levels, drawn to scale: entrance, control, chute, outfall and pool. Where a
 * long bypass would be a thin line, heights are drawn a whole number of times larger, and the figure says so.
 *
 * Returns a figure for `figure`. Throws a `RangeError` for a bypass that can't be built.
 *
 * @example
 * figure(figures.bypassSection({ structure, water, flow: bypass.flowThrough(structure, water) }))
 */
export function bypassSection(input: BypassSectionInput): FigureSpec {
  const { title, part = "whole", caption } = input;
  const drawn = bypassLines(input);
  const named = names(input, drawn);
  const window = windowOf(drawn, input, part);
  const data = [waterTrace(drawn), lineTrace("water surface", drawn.surface, 2, 3), floorTrace(drawn)];
  const board = labelBoard({
    x: window.x,
    y: window.y,
    busy: [drawn.surface, drawn.floor].map((line) => ({
      x: line.map(([along]) => along),
      y: line.map(([, level]) => level),
    })),
  });
  const inside = named.filter(
    ({ at: [along, level] }) =>
      along >= window.x[0] && along <= window.x[1] && level >= window.y[0] && level <= window.y[1],
  );
  const { entrance } = input.structure;
  const upper = Math.min(entrance.topLevel ?? Number.POSITIVE_INFINITY, input.water.headwaterLevel);
  return {
    data,
    layout: layout(data, {
      title,
      x: axis("Along the bypass, from its entrance", "m", { range: window.x, showgrid: false }),
      y: axis("Level", "m", {
        range: window.y,
        scaleanchor: "x",
        scaleratio: window.times,
        constrain: "domain",
        showgrid: false,
      }),
      note: scaleInWords(window.times),
      shapes: [
        ...drawn.hanging.map(([from, to]) => segment(from, to, { width: 5 })),
        segment([0, entrance.sillLevel], [0, upper], { width: 2, dash: "dot" }),
      ],
      annotations: inside.map(({ at: [x, y], text }) => board.point({ x, y, text, colour: "#22303c" })),
    }),
    alt: inWords(input, drawn, window.times),
    caption,
  };
}

interface Named {
  readonly at: Place;
  readonly text: string;
}

function names({ structure, water, flow }: BypassAtWork, drawn: BypassLines): Named[] {
  const { entrance, pool } = structure;
  const { headwaterLevel, tailwaterLevel } = water;
  const end = flow.chute.profile[flow.chute.profile.length - 1];
  const alongPool = (part: number): number => drawn.impact[0] + part * (drawn.end - drawn.impact[0]);
  return [
    { at: [0.6 * drawn.start, headwaterLevel], text: `headwater ${said(headwaterLevel, "m")}` },
    {
      at: [0, entrance.sillLevel + 0.2 * flow.entranceHeight],
      text: `entrance ${said(flow.entranceVelocity, "mps")}`,
    },
    { at: drawn.control, text: controlInWords(structure) },
    {
      at: [drawn.lip[0], Math.max(end.bedLevel + end.depth, tailwaterLevel)],
      text: flow.outfall.fallHeight > 0 ? `outfall ${said(end.velocity, "mps")}` : "outfall under water",
    },
    ...(flow.outfall.fallHeight > 0
      ? [{ at: drawn.impact, text: `impact ${said(flow.outfall.impactVelocity, "mps")}` }]
      : []),
    { at: [alongPool(0.8), tailwaterLevel], text: `tailwater ${said(tailwaterLevel, "m")}` },
    { at: [alongPool(0.4), pool.bottomLevel], text: `pool ${said(flow.outfall.poolDepth, "m")} deep` },
  ];
}

function controlInWords({ control }: BypassAtWork["structure"]): string {
  switch (control.kind) {
    case "rampedCrest":
      return `crest at ${said(control.crestLevel, "m")}`;
    case "sharpCrest":
      return `sharp crest at ${said(control.crestLevel, "m")}`;
    case "sluiceGate":
      return `gate ${said(control.opening, "m")} open`;
    case "orifice":
      return `opening ${said(control.height, "m")} high`;
  }
}

interface Window {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  /** How much larger heights are drawn than lengths. */
  readonly times: number;
}

/** The part to draw, grown to the shape of the plot so that both scales are whole. */
function windowOf(
  drawn: BypassLines,
  { structure }: BypassAtWork,
  part: "whole" | "entrance" | "outfall",
): Window {
  const at = structure.control.accelerationLength;
  const from =
    part === "outfall"
      ? Math.max(drawn.start, drawn.lip[0] - 3)
      : Math.max(drawn.start, part === "entrance" ? -3 : drawn.start);
  // Right of the pool stands room for its labels.
  const to = part === "entrance" ? Math.min(drawn.end, at + 4) : drawn.end + 0.16 * (drawn.end - from);
  const levels = [drawn.floor, drawn.surface, ...drawn.hanging].flatMap((line) =>
    levelsWithin(line, from, to),
  );
  const low = Math.min(...levels) - 0.5;
  const high = Math.max(...levels) + 0.6;
  const shape = plotSize.height / plotSize.width;
  const times = Math.max(1, Math.floor(((to - from) * shape) / (high - low)));
  const width = Math.max(to - from, ((high - low) * times) / shape);
  const height = (width * shape) / times;
  const spareX = (width - (to - from)) / 2;
  const spareY = (height - (high - low)) / 2;
  return { x: [from, to + 2 * spareX], y: [low - spareY, high + spareY], times };
}

/** Levels of a line within a stretch, with those where it enters and leaves. */
function levelsWithin(line: readonly Place[], from: number, to: number): number[] {
  return line.flatMap(([along, level], place) => {
    const found = along >= from && along <= to ? [level] : [];
    const next = line[place + 1];
    if (next === undefined || next[0] === along) return found;
    const crossings = [from, to].filter((edge) => (along - edge) * (next[0] - edge) < 0);
    return [
      ...found,
      ...crossings.map((edge) => level + ((edge - along) / (next[0] - along)) * (next[1] - level)),
    ];
  });
}

const millimetres = (value: number): number => Math.round(1000 * value) / 1000 + 0;

function waterTrace({ water }: BypassLines): PlotlyTrace {
  const closed = water.flatMap((outline) => [...outline, outline[0], null]);
  return {
    type: "scatter",
    mode: "lines",
    x: closed.map((place) => (place === null ? null : millimetres(place[0]))),
    y: closed.map((place) => (place === null ? null : millimetres(place[1]))),
    fill: "toself",
    fillcolor: "#d6e6f2",
    line: { width: 0 },
    hoverinfo: "skip",
    showlegend: false,
  };
}

function lineTrace(name: string, line: readonly Place[], index: number, width: number): PlotlyTrace {
  return {
    type: "scatter",
    mode: "lines",
    name,
    x: line.map(([along]) => millimetres(along)),
    y: line.map(([, level]) => millimetres(level)),
    line: { color: colour(index), width },
  };
}

const floorTrace = ({ floor }: BypassLines): PlotlyTrace => ({
  ...lineTrace("floor, gates and walls", floor, 2, 4),
  line: { color: helpColour, width: 4 },
});

function segment(from: Place, to: Place, line: PlotlyLayout): PlotlyLayout {
  return {
    type: "line",
    x0: from[0],
    y0: from[1],
    x1: to[0],
    y1: to[1],
    line: { color: helpColour, ...line },
  };
}

function inWords({ structure, water, flow }: BypassAtWork, drawn: BypassLines, times: number): string {
  const { outfall } = flow;
  const fall =
    outfall.fallHeight > 0
      ? `falls ${said(outfall.fallHeight, "m")} and meets a pool ${said(outfall.poolDepth, "m")} deep at ${said(outfall.impactVelocity, "mps")}`
      : "runs out below the tailwater";
  return (
    `Long section of a bypass that passes ${said(flow.discharge, "m3ps")}. From a headwater at ` +
    `${said(water.headwaterLevel, "m")} the water enters at ${said(flow.entranceVelocity, "mps")}, passes the control ` +
    `(${controlInWords(structure)}) ${said(drawn.control[0], "m")} on at ${said(flow.control.velocity, "mps")}, runs down a chute ` +
    `${said(structure.chute.length, "m")} long and ${fall}; the tailwater stands at ${said(water.tailwaterLevel, "m")}. ` +
    scaleInWords(times)
  );
}

const scaleInWords = (times: number): string =>
  times > 1
    ? `Heights are drawn ${times} times as large as lengths.`
    : "Heights and lengths are drawn to one scale.";
