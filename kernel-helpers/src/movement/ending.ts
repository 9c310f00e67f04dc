import type { Time } from "../quantity/dimension";
import { checkedLimits, type Limits } from "./limits";
import {
  beforeBypass,
  checkSite,
  distanceTo,
  type PlainPlace,
  type Reach,
  type Site,
  upstreamOfRack,
} from "./site";
import type { Position, Track } from "./track";

/** What a track shows at its end, in the words of the trial's outcomes. */
export type SeenOutcome = "bypassed" | "rackPassed" | "refused" | "impinged" | "inactive";

/** How a track ends, and when. */
export interface Ending {
  readonly outcome: SeenOutcome;
  /** When the fish passed, or came to the rack for the last time; undefined for refused and inactive fish. */
  readonly outcomeTime: Time | undefined;
  /** The last picture. */
  readonly lastSeen: Time;
  /** True where a fish passed in a gap over the track's limit: before and behind it was seen, on the way it was not. */
  readonly passedUnseen: boolean;
}

/** A way across the line of rack or bypass, from one position to the next. */
interface Crossing {
  readonly through: "rack" | "bypass";
  readonly downstream: boolean;
  /** Place in the list of positions of the first one behind the line. */
  readonly index: number;
}

/**
 * How a track ends: what the cameras saw, whatever the record says.
 *
 * Returns `bypassed` or `rackPassed` where the track crosses the line of entrance or rack, does not come back, and was
 * seen at least `passedBy` beyond it, `impinged` where the last position lies within `touchDistance` of the rack,
 * `inactive` where no position came within `activeDistance` of rack or bypass, `refused` otherwise. A fish that was lost
 * at the rack and one that is held there look alike. A passage in a gap is taken to lie on the straight way. The track starts upstream.
 *
 * @example
 * movement.ending(movement.trackOf("A", [{ time: u.s(0), x: u.m(-1), y: u.m(0.7) },
 *   { time: u.s(2), x: u.m(1.5), y: u.m(1.4) }, { time: u.s(4), x: u.m(1.8), y: u.m(1.4) }], { gapLimit: u.s(6) }),
 *   movement.site({ rackAngle: u.deg(38), channelWidth: u.m(1.5), bypassWidth: u.m(0.2) })).outcome // => "bypassed"
 */
export function ending(track: Track, site: Site, limits: Limits = {}): Ending {
  const caller = "movement.ending";
  checkSite(caller, site);
  return endingOf(track, site, checkedLimits(caller, limits));
}

/** As `ending`, for a site and limits that were checked before. */
export function endingOf({ positions, gapLimit }: Track, site: Site, limits: Required<Limits>): Ending {
  const lastSeen = positions[positions.length - 1].time;
  const out = wayOut(positions, site);
  if (out !== undefined && wentBeyond(positions.slice(out.index), site, out, limits.passedBy)) {
    const outcome = out.through === "bypass" ? "bypassed" : "rackPassed";
    const [before, behind] = [positions[out.index - 1].time, positions[out.index].time];
    return { outcome, outcomeTime: behind, lastSeen, passedUnseen: behind - before > gapLimit };
  }
  const farFromRack = positions.findLastIndex((place) => distanceTo(site.rack, place) > limits.touchDistance);
  if (farFromRack < positions.length - 1) {
    return {
      outcome: "impinged",
      outcomeTime: positions[farFromRack + 1].time,
      lastSeen,
      passedUnseen: false,
    };
  }
  const active = positions.some((place) => distanceToSite(site, place) <= limits.activeDistance);
  return { outcome: active ? "refused" : "inactive", outcomeTime: undefined, lastSeen, passedUnseen: false };
}

/** Returns the distance in metres from a place to rack or bypass, whichever is nearer. */
export function distanceToSite({ rack, bypass }: Site, place: PlainPlace): number {
  return Math.min(distanceTo(rack, place), distanceTo(bypass, place));
}

/** The way out that a track took for good: its last crossing downstream that no crossing back followed. */
export function wayOut(positions: readonly Position[], site: Site): Crossing | undefined {
  let out: Crossing | undefined;
  for (const crossing of crossings(positions, site)) {
    if (out === undefined) out = crossing.downstream ? crossing : undefined;
    else if (!crossing.downstream && crossing.through === out.through) out = undefined;
  }
  return out;
}

/** Every crossing of the lines of rack and bypass, in order. */
function crossings(positions: readonly Position[], site: Site): readonly Crossing[] {
  const lines = [
    { through: "rack" as const, reach: site.rack, other: site.bypass, before: upstreamOfRack(site) },
    { through: "bypass" as const, reach: site.bypass, other: site.rack, before: beforeBypass(site) },
  ];
  return positions.slice(1).flatMap((to, at) => {
    const from = positions[at];
    const crossed = lines.flatMap(({ through, reach, other, before }) => {
      const [here, there] = [before(from), before(to)];
      if (here > 0 === there > 0) return [];
      const share = here / (here - there);
      const place = { x: from.x + share * (to.x - from.x), y: from.y + share * (to.y - from.y) };
      if (!meets(reach, other, place)) return [];
      const crossing: Crossing = { through, downstream: there <= 0, index: at + 1 };
      return [{ crossing, share }];
    });
    return crossed.toSorted((one, another) => one.share - another.share).map(({ crossing }) => crossing);
  });
}

/**
 * A place past the wall's end of a line by less than this, in metres, still meets it: walls and positions are not exact.
 * At the corner between rack and bypass it does not, or one way would count as both.
 */
const besideWall = 0.02;

function meets({ from, to }: Reach, other: Reach, place: PlainPlace): boolean {
  const squared = (to.x - from.x) ** 2 + (to.y - from.y) ** 2;
  const along = ((place.x - from.x) * (to.x - from.x) + (place.y - from.y) * (to.y - from.y)) / squared;
  if (along >= 0 && along <= 1) return true;
  const past = (along < 0 ? -along : along - 1) * Math.sqrt(squared);
  const [end, farEnd] = along < 0 ? [from, to] : [to, from];
  return past <= besideWall && distanceTo(other, end) >= distanceTo(other, farEnd);
}

function wentBeyond(
  after: readonly Position[],
  site: Site,
  { through }: Crossing,
  passedBy: number,
): boolean {
  const before = through === "rack" ? upstreamOfRack(site) : beforeBypass(site);
  return after.some((place) => before(place) <= -passedBy);
}
