import type { PlotlyLayout, PlotlyTrace } from "./spec";

/**
 * The look of every figure, in one place.
 *
 * The first four colours run from dark to light, so that they stay apart in grey and for colour-blind readers, and
 * each comes with a dash and a marker of its own. Fonts are large, so that a figure can still be read at half
 * its width. The legend stands between title and plot and never on the data.
 */
const palette = ["#0b2d4a", "#8f2d56", "#2f83b7", "#d17a0f", "#2a9d8f", "#7a5ea8", "#7d8790"];
const dashes = ["solid", "dash", "dashdot", "longdash", "longdashdot", "solid", "dash"];
const symbols = ["circle", "square", "diamond", "triangle-up", "cross", "x", "triangle-down"];
const patterns = ["", "/", ".", "\\", "x", "-", "|"];

const ink = "#22303c";
const gridColour = "#e3e7eb";
/** Colour of lines that help to read: thresholds, marks, what lies outside a tested range. */
export const helpColour = "#5c6b78";

export const fontSize = { text: 16, title: 18, label: 14 } as const;

/** The size that a figure is drawn at, in pixels. */
const figureSize = { width: 760, height: 430 } as const;

/** Room that axes, their titles and the edges take from the plot, in pixels. */
const roomForAxes = { across: 95, down: 75 } as const;

function at<T>(list: readonly T[], index: number): T {
  return list[index % list.length];
}

/** The colour of the series with this place in the figure, from 0. */
export function colour(index: number): string {
  return at(palette, index);
}

/** A series drawn as a line; after the seventh, colours return with another dash. */
export function line(index: number, width = 3): PlotlyTrace {
  const round = Math.floor(index / palette.length);
  return {
    type: "scatter",
    mode: "lines",
    line: { color: colour(index), dash: at(dashes, index + round), width },
  };
}

/** A series drawn as points. */
export function points(index: number, size = 10): PlotlyTrace {
  return {
    type: "scatter",
    mode: "markers",
    marker: { color: colour(index), symbol: at(symbols, index), size, line: { color: "#fff", width: 1 } },
  };
}

/** A series drawn as bars; hatching tells neighbours apart without colour. */
export function bar(index: number): PlotlyTrace {
  const shape = at(patterns, index);
  const pattern =
    shape === "" ? {} : { pattern: { shape, size: 8, solidity: 0.2, fgcolor: "#fff", fillmode: "overlay" } };
  return { type: "bar", marker: { color: colour(index), line: { color: "#fff", width: 1 }, ...pattern } };
}

/** A text as Plotly shows it word for word: it would read `<b>` in a name as markup. */
export function plain(text: string): string {
  return text.replaceAll("&", "&amp;").replaceAll("<", "&lt;").replaceAll(">", "&gt;");
}

/** A text in lines of at most so many characters, broken between words. */
export function wrapped(text: string, characters: number): string {
  const lines: string[] = [];
  for (const word of text.split(" ")) {
    const last = lines.at(-1);
    if (last !== undefined && last.length + 1 + word.length <= characters)
      lines[lines.length - 1] = `${last} ${word}`;
    else lines.push(word);
  }
  return lines.map(plain).join("<br>");
}

/** The longest line of a legend entry that fits beside its sample. */
const legendCharacters = 56;

/** The name of a series as its legend entry shows it. */
export function seriesName(name: string): string {
  return wrapped(name, legendCharacters);
}

/** A legend entry that explains a sign in the names of others and has no series of its own. */
export function legendText(text: string): PlotlyTrace {
  const marker = { color: "rgba(0,0,0,0)", line: { width: 0 } };
  const nothing = { type: "scatter", mode: "markers", marker, x: [null], y: [null], hoverinfo: "skip" };
  return { ...nothing, name: seriesName(text) };
}

/** An axis title: what, and in which unit. A ratio has the unit "". */
function axisTitle(title: string, unit: string): string {
  return plain(unit === "" ? title : `${title} [${unit}]`);
}

/** An axis with its title, unit, ticks and grid; `more` holds Plotly's own attributes. */
export function axis(title: string, unit: string, more: PlotlyLayout = {}): PlotlyLayout {
  return {
    title: { text: axisTitle(title, unit), standoff: 10 },
    automargin: true,
    ticks: "outside",
    ticklen: 5,
    tickcolor: ink,
    showline: true,
    linecolor: ink,
    gridcolor: gridColour,
    zeroline: false,
    exponentformat: "power",
    ...more,
  };
}

/** Text rows of the legend: one where all entries fit, else in columns as wide as the widest. */
function legendRows(names: readonly string[]): number {
  const room = figureSize.width - roomForAxes.across;
  const lines = names.map((name) => name.split("<br>"));
  const highest = Math.max(1, ...lines.map((one) => one.length));
  const widths = lines.map((one) => textWidth(one[0], fontSize.text) + 50);
  if (widths.reduce((sum, width) => sum + width, 0) <= room) return highest;
  const columns = Math.max(1, Math.floor(room / Math.max(...widths)));
  return highest * Math.ceil(names.length / columns);
}

/** About the width of a text in pixels. */
export function textWidth(text: string, size: number): number {
  return 0.56 * size * text.length;
}

/** The size in pixels of the area between the axes, about. */
export const plotSize = {
  width: figureSize.width - roomForAxes.across,
  height: figureSize.height - roomForAxes.down - 60,
} as const;

/** What a layout is made of. */
export interface LayoutParts {
  readonly title?: string;
  readonly x: PlotlyLayout;
  readonly y: PlotlyLayout;
  /** A second axis at the right, for series with `yaxis: "y2"`. */
  readonly y2?: PlotlyLayout;
  readonly shapes?: readonly PlotlyLayout[];
  readonly annotations?: readonly PlotlyLayout[];
  /** A legend even where there is one series only. */
  readonly legendForOne?: boolean;
  /** A line under the plot that explains a sign. */
  readonly note?: string;
  /** Plotly's own attributes beyond these. */
  readonly more?: PlotlyLayout;
}

/** The frame around the series; the picture grows where the legend needs more than two rows. */
export function layout(data: readonly PlotlyTrace[], parts: LayoutParts): PlotlyLayout {
  const names = data.flatMap((trace) =>
    trace.showlegend !== false && typeof trace.name === "string" ? [trace.name] : [],
  );
  const showLegend = names.length > (parts.legendForOne === true ? 0 : 1);
  const rows = showLegend ? legendRows(names) : 0;
  const title = {
    text: plain(parts.title ?? ""),
    font: { size: fontSize.title },
    x: 0,
    xref: "paper",
    xanchor: "left",
    y: 1,
    yref: "container",
    yanchor: "top",
    pad: { t: 12, b: 4 },
    automargin: true,
  };
  const legend = {
    orientation: "h",
    x: 0,
    xanchor: "left",
    y: 1.02,
    yanchor: "bottom",
    itemwidth: 40,
    traceorder: "normal",
  };
  return {
    ...(parts.title === undefined ? {} : { title }),
    height: figureSize.height + Math.max(0, rows - 2) * 24,
    font: { family: "Helvetica Neue, Arial, sans-serif", size: fontSize.text, color: ink },
    paper_bgcolor: "#fff",
    plot_bgcolor: "#fff",
    margin: { l: 20, r: 24, t: 16, b: 12 },
    showlegend: showLegend,
    ...(showLegend ? { legend } : {}),
    xaxis: parts.note === undefined ? parts.x : withNote(parts.x, parts.note),
    yaxis: parts.y,
    ...(parts.y2 === undefined
      ? {}
      : { yaxis2: { overlaying: "y", side: "right", showgrid: false, ...parts.y2 } }),
    ...(parts.shapes === undefined ? {} : { shapes: parts.shapes }),
    ...(parts.annotations === undefined ? {} : { annotations: parts.annotations }),
    ...parts.more,
  };
}

/** An axis with a smaller line under its title. */
function withNote(x: PlotlyLayout, note: string): PlotlyLayout {
  const { title } = x;
  if (typeof title !== "object" || title === null) return x;
  const small = `<span style="font-size:${fontSize.label}px">${plain(note)}</span>`;
  return { ...x, title: { ...title, text: `${String(Reflect.get(title, "text"))}<br>${small}` } };
}

/** A straight line across the plot at a value of one axis. */
export function helpLine(which: "x" | "y", value: number, lineColour = helpColour): PlotlyLayout {
  const along =
    which === "x"
      ? { x0: value, x1: value, y0: 0, y1: 1, yref: "paper" }
      : { y0: value, y1: value, x0: 0, x1: 1, xref: "paper" };
  return { type: "line", layer: "between", line: { color: lineColour, width: 2, dash: "dash" }, ...along };
}
