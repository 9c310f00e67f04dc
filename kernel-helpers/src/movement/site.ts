import { angle, length } from "../formula/input";
import type { Angle, Length } from "../quantity/dimension";
import { u } from "../quantity/u";
import { checkOptions, refuse } from "./checks";

/** A place in plan: x along the flow, y across it. */
export interface Place {
  readonly x: Length;
  readonly y: Length;
}

/** A straight line in plan with two ends. */
export interface Reach {
  readonly from: Place;
  readonly to: Place;
}

/** Where rack and bypass entrance stand in plan. The water flows along x. */
export interface Site {
  /** From the rack's upstream end to the bypass. */
  readonly rack: Reach;
  /** The line across which a fish enters the bypass. */
  readonly bypass: Reach;
}

/**
 * Rack and bypass of a channel in plan: the rack stands from (0, 0) at an angle to the flow, and the bypass entrance fills
 * the width that is left at its downstream end.
 *
 * Returns the two lines. A rack or a bypass that stands otherwise can be given by its ends,
 * `{ rack: { from, to }, bypass: { from, to } }`, wherever a site is asked for. Throws a RangeError for an angle that is
 * not above 0° and at most 90° and for a bypass as wide as the channel.
 *
 * @example
 * movement.site({ rackAngle: u.deg(38), channelWidth: u.m(1.5), bypassWidth: u.m(0.2) }).rack.to.x // => 1.664 m
 */
export function site(input: {
  readonly rackAngle: Angle;
  readonly channelWidth: Length;
  readonly bypassWidth: Length;
}): Site {
  const caller = "movement.site";
  const { rackAngle, channelWidth, bypassWidth } = input;
  checkOptions(
    caller,
    { rackAngle: rackAngle ?? null, channelWidth: channelWidth ?? null, bypassWidth: bypassWidth ?? null },
    {
      rackAngle: angle("\\alpha", { above: 0, atMost: u.deg(90) }),
      channelWidth: length("B", { above: 0 }),
      bypassWidth: length("b_B", { above: 0 }),
    },
  );
  if (bypassWidth >= channelWidth) {
    refuse(
      caller,
      `bypassWidth is ${bypassWidth} m; it must be below the channel's width of ${channelWidth} m, or no width is left for the rack`,
    );
  }
  const across = u.m(channelWidth - bypassWidth);
  // The tangent of 90° is finite in floating point; the rack then ends where it starts, along the flow.
  const end = u.m(rackAngle === u.deg(90) ? 0 : across / Math.tan(rackAngle));
  const corner = { x: end, y: across };
  return {
    rack: { from: { x: u.m(0), y: u.m(0) }, to: corner },
    bypass: { from: corner, to: { x: end, y: channelWidth } },
  };
}

/** A place as plain numbers in metres. */
export interface PlainPlace {
  readonly x: number;
  readonly y: number;
}

/** Returns the distance in metres from a place to a line with two ends. */
export function distanceTo({ from, to }: Reach, { x, y }: PlainPlace): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const share = ((x - from.x) * dx + (y - from.y) * dy) / (dx * dx + dy * dy);
  const nearest = Math.min(Math.max(share, 0), 1);
  return Math.hypot(x - from.x - nearest * dx, y - from.y - nearest * dy);
}

/** Returns the distance from a line without ends, positive on the left of the way from its first to its second end. */
export function sideOf({ from, to }: Reach, { x, y }: PlainPlace): number {
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  return (dx * (y - from.y) - dy * (x - from.x)) / Math.hypot(dx, dy);
}

/** Refuses a site whose lines have no length or leave no upstream side. */
export function checkSite(caller: string, { rack, bypass }: Site): void {
  for (const [name, { from, to }] of Object.entries({ rack, bypass })) {
    const ends = [from.x, from.y, to.x, to.y];
    if (!ends.every((value) => typeof value === "number" && Number.isFinite(value))) {
      refuse(caller, `the ends of the ${name} are ${ends.join(", ")}; they must be finite numbers`);
    }
    if (Math.hypot(to.x - from.x, to.y - from.y) === 0) {
      refuse(caller, `the ${name} starts and ends at (${from.x}, ${from.y}); its ends must lie apart`);
    }
  }
  if (rack.from.y === rack.to.y) {
    refuse(caller, `the rack runs along the flow from (${rack.from.x}, ${rack.from.y}); it must cross it`);
  }
  if (bypass.from.y === bypass.to.y && Math.abs(sideOf(bypass, rack.from)) < 1e-9) {
    refuse(
      caller,
      `the bypass runs along the flow in one line with the rack's start at (${rack.from.x}, ${rack.from.y}); a fish could not enter it`,
    );
  }
}

/** Returns a function that gives the distance upstream of the rack's line, negative beyond it. */
export function upstreamOfRack({ rack }: Site): (place: PlainPlace) => number {
  const sign = flowSide(rack);
  return (place) => sign * sideOf(rack, place);
}

/** Returns a function that gives the distance before the bypass entrance's line, negative inside. */
export function beforeBypass({ rack, bypass }: Site): (place: PlainPlace) => number {
  // An entrance in a wall has no upstream side: there the rack's start tells the water from the bypass.
  const sign = bypass.from.y === bypass.to.y ? Math.sign(sideOf(bypass, rack.from)) : flowSide(bypass);
  return (place) => sign * sideOf(bypass, place);
}

/** The sign of `sideOf` on the side that the flow comes from: that of small x. */
const flowSide = ({ from, to }: Reach): number => (to.y > from.y ? 1 : -1);
