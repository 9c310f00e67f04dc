import type { SeenOutcome } from "../movement/ending";
import type { Position } from "../movement/track";
import { colour, line, points, seriesName } from "./look";
import type { View } from "./speedMap";
import type { PlotlyTrace } from "./spec";

/** The outcomes in the order of the legend. */
export const orderOfOutcomes = ["bypassed", "rackPassed", "refused", "impinged", "inactive"] as const;

/** How an outcome is drawn: a place in the look, which gives colour and marker; its dash; its words. */
interface OutcomeLook {
  readonly index: number;
  readonly dash: string;
  readonly width: number;
  readonly words: string;
}

/** How each outcome is drawn: short dashes and dots still read on a way that turns all the time. */
export const outcomeLook: Readonly<Record<SeenOutcome, OutcomeLook>> = {
  bypassed: { index: 0, dash: "solid", width: 3, words: "bypassed" },
  rackPassed: { index: 1, dash: "dash", width: 2.5, words: "passed through the rack" },
  refused: { index: 3, dash: "dot", width: 2.5, words: "refused" },
  impinged: { index: 5, dash: "dashdot", width: 2.5, words: "impinged" },
  inactive: { index: 4, dash: "solid", width: 1.5, words: "inactive" },
};

/** The path of one fish with what its track shows. */
export interface Path {
  readonly outcome: SeenOutcome;
  readonly pieces: readonly (readonly Position[])[];
}

/** The lines of an outcome, arrowheads on them, signs at their ends, and an entry of the legend for all of it. */
export function outcomeTraces(outcome: SeenOutcome, paths: readonly Path[], view: View): PlotlyTrace[] {
  const { index, dash, width, words } = outcomeLook[outcome];
  const drawn = paths.flatMap(({ pieces }) => pieces.flatMap((piece) => inView(piece, view)));
  const ends = paths
    .map(({ pieces }) => pieces[pieces.length - 1])
    .map((piece) => piece[piece.length - 1])
    .filter(({ x }) => x >= view.x[0]);
  const heads = drawn.flatMap((piece) => arrowhead(piece));
  const sign = points(index, 13).marker;
  const lines = { ...line(index), line: { color: colour(index), dash, width } };
  return [
    ...(drawn.length === 0 ? [] : [{ ...lines, ...quiet, ...joined(drawn) }]),
    ...(heads.length === 0 ? [] : [arrowheads(heads, colour(index))]),
    {
      ...points(index, 13),
      ...quiet,
      x: ends.length === 0 ? [null] : ends.map(({ x }) => rounded(x)),
      y: ends.length === 0 ? [null] : ends.map(({ y }) => rounded(y)),
    },
    {
      ...lines,
      mode: "lines+markers",
      marker: sign,
      name: seriesName(`${words} (${paths.length}${drawn.length === 0 ? ", outside the view" : ""})`),
      x: [null],
      y: [null],
    },
  ];
}

const quiet = { showlegend: false, hoverinfo: "skip" } as const;

interface Arrowhead {
  readonly x: number;
  readonly y: number;
  readonly angle: number;
}

function arrowheads(heads: readonly Arrowhead[], color: string): PlotlyTrace {
  return {
    type: "scatter",
    mode: "markers",
    ...quiet,
    x: heads.map(({ x }) => rounded(x)),
    y: heads.map(({ y }) => rounded(y)),
    marker: { symbol: "arrow", size: 13, color, angle: heads.map(({ angle }) => Math.round(angle)) },
  };
}

/** The parts of a piece within the view, each with the neighbours to which its line runs out of it. */
function inView(piece: readonly Position[], view: View): (readonly Position[])[] {
  const parts: Position[][] = [];
  let open = false;
  piece.forEach((place, at) => {
    const near = [at - 1, at, at + 1].some((i) => i >= 0 && i < piece.length && piece[i].x >= view.x[0]);
    if (near && !open) parts.push([]);
    if (near) parts[parts.length - 1].push(place);
    open = near;
  });
  return parts;
}

function joined(pieces: readonly (readonly Position[])[]): { x: (number | null)[]; y: (number | null)[] } {
  const row = (coordinate: "x" | "y") =>
    pieces.flatMap((piece, at) => [
      ...(at === 0 ? [] : [null]),
      ...piece.map((place) => rounded(place[coordinate])),
    ]);
  return { x: row("x"), y: row("y") };
}

/** An arrowhead half-way along a piece, where it is long enough to have a direction; degrees clockwise from up. */
function arrowhead(piece: readonly Position[]): Arrowhead[] {
  const ways = piece.slice(1).map((to, at) => Math.hypot(to.x - piece[at].x, to.y - piece[at].y));
  const whole = ways.reduce((sum, way) => sum + way, 0);
  if (whole < 0.4) return [];
  let passed = 0;
  for (const [at, way] of ways.entries()) {
    if (passed + way >= whole / 2 && way > 0) {
      const [from, to] = [piece[at], piece[at + 1]];
      const share = (whole / 2 - passed) / way;
      const angle = (180 / Math.PI) * Math.atan2(to.x - from.x, to.y - from.y);
      return [{ x: from.x + share * (to.x - from.x), y: from.y + share * (to.y - from.y), angle }];
    }
    passed += way;
  }
  return [];
}

/** A piece without the positions that lie within the tolerance of the line through those kept (Douglas and Peucker). */
export function thinned(piece: readonly Position[], tolerance: number): readonly Position[] {
  if (piece.length < 3) return piece;
  const [first, last] = [piece[0], piece[piece.length - 1]];
  const [dx, dy] = [last.x - first.x, last.y - first.y];
  const squared = dx * dx + dy * dy;
  const off = ({ x, y }: Position): number => {
    const share = squared === 0 ? 0 : ((x - first.x) * dx + (y - first.y) * dy) / squared;
    const within = Math.min(1, Math.max(0, share));
    return Math.hypot(x - first.x - within * dx, y - first.y - within * dy);
  };
  let farthest = 1;
  for (let at = 2; at < piece.length - 1; at++) if (off(piece[at]) > off(piece[farthest])) farthest = at;
  if (off(piece[farthest]) <= tolerance) return [first, last];
  return [
    ...thinned(piece.slice(0, farthest + 1), tolerance).slice(0, -1),
    ...thinned(piece.slice(farthest), tolerance),
  ];
}

/** Coordinates to the millimetre: no picture shows more. */
const rounded = (value: number): number => Math.round(1000 * value) / 1000;
