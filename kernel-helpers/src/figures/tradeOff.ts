import { labelBoard } from "./labels";
import { axis, colour, helpColour, layout, plotSize, points, seriesName } from "./look";
import { checkFinite, checkSome, listed, said } from "./numbers";
import type { FigureSpec, PlotlyTrace } from "./spec";

/** An option of `energy.tradeOff`, as the figure reads it. */
export interface DrawnOption {
  readonly name: string;
  readonly survival: number;
  /** Of a mean year, in joules. */
  readonly energy: number;
  readonly onFront: boolean;
}

/** What `tradeOff` draws. */
export interface TradeOffInput {
  readonly title?: string;
  readonly options: readonly DrawnOption[];
  /** Names of options to label beside those on the front; all of them where there are few. */
  readonly labelled?: readonly string[];
  readonly caption?: string;
}

/** Half of a marker with its edge, in pixels. */
const markerRoom = 8;

/** As many names as the plot has room for. */
const mostLabels = 8;

/**
 * Options by energy and survival, with the front of those that no other one beats.
 *
 * Returns a figure for `figure`. More is better on both axes: an option above and to the right of another beats it. The
 * line steps along the front; options off it are drawn hollow. Throws a `RangeError` where there are no options or a
 * number is not finite.
 *
 * @example
 * figures.tradeOff({ options: [{ name: "40 mm", survival: 0.8, energy: u.GWh(9), onFront: true },
 *   { name: "18 mm", survival: 0.9, energy: u.GWh(8.9), onFront: true }] }).alt
 * // => "Survival of a season against energy of a mean year for 2 options. On the front, from most energy to most survival: 40 mm with 9 GWh and 80 %, 18 mm with 8.9 GWh and 90 %. Beaten by another: none."
 */
export function tradeOff({ title, options, labelled = [], caption }: TradeOffInput): FigureSpec {
  checkSome("tradeOff", "options", options);
  checkFinite(
    "tradeOff",
    "options' survival",
    options.map(({ survival }) => survival),
  );
  checkFinite(
    "tradeOff",
    "options' energy",
    options.map(({ energy }) => energy),
  );
  const drawn = options.map((option) => ({
    ...option,
    x: option.energy / joulesAGigawattHour,
    y: 100 * option.survival,
  }));
  const front = drawn.filter(({ onFront }) => onFront).toSorted((a, b) => b.x - a.x || b.y - a.y);
  const beaten = drawn.filter(({ onFront }) => !onFront);
  const ranges = {
    x: padded(drawn.map(({ x }) => x)),
    y: padded(
      drawn.map(({ y }) => y),
      100,
    ),
  };
  const steps = stepsOf(front);
  const hollow = points(0, 11);
  const data: PlotlyTrace[] = [
    {
      type: "scatter",
      mode: "lines",
      line: { color: helpColour, dash: "dot", width: 2 },
      hoverinfo: "skip",
      showlegend: false,
      ...steps,
    },
    { ...points(0, 13), ...placed(front), name: seriesName("no other option beats it") },
    ...(beaten.length === 0
      ? []
      : [
          {
            ...hollow,
            ...placed(beaten),
            marker: { color: "#fff", symbol: "circle", size: 11, line: { color: colour(1), width: 2 } },
            name: seriesName("another option beats it"),
          },
        ]),
  ];
  const board = labelBoard({ ...ranges, busy: [coordinates(data[0]), ...drawn.map(ringOf(ranges))] });
  const named = options.length <= mostLabels ? drawn : [...front, ...beaten.filter(isIn(labelled))];
  return {
    data,
    layout: layout(data, {
      title,
      x: axis("Energy of a mean year", "GWh", { range: ranges.x }),
      y: axis("Survival of the season", "%", { range: ranges.y }),
      annotations: named.map(({ x, y, name, onFront }) =>
        board.point({ x, y, text: name, colour: colour(onFront ? 0 : 1) }),
      ),
      legendForOne: true,
    }),
    alt: inWords(front, beaten),
    caption,
  };
}

const joulesAGigawattHour = 3.6e12;

interface Placed extends DrawnOption {
  readonly x: number;
  readonly y: number;
}

const isIn =
  (names: readonly string[]) =>
  ({ name }: DrawnOption): boolean =>
    names.includes(name);

const placed = (options: readonly Placed[]) => ({
  x: options.map(({ x }) => x),
  y: options.map(({ y }) => y),
  text: options.map(({ name }) => name),
});

/** Corners of the front: what can be had with so much energy is the survival of the best option that gives as much. */
function stepsOf(front: readonly Placed[]): { readonly x: number[]; readonly y: number[] } {
  const corners = front.flatMap((one, at) =>
    at === 0
      ? [one]
      : [
          { x: one.x, y: front[at - 1].y },
          { x: one.x, y: one.y },
        ],
  );
  return { x: corners.map(({ x }) => x), y: corners.map(({ y }) => y) };
}

/** The values with room for labels on both sides, cut where the axis can't go on. */
function padded(values: readonly number[], most = Infinity): [number, number] {
  const low = Math.min(...values);
  const high = Math.max(...values);
  const room = 0.2 * (high - low || Math.abs(high) || 1);
  return [Math.max(0, low - room), Math.min(high + room, Math.max(most, high))];
}

/** Places around an option's marker, so that labels keep clear of all of it. */
const ringOf =
  ({ x, y }: { readonly x: readonly number[]; readonly y: readonly number[] }) =>
  (option: Placed) => {
    const turns = Array.from({ length: 8 }, (_, at) => (at * Math.PI) / 4);
    const across = (markerRoom * (x[1] - x[0])) / plotSize.width;
    const up = (markerRoom * (y[1] - y[0])) / plotSize.height;
    return {
      x: [option.x, ...turns.map((turn) => option.x + across * Math.cos(turn))],
      y: [option.y, ...turns.map((turn) => option.y + up * Math.sin(turn))],
    };
  };

/** The places of a trace, for the labels to keep clear of. */
const coordinates = ({ x, y }: PlotlyTrace) => ({
  x: Array.isArray(x) ? x.filter((one) => typeof one === "number") : [],
  y: Array.isArray(y) ? y.filter((one) => typeof one === "number") : [],
});

function inWords(front: readonly Placed[], beaten: readonly Placed[]): string {
  const each = front.map(
    ({ name, energy, survival }) => `${name} with ${said(energy, "GWh", 4)} and ${said(survival, "%")}`,
  );
  return [
    `Survival of a season against energy of a mean year for ${front.length + beaten.length} options.`,
    `On the front, from most energy to most survival: ${each.join(", ")}.`,
    `Beaten by another: ${beaten.length === 0 ? "none" : listed(beaten.map(({ name }) => name))}.`,
  ].join(" ");
}
