import type { Length } from "../quantity/dimension";
import { format } from "../quantity/format";
import { checkNumber, refuse } from "../statistics/checks";
import { checkFish, type TrialFish } from "./fish";
import type { Outcome } from "./outcome";

/** A fish with the least distance to rack or bypass at which it was seen, where it was followed. */
export interface FollowedFish extends TrialFish {
  readonly closestDistance?: Length | undefined;
}

/** A fish whose outcome another distance changes. */
export interface ChangedOutcome {
  /** Its place among the fish that were given. */
  readonly index: number;
  readonly runId: string;
  readonly closestDistance: Length;
  readonly was: Outcome;
  readonly now: Outcome;
}

/** Fish with outcomes that a stated distance decides. */
export interface DecidedActivity<Fish> {
  readonly distance: Length;
  /** How the activity of these fish was decided, in words. */
  readonly activity: string;
  /** The fish in their order, outcomes as decided. */
  readonly fish: readonly Fish[];
  readonly changed: readonly ChangedOutcome[];
  /** Refused and inactive fish without a closest distance: they keep the outcome that was recorded. */
  readonly asRecorded: number;
}

/**
 * Decides anew which fish were active, from the closest distance at which each was seen to rack or bypass.
 *
 * A fish that took neither way is refused where it came within the distance, and inactive where it did not. One that
 * entered the bypass, passed through the rack or was impinged was there, whatever its track says: it stays as it is. Fish
 * without a closest distance stay as they were recorded, and are counted. Throws a RangeError for a distance that is not
 * above 0, a negative closest distance, and where no fish has one.
 *
 * @example
 * trial.decideActivity([{ runId: "R1", outcome: "refused", closestDistance: u.m(0.8) }],
 *   { distance: u.m(0.5) }).fish[0].outcome // => "inactive"
 */
export function decideActivity<Fish extends FollowedFish>(
  fish: readonly Fish[],
  { distance }: { readonly distance: Length },
): DecidedActivity<Fish> {
  const where = "trial.decideActivity";
  checkFish(where, fish);
  checkNumber(where, "distance", distance, { above: 0 });
  const followed = fish.filter(({ closestDistance }) => closestDistance !== undefined).length;
  if (followed === 0) {
    refuse(
      where,
      "no fish has a closestDistance, so a distance can't decide anything; the outcomes hold for the distance of whoever recorded them",
    );
  }
  const decided = fish.map((one, at) => {
    const { closestDistance, outcome } = one;
    if (closestDistance === undefined) return one;
    checkNumber(where, `closestDistance of fish[${at}]`, closestDistance, { atLeast: 0 });
    if (outcome !== "refused" && outcome !== "inactive") return one;
    const now: Outcome = closestDistance <= distance ? "refused" : "inactive";
    return now === outcome ? one : { ...one, outcome: now };
  });
  const asRecorded = fish.filter(
    ({ outcome, closestDistance }) =>
      closestDistance === undefined && (outcome === "refused" || outcome === "inactive"),
  ).length;
  return {
    distance,
    activity: activityInWords(distance, asRecorded),
    fish: decided,
    changed: fish.flatMap(({ runId, outcome, closestDistance }, index) =>
      closestDistance === undefined || decided[index].outcome === outcome
        ? []
        : [{ index, runId, closestDistance, was: outcome, now: decided[index].outcome }],
    ),
    asRecorded,
  };
}

function activityInWords(distance: Length, asRecorded: number): string {
  const decided = `active: came within ${format(distance, "m")} of rack or bypass, by the closest distance at which it was seen`;
  if (asRecorded === 0) return decided;
  return `${decided}; ${asRecorded} refused or inactive fish without one as they were recorded`;
}

/** What is known of the distance where outcomes are taken as they were recorded. */
export function recordedActivity(recordedWithin: Length | undefined): string {
  return recordedWithin === undefined
    ? "active: as recorded, at a distance that is not stated"
    : `active: as recorded, within ${format(recordedWithin, "m")} of rack or bypass`;
}
