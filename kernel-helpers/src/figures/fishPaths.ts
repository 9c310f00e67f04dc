import type { Flow } from "../movement/flow";
import { ending } from "../movement/ending";
import type { Limits } from "../movement/limits";
import { checkSite, type Site } from "../movement/site";
import type { Track } from "../movement/track";
import type { Length } from "../quantity/dimension";
import { layout } from "./look";
import { checkSome, listed, said } from "./numbers";
import { orderOfOutcomes, outcomeLook, outcomeTraces, type Path, thinned } from "./pathTraces";
import { metresPerPixel, placeInWords, siteNames, siteShapes } from "./sitePlan";
import { arrowsOf, speedMap, speedScaleName, speedsOn, type View } from "./speedMap";
import type { FigureSpec } from "./spec";

/** What `fishPaths` draws. */
export interface FishPathsInput {
  readonly title?: string;
  readonly site: Site;
  readonly tracks: readonly Track[];
  /** The water's velocity by place; without it no map lies under the paths. */
  readonly flow?: Flow;
  /** Distances that decide the outcome seen, as for `movement.ending`. */
  readonly limits?: Limits;
  /** Upstream end of the view; the most upstream position where not given. */
  readonly from?: Length;
  readonly caption?: string;
}

/**
 * Paths of fish in plan, to scale, over the speed of the water, with rack and bypass entrance.
 *
 * Returns a figure for `figure`. The outcome that each track shows gives its path colour, dash and the sign at its last
 * position; arrowheads on the paths point where the fish went, small grey ones where the water flows. A path is interrupted
 * where its track is split, and ends at the edge of the view. The map has holes where the flow is not known. Throws a
 * RangeError for no tracks and for a view that ends upstream of the rack.
 *
 * @example
 * fishPaths({ site: movement.site({ rackAngle: u.deg(38), channelWidth: u.m(1.5), bypassWidth: u.m(0.2) }),
 *   tracks: [movement.trackOf("A", [{ time: u.s(0), x: u.m(-1), y: u.m(0.7) },
 *     { time: u.s(2), x: u.m(1.5), y: u.m(1.4) }, { time: u.s(4), x: u.m(1.8), y: u.m(1.4) }], { gapLimit: u.s(6) })] }).alt
 * // => "Paths of 1 fish in plan: 1 bypassed. The rack stands from (0, 0) m to (1.66, 1.3) m, the bypass entrance from there to (1.66, 1.5) m."
 */
export function fishPaths(input: FishPathsInput): FigureSpec {
  const { title, site, tracks, flow, limits, caption } = input;
  checkSome("fishPaths", "tracks", tracks);
  checkSite("figures.fishPaths", site);
  const view = viewOf(input);
  const gapLimits = new Set(tracks.map(({ gapLimit }) => gapLimit));
  const paths = tracks.map((track) => ({
    outcome: ending(track, site, limits).outcome,
    pieces: track.pieces.map((piece) => thinned(piece, metresPerPixel(view.x))),
  }));
  const field = flow === undefined ? undefined : speedsOn(flow, view);
  const plan = (view.y[1] - view.y[0]) / metresPerPixel(view.x);
  // Under the ticks and the title of the axis, in shares of the plan's height.
  const scaleAt = -92 / plan;
  const seen = orderOfOutcomes.filter((outcome) => paths.some((path) => path.outcome === outcome));
  const data = [
    ...(field === undefined ? [] : [...speedMap(field, scaleAt), arrowsOf(field)]),
    ...seen.flatMap((outcome) =>
      outcomeTraces(
        outcome,
        paths.filter((path) => path.outcome === outcome),
        view,
      ),
    ),
  ];
  const axis = { showgrid: false, zeroline: false, ticks: "outside", automargin: true, showline: false };
  const named = data.filter(({ showlegend }) => showlegend !== false).length;
  const scaleName = field === undefined ? [] : speedScaleName(field, scaleAt);
  return {
    data,
    layout: layout(data, {
      title,
      x: {
        ...axis,
        title: { text: "Along the flow [m]", standoff: 6 },
        range: [...view.x],
        constrain: "domain",
      },
      y: {
        ...axis,
        title: { text: "Across [m]", standoff: 8 },
        range: [...view.y],
        scaleanchor: "x",
        constrain: "domain",
        nticks: 5,
      },
      shapes: siteShapes(site, view),
      annotations: [...siteNames(site, view), ...scaleName],
      legendForOne: true,
      more: {
        height: Math.round(
          plan +
            95 +
            26 * Math.ceil(named / 2) +
            (title === undefined ? 0 : 30) +
            (scaleName.length > 0 ? 66 : 0),
        ),
        margin: { l: 20, r: 24, t: 16, b: scaleName.length > 0 ? 116 : 12 },
      },
    }),
    alt: inWords(paths, site, field?.range),
    caption:
      caption ??
      `Paths are interrupted where a fish was not seen for more than ${listed([...gapLimits].map((limit) => said(limit, "s")))}.`,
  };
}

const lowest = (values: readonly number[]): number =>
  values.reduce((low, value) => Math.min(low, value), Infinity);
const highest = (values: readonly number[]): number =>
  values.reduce((high, value) => Math.max(high, value), -Infinity);

function viewOf({ site, tracks, from }: FishPathsInput): View {
  const ends = [site.rack.from, site.rack.to, site.bypass.from, site.bypass.to];
  const all = tracks.flatMap(({ positions }) => positions);
  const rackStart = lowest(ends.map(({ x }) => x));
  if (from !== undefined && !(Number.isFinite(from) && from <= rackStart)) {
    throw new RangeError(
      `figures.fishPaths: from is ${String(from)} m; it must be at most ${said(rackStart, "m")}, where the rack starts.`,
    );
  }
  const left = from ?? lowest([rackStart, ...all.map(({ x }) => x)]) - 0.1;
  const right = highest([...ends, ...all].map(({ x }) => x)) + 0.15;
  const [low, high] = [lowest(ends.map(({ y }) => y)), highest(ends.map(({ y }) => y))];
  // Rack and bypass are named outside the walls.
  const margin = 26 * metresPerPixel([left, right]);
  return { x: [left, right], y: [low - margin, high + margin], water: { x: [left, right], y: [low, high] } };
}

function inWords(
  paths: readonly Path[],
  { rack, bypass }: Site,
  range: readonly [number, number] | undefined,
): string {
  const counts = orderOfOutcomes.flatMap((outcome) => {
    const count = paths.filter((path) => path.outcome === outcome).length;
    return count === 0 ? [] : [`${count} ${outcomeLook[outcome].words}`];
  });
  const over = range === undefined ? "" : ` over the speed of the water, ${speedsInWords(range)}`;
  const entrance =
    bypass.from.x === rack.to.x && bypass.from.y === rack.to.y
      ? `from there to ${placeInWords(bypass.to)}`
      : `from ${placeInWords(bypass.from)} to ${placeInWords(bypass.to)}`;
  return (
    `Paths of ${paths.length} fish in plan${over}: ${listed(counts)}. ` +
    `The rack stands from ${placeInWords(rack.from)} to ${placeInWords(rack.to)}, the bypass entrance ${entrance}.`
  );
}

function speedsInWords([low, high]: readonly [number, number]): string {
  const [least, most] = [said(low, "mps"), said(high, "mps")];
  return least === most ? `${least} everywhere` : `from ${least} to ${most}`;
}
