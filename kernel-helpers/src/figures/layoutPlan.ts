import { planCosine } from "../rack/angles";
import { rackLength } from "../rack/geometry";
import { normalVelocity, tangentialVelocity } from "../rack/velocities";
import { colour, fontSize, helpColour, layout, plain, plotSize, seriesName } from "./look";
import { said } from "./numbers";
import type { FigureSpec, PlotlyLayout } from "./spec";

/** What `layoutPlan` draws. */
export interface LayoutPlanInput {
  readonly title?: string;
  /** Width of the channel in metres. */
  readonly channelWidth: number;
  /** Angle in plan between rack and flow, in radians; 90° is square to the flow. */
  readonly rackAngle: number;
  /** Mean velocity in the channel in m/s. */
  readonly approachVelocity: number;
  readonly caption?: string;
}

type Point = readonly [x: number, y: number];

/**
 * A plan of the channel, drawn to scale: the rack across it, the bypass at its downstream end, and the
 * approach velocity with its parts along the rack and square to it.
 *
 * Returns a figure for `figure`. Throws a `RangeError` where width or velocity is not above 0 or the angle
 * not between 5° and 90°.
 *
 * @example
 * layoutPlan({ channelWidth: 17, rackAngle: Math.PI / 4, approachVelocity: 0.6 }).alt
 * // => "Plan of a channel 17 m wide with a rack at 45° to the flow, 24 m long, the bypass at its downstream end.
 * //     Of the approach velocity 0.6 m/s, 0.424 m/s is normal to the rack and 0.424 m/s runs along it."
 */
export function layoutPlan(input: LayoutPlanInput): FigureSpec {
  const { title, channelWidth, approachVelocity, caption } = input;
  checkAbove("channelWidth", channelWidth, "m");
  checkAbove("approachVelocity", approachVelocity, "m/s");
  if (!(input.rackAngle >= (5 * Math.PI) / 180 - 1e-12 && input.rackAngle <= Math.PI / 2 + 1e-12)) {
    throw new RangeError(
      `figures.layoutPlan: rackAngle is ${said(input.rackAngle, "deg")}; a plan can be drawn from 5° to 90°.`,
    );
  }
  // Up to a rounding error beyond 90° is 90°.
  const rackAngle = Math.min(input.rackAngle, Math.PI / 2);
  const length = rackLength.evaluate({ channelWidth, rackAngle });
  const cosine = planCosine(rackAngle);
  const alongFlow = (channelWidth * cosine) / Math.sin(rackAngle);
  const normal = normalVelocity.evaluate({ approachVelocity, rackAngle });
  const tangential = tangentialVelocity.evaluate({ approachVelocity, rackAngle });
  // The rack runs from the upper bank, upstream, to the bypass at the lower bank.
  const upstream: Point = [0, channelWidth];
  const downstream: Point = [alongFlow, 0];
  const before = Math.max(0.75 * channelWidth, 0.15 * alongFlow);
  const after = Math.max(0.45 * channelWidth, 0.1 * alongFlow);
  const span = before + alongFlow + after;
  const height = Math.min(540, Math.round(110 + Math.max(200, (1.3 * channelWidth * plotSize.width) / span)));
  const metresPerPixel = Math.max(span / plotSize.width, (1.3 * channelWidth) / (height - 150));
  const unit = Math.min(0.9 * channelWidth, Math.max(0.42 * channelWidth, 0.18 * span));
  const middle: Point = [alongFlow / 2, channelWidth / 2];
  const tail: Point = [middle[0] - unit, middle[1]];
  const alongRack: Point = [cosine, -Math.sin(rackAngle)];
  const squareToRack: Point = [Math.sin(rackAngle), cosine];
  const tipOf = (direction: Point, part: number): Point => [
    tail[0] + unit * part * direction[0],
    tail[1] + unit * part * direction[1],
  ];
  const tangentialTip = tipOf(alongRack, cosine);
  const normalTip = tipOf(squareToRack, Math.sin(rackAngle));
  // The text stands right of the rack, far enough that its lower edge stays off it.
  const textHeight = 0.86 * channelWidth;
  const besideRack: Point = [
    alongFlow * (1 - (textHeight - 14 * metresPerPixel) / channelWidth) + 10 * metresPerPixel,
    textHeight,
  ];
  const arrows = [
    { name: `approach velocity ${said(approachVelocity, "mps")}`, index: 0, tip: middle },
    { name: `along the rack ${said(tangential, "mps")}`, index: 2, tip: tangentialTip },
    { name: `normal to the rack ${said(normal, "mps")}`, index: 3, tip: normalTip },
  ];
  // The arrows are annotations, which have no legend of their own.
  const data = arrows.map(({ name, index }) => ({
    type: "scatter",
    mode: "lines",
    name: seriesName(name),
    x: [null],
    y: [null],
    line: { color: colour(index), width: 4 },
  }));
  const scale = { showgrid: false, zeroline: false, ticks: "outside", automargin: true, showline: false };
  return {
    data,
    layout: layout(data, {
      title,
      x: {
        ...scale,
        title: { text: "Along the channel (m)", standoff: 8 },
        range: [-before, alongFlow + after],
      },
      y: {
        ...scale,
        title: { text: "Across (m)", standoff: 8 },
        range: [-0.15 * channelWidth, 1.15 * channelWidth],
        scaleanchor: "x",
        constrain: "domain",
      },
      shapes: plan(channelWidth, -before, alongFlow + after, upstream, downstream),
      annotations: [
        // The thin one last: at 90° it lies on the normal part.
        ...arrows
          .toReversed()
          .filter(({ tip }) => Math.hypot(tip[0] - tail[0], tip[1] - tail[1]) > 1e-6 * unit)
          .map(({ tip, index }) => arrow(tail, tip, index)),
        note([-before + 0.02 * span, channelWidth / 2], "flow →"),
        note([alongFlow + 0.01 * span, 16 * metresPerPixel], "bypass"),
        note(besideRack, `rack ${said(length, "m")} at ${said(rackAngle, "deg")}`),
      ],
      more: { height },
    }),
    alt:
      `Plan of a channel ${said(channelWidth, "m")} wide with a rack at ${said(rackAngle, "deg")} to the flow, ` +
      `${said(length, "m")} long, the bypass at its downstream end. Of the approach velocity ${said(approachVelocity, "mps")}, ` +
      `${said(normal, "mps")} is normal to the rack and ${said(tangential, "mps")} runs along it.`,
    caption,
  };
}

function checkAbove(name: string, value: number, unit: string): void {
  if (Number.isFinite(value) && value > 0) return;
  throw new RangeError(`figures.layoutPlan: ${name} is ${value} ${unit}; it must be above 0 ${unit}.`);
}

/** Water, banks, rack and bypass. */
function plan(
  width: number,
  left: number,
  right: number,
  upstream: Point,
  downstream: Point,
): PlotlyLayout[] {
  const bank = (y: number): PlotlyLayout => ({
    type: "line",
    x0: left,
    x1: right,
    y0: y,
    y1: y,
    line: { color: helpColour, width: 4 },
  });
  return [
    {
      type: "rect",
      x0: left,
      x1: right,
      y0: 0,
      y1: width,
      fillcolor: "#e8f1f8",
      line: { width: 0 },
      layer: "below",
    },
    bank(0),
    bank(width),
    {
      type: "line",
      x0: upstream[0],
      y0: upstream[1],
      x1: downstream[0],
      y1: downstream[1],
      line: { color: colour(1), width: 6 },
    },
    {
      type: "rect",
      x0: downstream[0],
      x1: right,
      y0: -0.09 * width,
      y1: 0,
      fillcolor: "#cfe0ee",
      line: { color: helpColour, width: 2 },
    },
  ];
}

function arrow(from: Point, to: Point, index: number): PlotlyLayout {
  return {
    x: to[0],
    y: to[1],
    ax: from[0],
    ay: from[1],
    axref: "x",
    ayref: "y",
    text: "",
    showarrow: true,
    arrowhead: 2,
    arrowwidth: index === 0 ? 2.5 : 4,
    arrowcolor: colour(index),
  };
}

function note(at: Point, text: string): PlotlyLayout {
  return {
    x: at[0],
    y: at[1],
    text: plain(text),
    xanchor: "left",
    showarrow: false,
    font: { size: fontSize.text },
  };
}
