import type { AlongLine, AlongRack } from "../velocity";
import { curveTraces } from "./curves";
import { axis, layout } from "./look";
import { type Mark, markedLayout, marksInWords } from "./marks";
import { checkSome, course, shown } from "./numbers";
import type { FigureSpec } from "./spec";

/** A limit to draw across the figure, in SI units. */
export interface NamedLimit {
  readonly name: string;
  readonly value: number;
}

/** What `alongRack` draws. */
export interface AlongRackInput {
  readonly title?: string;
  /** One entry a layout, an operation, a height. */
  readonly layouts: readonly { readonly name: string; readonly along: AlongRack }[];
  /** Both components unless told otherwise. */
  readonly components?: "both" | "normal" | "tangential";
  readonly limits?: readonly NamedLimit[];
  readonly caption?: string;
}

interface PlacedCurve {
  readonly name: string;
  readonly x: readonly number[];
  readonly y: readonly number[];
}

/**
 * Velocities square to a rack and along it, from its upstream end to the bypass, with limit lines.
 *
 * Returns a figure for `figure`. Throws a RangeError where there is no layout to draw.
 *
 * @example
 * alongRack({ layouts: [{ name: "full depth", along: velocity.alongRack(field, { rack, distance: u.m(0.1) }) }],
 *   limits: [{ name: "normal velocity, in general", value: u.mps(0.5) }] })
 */
export function alongRack(input: AlongRackInput): FigureSpec {
  const { title, layouts, components = "both", limits = [], caption } = input;
  checkSome("alongRack", "layouts", layouts);
  const wanted = (["normal", "tangential"] as const).filter(
    (one) => components === "both" || components === one,
  );
  const words = { normal: "normal", tangential: "along the rack" } as const;
  const curves = layouts.flatMap(({ name, along }) =>
    wanted.map((component) => ({
      name: `${name}, ${words[component]}`,
      x: along.stations.map((station) => station.alongRack),
      y: along.stations.map((station) => station[component]),
    })),
  );
  return placed(curves, {
    title,
    caption,
    x: "Along the rack, from its upstream end",
    y: { title: "Velocity", unit: "mps" },
    limits,
  });
}

/** What `alongLine` draws. */
export interface AlongLineInput {
  readonly title?: string;
  readonly lines: readonly { readonly name: string; readonly along: AlongLine }[];
  /** "gradient" unless told otherwise. */
  readonly shows?: "gradient" | "speed";
  readonly limits?: readonly NamedLimit[];
  readonly caption?: string;
}

/**
 * How fast the speed changes on the way into a bypass, or the speed itself, against the distance from the start of the way.
 *
 * Returns a figure for `figure`. Throws a RangeError where there is no line to draw.
 *
 * @example
 * alongLine({ lines: [{ name: "full depth", along: velocity.alongLine(field, { from, to, stations: 9 }) }],
 *   limits: [{ name: "limit of practice", value: u.perS(1) }] })
 */
export function alongLine(input: AlongLineInput): FigureSpec {
  const { title, lines, shows = "gradient", limits = [], caption } = input;
  checkSome("alongLine", "lines", lines);
  const curves = lines.map(({ name, along }) =>
    shows === "speed"
      ? {
          name,
          x: along.stations.map(({ distance }) => distance),
          y: along.stations.map(({ speed }) => speed),
        }
      : {
          name,
          x: along.gradients.map(({ distance }) => distance),
          y: along.gradients.map(({ gradient }) => gradient),
        },
  );
  return placed(curves, {
    title,
    caption,
    x: "Along the way",
    y:
      shows === "speed"
        ? { title: "Speed", unit: "mps" }
        : { title: "Change of speed a metre", unit: "perS" },
    limits,
  });
}

function placed(
  curves: readonly PlacedCurve[],
  {
    title,
    caption,
    x,
    y,
    limits,
  }: {
    readonly title?: string;
    readonly caption?: string;
    readonly x: string;
    readonly y: { readonly title: string; readonly unit: "mps" | "perS" };
    readonly limits: readonly NamedLimit[];
  },
): FigureSpec {
  const axes = { x: { unit: "m" }, y: { unit: y.unit } } as const;
  const rows = curves.map((curve) => ({ x: shown(curve.x, "m"), y: shown(curve.y, y.unit) }));
  const data = curveTraces(curves.map(({ name }, at) => ({ name, ...rows[at] })));
  const marks = limits.map(({ name, value }): Mark => ({ axis: "y", at: value, text: name }));
  const { xRange, yRange, ...lineParts } = markedLayout(marks, { ...axes, rows });
  const sentences = curves.map(
    (curve) => `${curve.name}: ${course({ values: curve.x, unit: "m" }, { values: curve.y, unit: y.unit })}.`,
  );
  return {
    data,
    layout: layout(data, {
      title,
      x: axis(x, "m", xRange),
      y: axis(y.title, y.unit === "mps" ? "m/s" : "1/s", yRange),
      ...lineParts,
    }),
    alt: [`${y.title} against the distance.`, ...sentences, ...marksInWords(marks, axes)].join(" "),
    caption,
  };
}
