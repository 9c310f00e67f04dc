import { fontSize, helpColour, plain, plotSize, textWidth } from "./look";
import type { PlotlyLayout } from "./spec";

/** What the labels stand in: the ranges of both axes, and the curves and points that they should leave free. */
export interface LabelField {
  readonly x: readonly [number, number];
  readonly y: readonly [number, number];
  readonly busy: readonly Row[];
}

interface Row {
  readonly x: ArrayLike<number | null>;
  readonly y: ArrayLike<number | null>;
}

/** A text that names a point of the plot. */
export interface PointLabel {
  readonly x: number;
  readonly y: number;
  readonly text: string;
  readonly colour?: string;
}

/** A text that names a vertical line. */
export interface LineLabel {
  readonly x: number;
  readonly text: string;
}

/** A text that names a horizontal line. */
export interface LevelLabel {
  readonly y: number;
  readonly text: string;
}

type Pixel = readonly [across: number, down: number];

interface Candidate {
  readonly middle: Pixel;
  /** Where a leader line starts, for a label away from its point. */
  readonly from?: Pixel;
  readonly cost: number;
}

/** Puts labels on one plot, apart from each other, inside it, and off the curves where they can. */
export function labelBoard(field: LabelField): {
  readonly point: (label: PointLabel) => PlotlyLayout;
  readonly verticalLine: (label: LineLabel) => PlotlyLayout;
  readonly horizontalLine: (label: LevelLabel) => PlotlyLayout;
} {
  const toPixel = (x: number, y: number): Pixel => [
    ((x - field.x[0]) / (field.x[1] - field.x[0])) * plotSize.width,
    ((field.y[1] - y) / (field.y[1] - field.y[0])) * plotSize.height,
  ];
  const busy = field.busy.flatMap((row) => pixelsOf(row, toPixel));
  const labels: Box[] = [];
  const leaders: Pixel[] = [];

  function chosen(candidates: Iterable<Candidate>, text: string): Candidate {
    let best: { candidate: Candidate; cost: number } | undefined;
    for (const candidate of candidates) {
      const box = boxOf(candidate.middle, text);
      const leader = candidate.from === undefined ? [] : between(candidate.from, candidate.middle);
      const cost =
        candidate.cost +
        12 * countIn(box, busy) +
        (isInPlot(box) ? 0 : 1_000) +
        2_000 * labels.filter((other) => cover(box, other)).length +
        4 * near(leader, busy) +
        100 * countIn(box, leaders) +
        100 * labels.filter((other) => countIn(other, leader) > 0).length +
        100 * Math.min(1, near(leader, leaders));
      if (best === undefined || cost < best.cost) best = { candidate, cost };
    }
    if (best === undefined) throw new Error(`figures: no place was tried for the label "${text}".`);
    labels.push(boxOf(best.candidate.middle, text));
    if (best.candidate.from !== undefined)
      leaders.push(...between(best.candidate.from, best.candidate.middle));
    return best.candidate;
  }

  return {
    point({ x, y, text, colour = helpColour }) {
      const at = toPixel(x, y);
      const { middle } = chosen(aroundPoint(at, text), text);
      return {
        x,
        y,
        ax: wholePixels(middle[0] - at[0]),
        ay: wholePixels(middle[1] - at[1]),
        text: plain(text),
        font: { size: fontSize.label, color: colour },
        showarrow: true,
        arrowhead: 0,
        arrowwidth: 1,
        arrowcolor: colour,
        standoff: 6,
        ...behindText,
      };
    },
    verticalLine({ x, text }) {
      const [across] = toPixel(x, field.y[0]);
      const { middle } = chosen(alongLine(across, text), text);
      const isRight = middle[0] > across;
      return {
        x,
        y: Math.round(1000 * (1 - middle[1] / plotSize.height)) / 1000,
        yref: "paper",
        xanchor: isRight ? "left" : "right",
        xshift: isRight ? 5 : -5,
        ...lineText(text),
      };
    },
    horizontalLine({ y, text }) {
      const [, down] = toPixel(field.x[0], y);
      const { middle } = chosen(alongLevel(down, text), text);
      const isAbove = middle[1] < down;
      return {
        x: Math.round((1000 * middle[0]) / plotSize.width) / 1000,
        xref: "paper",
        y,
        yanchor: isAbove ? "bottom" : "top",
        yshift: isAbove ? 3 : -3,
        ...lineText(text),
      };
    },
  };
}

/** Whole pixels, and never the zero with a minus sign that JSON does not know. */
function wholePixels(distance: number): number {
  return Math.round(distance) + 0;
}

const lineText = (text: string): PlotlyLayout => ({
  text: plain(text),
  font: { size: fontSize.label, color: helpColour },
  showarrow: false,
  ...behindText,
});

const behindText = { bgcolor: "rgba(255,255,255,0.85)", borderpad: 1 };

interface Box {
  readonly left: number;
  readonly right: number;
  readonly top: number;
  readonly bottom: number;
}

function boxOf([across, down]: Pixel, text: string): Box {
  const halfWidth = textWidth(text, fontSize.label) / 2 + 3;
  const halfHeight = fontSize.label * 0.7 + 2;
  return {
    left: across - halfWidth,
    right: across + halfWidth,
    top: down - halfHeight,
    bottom: down + halfHeight,
  };
}

function isInPlot({ left, right, top, bottom }: Box): boolean {
  return left >= 0 && right <= plotSize.width && top >= 0 && bottom <= plotSize.height;
}

function cover(one: Box, other: Box): boolean {
  return one.left < other.right && other.left < one.right && one.top < other.bottom && other.top < one.bottom;
}

function countIn({ left, right, top, bottom }: Box, pixels: readonly Pixel[]): number {
  return pixels.filter(([x, y]) => x > left && x < right && y > top && y < bottom).length;
}

/** How many places of a leader line come within a few pixels of what is there. */
function near(leader: readonly Pixel[], there: readonly Pixel[]): number {
  return leader.filter(([x, y]) => there.some(([px, py]) => Math.hypot(x - px, y - py) < 4)).length;
}

/** Points from one place to another, a few pixels apart, both ends left out. */
function between(from: Pixel, to: Pixel): Pixel[] {
  const pieces = Math.ceil(Math.hypot(to[0] - from[0], to[1] - from[1]) / 6);
  return Array.from({ length: Math.max(0, pieces - 1) }, (_, i): Pixel => {
    const part = (i + 1) / pieces;
    return [from[0] + part * (to[0] - from[0]), from[1] + part * (to[1] - from[1])];
  });
}

/** Places around a point, near ones cheaper. */
function* aroundPoint(at: Pixel, text: string): Generator<Candidate> {
  const halfWidth = textWidth(text, fontSize.label) / 2;
  for (const far of [24, 36, 50, 66, 84, 104, 126, 150]) {
    for (let turn = 0; turn < 16; turn++) {
      const angle = Math.PI / 2 + (turn * Math.PI) / 8;
      const across = Math.cos(angle) * (far + halfWidth);
      const middle: Pixel = [at[0] + across, at[1] + Math.sin(angle) * far];
      yield { middle, from: at, cost: far };
    }
  }
}

/** Places along a vertical line, on both sides. */
function* alongLine(across: number, text: string): Generator<Candidate> {
  const aside = textWidth(text, fontSize.label) / 2 + 9;
  for (let step = 1; step < 20; step++) {
    const down = plotSize.height * (1 - step / 20);
    yield { middle: [across + aside, down], cost: step };
    yield { middle: [across - aside, down], cost: step + 1 };
  }
}

/** Places along a horizontal line, above it and below. */
function* alongLevel(down: number, text: string): Generator<Candidate> {
  const halfWidth = textWidth(text, fontSize.label) / 2 + 6;
  const aside = fontSize.label * 0.7 + 6;
  for (let step = 0; step <= 20; step++) {
    const across = halfWidth + (step / 20) * (plotSize.width - 2 * halfWidth);
    yield { middle: [across, down - aside], cost: step };
    yield { middle: [across, down + aside], cost: step + 1 };
  }
}

/** The places of a curve in pixels; long straight pieces count all along. */
function pixelsOf({ x, y }: Row, toPixel: (x: number, y: number) => Pixel): Pixel[] {
  const found: Pixel[] = [];
  for (let i = 0; i < x.length; i++) {
    const [here, there] = [x[i], y[i]];
    if (here === null || there === null) continue;
    const pixel = toPixel(here, there);
    const last = found.at(-1);
    if (last !== undefined) found.push(...between(last, pixel));
    found.push(pixel);
  }
  return found;
}
