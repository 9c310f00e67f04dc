import type { Length, Time } from "../quantity/dimension";
import { u } from "../quantity/u";
import { distanceToSite, endingOf, wayOut } from "./ending";
import { checkedLimits, type Limits } from "./limits";
import { checkSite, distanceTo, type Site } from "./site";
import type { Position, Track } from "./track";

/** One stay near rack or bypass. */
export interface Approach {
  readonly from: Time;
  /** When the fish left, passed, or was seen for the last time. */
  readonly to: Time;
  /** Time of it in which the fish was seen there: gaps over the track's limit are left out. */
  readonly seenTime: Time;
}

/** How near a fish came. */
export interface Closest {
  readonly fishId: string;
  /** Closest distance to rack or bypass entrance; zero for a fish that passed. */
  readonly closestDistance: Length;
  readonly closestTo: "rack" | "bypass";
}

/**
 * The closest distance of a fish to rack or bypass entrance.
 *
 * Returns the distance with what it refers to. It comes from the positions seen, so that a fish may have been nearer in a
 * gap, and the error of a position makes it a little too small.
 *
 * @example
 * movement.closestDistance(movement.trackOf("A", [{ time: u.s(0), x: u.m(-2), y: u.m(0.7) },
 *   { time: u.s(2), x: u.m(-0.6), y: u.m(0) }], { gapLimit: u.s(6) }),
 *   movement.site({ rackAngle: u.deg(38), channelWidth: u.m(1.5), bypassWidth: u.m(0.2) })).closestDistance // => 0.6 m
 */
export function closestDistance({ fishId, positions }: Track, site: Site): Closest {
  checkSite("movement.closestDistance", site);
  const out = wayOut(positions, site);
  if (out !== undefined) return { fishId, closestDistance: u.m(0), closestTo: out.through };
  const nearest = (reach: Site["rack"]) =>
    positions.reduce((least, place) => Math.min(least, distanceTo(reach, place)), Infinity);
  const [rack, bypass] = [nearest(site.rack), nearest(site.bypass)];
  return {
    fishId,
    closestDistance: u.m(Math.min(rack, bypass)),
    closestTo: rack <= bypass ? "rack" : "bypass",
  };
}

/**
 * The approaches of a fish to rack and bypass.
 *
 * Returns one entry an approach. It begins with the first position within `approachDistance` of rack or bypass and ends
 * with the first one beyond the longer `leaveDistance`, so that a fish at the edge is counted once, or with the passage. A
 * fish on both sides of a gap within `leaveDistance` is taken to have stayed, but the gap does not count as seen time.
 * Throws a RangeError for a leaveDistance below the approachDistance.
 *
 * @example
 * movement.approaches(movement.trackOf("A", [{ time: u.s(0), x: u.m(-2), y: u.m(0.7) },
 *   { time: u.s(2), x: u.m(0), y: u.m(0.2) }, { time: u.s(4), x: u.m(-2), y: u.m(0.7) }], { gapLimit: u.s(6) }),
 *   movement.site({ rackAngle: u.deg(38), channelWidth: u.m(1.5), bypassWidth: u.m(0.2) })).length // => 1
 */
export function approaches(track: Track, site: Site, limits: Limits = {}): readonly Approach[] {
  const caller = "movement.approaches";
  checkSite(caller, site);
  return approachesOf(track, site, checkedLimits(caller, limits));
}

/** As `approaches`, for a site and limits that were checked before. */
export function approachesOf(track: Track, site: Site, limits: Required<Limits>): readonly Approach[] {
  const { outcome, outcomeTime } = endingOf(track, site, limits);
  const passed = outcome === "bypassed" || outcome === "rackPassed" ? outcomeTime : undefined;
  const found: Approach[] = [];
  let stay: { from: Time; last: Position; seen: number } | undefined;
  const leave = (to: Time): void => {
    if (stay !== undefined) found.push({ from: stay.from, to, seenTime: u.s(stay.seen) });
    stay = undefined;
  };
  for (const place of track.positions) {
    const distance = distanceToSite(site, place);
    if (stay !== undefined) {
      const step = place.time - stay.last.time;
      if (step <= track.gapLimit) stay.seen += step;
      stay.last = place;
      if (distance > limits.leaveDistance) leave(place.time);
    } else if (distance <= limits.approachDistance) {
      stay = { from: place.time, last: place, seen: 0 };
    }
    if (passed !== undefined && place.time >= passed) {
      // A fish that shot through between two pictures has come to the rack, too.
      stay ??= { from: place.time, last: place, seen: 0 };
      leave(place.time);
      return found;
    }
  }
  leave(track.positions[track.positions.length - 1].time);
  return found;
}
