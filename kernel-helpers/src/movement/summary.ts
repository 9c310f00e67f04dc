import type { Length, Time, Velocity } from "../quantity/dimension";
import { u } from "../quantity/u";
import type { Behaviour } from "./behaviours";
import { refuse } from "./checks";
import type { SeenOutcome } from "./ending";
import { median } from "./median";

/** The behaviour of one group of fish: counts, and medians over its fish. */
export interface BehaviourSummary {
  /** The species, or whatever the fish were grouped by. */
  readonly group: string;
  readonly fish: number;
  readonly outcomes: Readonly<Record<SeenOutcome, number>>;
  readonly medianGroundSpeed: Velocity | undefined;
  readonly medianSwimmingSpeed: Velocity | undefined;
  /** Median over fish of the share of time in which a fish headed against the flow, or with it. */
  readonly medianPositiveShare: number | undefined;
  readonly medianNegativeShare: number | undefined;
  readonly medianClosestDistance: Length | undefined;
  readonly medianApproaches: number | undefined;
  readonly medianTimeAtRack: Time | undefined;
  /** Of the fish that entered the bypass, and how many those are. */
  readonly medianContactToEntry: Time | undefined;
  readonly entries: number;
  /** Sum over the fish of the time between the pieces of their tracks. */
  readonly unseenTime: Time;
}

/**
 * A summary of behaviour by species, or by any other word that the fish are grouped by.
 *
 * Returns one row a group in the order in which groups first appear, with counts and medians over its fish. Medians of
 * few fish say little, and fish of one run are not independent: no interval is given. Throws a RangeError for a fish
 * whose group is not known.
 *
 * @example
 * movement.summary(movement.behaviours(movement.tracks([{ fishId: "A", time: u.s(0), x: u.m(-2), y: u.m(0.7) },
 *   { fishId: "A", time: u.s(2), x: u.m(-1.5), y: u.m(0.7) }], { gapLimit: u.s(6) }),
 *   { site: movement.site({ rackAngle: u.deg(38), channelWidth: u.m(1.5), bypassWidth: u.m(0.2) }) }),
 *   [{ fishId: "A", species: "roach" }])[0].outcomes.inactive // => 1
 */
export function summary(
  behaviours: readonly Behaviour[],
  fish: readonly { readonly fishId: string; readonly species: string }[],
): readonly BehaviourSummary[] {
  const species = new Map(fish.map((one) => [one.fishId, one.species]));
  const groups = new Map<string, Behaviour[]>();
  for (const behaviour of behaviours) {
    const group = species.get(behaviour.fishId);
    if (group === undefined) {
      refuse(
        "movement.summary",
        `${behaviour.fishId} has a track, but stands not among the fish; give its species, or leave its track out`,
      );
    }
    const members = groups.get(group);
    if (members === undefined) groups.set(group, [behaviour]);
    else members.push(behaviour);
  }
  return Array.from(groups, ([group, members]) => summaryOf(group, members));
}

function summaryOf(group: string, members: readonly Behaviour[]): BehaviourSummary {
  const middle = <T extends number>(of: (one: Behaviour) => T | undefined): number | undefined =>
    median(members.map(of).filter((value) => value !== undefined));
  const entered = members.filter(({ contactToEntry }) => contactToEntry !== undefined);
  const count = (outcome: SeenOutcome) => members.filter((one) => one.outcome === outcome).length;
  return {
    group,
    fish: members.length,
    outcomes: {
      bypassed: count("bypassed"),
      rackPassed: count("rackPassed"),
      refused: count("refused"),
      impinged: count("impinged"),
      inactive: count("inactive"),
    },
    medianGroundSpeed: asQuantity(
      middle((one) => one.groundSpeed),
      u.mps,
    ),
    medianSwimmingSpeed: asQuantity(
      middle((one) => one.swimmingSpeed),
      u.mps,
    ),
    medianPositiveShare: middle((one) => one.rheotaxis?.positive),
    medianNegativeShare: middle((one) => one.rheotaxis?.negative),
    medianClosestDistance: asQuantity(
      middle((one) => one.closestDistance),
      u.m,
    ),
    medianApproaches: middle((one) => one.approaches),
    medianTimeAtRack: asQuantity(
      middle((one) => one.timeAtRack),
      u.s,
    ),
    medianContactToEntry: asQuantity(
      middle((one) => one.contactToEntry),
      u.s,
    ),
    entries: entered.length,
    unseenTime: u.s(members.reduce((sum, one) => sum + one.unseenTime, 0)),
  };
}

const asQuantity = <Q>(value: number | undefined, make: (value: number) => Q): Q | undefined =>
  value === undefined ? undefined : make(value);
