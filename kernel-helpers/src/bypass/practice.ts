import { type InputSpecs, length, number, velocity } from "../formula/input";
import {
  checkRule,
  type EditedRules,
  editRules,
  type Limited,
  type RuleOfPractice,
  type RuleRow,
} from "../formula/rules";
import { memory, practice, type Source } from "../formula/source";
import type { Length, PlainNumber, Velocity, VelocityGradient } from "../quantity/dimension";
import { u } from "../quantity/u";
import { checkedNumbers } from "./numbers";

/** A bypass as far as the rules of practice ask for it; `bypass.flowThrough` gives them as `values`. */
export interface BypassValues {
  readonly shareOfTurbineFlow: PlainNumber;
  /** Entrance velocity over approach velocity. */
  readonly velocityRatio: PlainNumber;
  readonly acceleration: VelocityGradient;
  readonly entranceWidth: Length;
  readonly entranceHeight: Length;
  /** From the bed to the lowest edge of the entrance: 0 for full depth and for an opening at the bed. */
  readonly entranceAboveBed: Length;
  readonly impactVelocity: Velocity;
  readonly fallHeight: Length;
  readonly poolDepth: Length;
}

/** Which fish the bypass is for, beyond those of every bypass. */
export interface BypassFish {
  /** Checks the acceleration that fry bear; no unless given. */
  readonly fry?: boolean;
  /** Checks that the entrance reaches the bed; yes unless given. */
  readonly eel?: boolean;
}

const common = practice("rule of practice; defer to the local code");
const haro = memory(
  "Haro et al. 1998, Transactions of the American Fisheries Society 127; defer to the local code",
);

const rule = <L extends Limited>(
  what: string,
  why: string,
  [side, limit, unit]: readonly [RuleOfPractice["side"], L, RuleOfPractice["unit"]],
  whatToDo: string,
  source: Source = common,
): RuleOfPractice<L> => ({ what, why, side, limit, unit, source, whatToDo });

/** The rules of practice with their usual limits. Every one gives way to the local code; `editLimits` changes them. */
export const practiceLimits = {
  leastShare: rule<PlainNumber>(
    "share of the turbine flow, least",
    "so that fish find the bypass beside the turbines' flow",
    ["atLeast", 0.02, "share"],
    "lower the crest or open the gate",
  ),
  mostShare: rule<PlainNumber>(
    "share of the turbine flow, most",
    "beyond it fish gain little for the water",
    ["atMost", 0.1, "share"],
    "raise the crest or close the gate",
  ),
  leastVelocityRatio: rule<PlainNumber>(
    "entrance velocity over approach velocity, least",
    "so that the water does not slow down before the entrance, where fish would turn",
    ["atLeast", 1.1, "number"],
    "narrow the entrance, or give it more water",
  ),
  mostVelocityRatio: rule<PlainNumber>(
    "entrance velocity over approach velocity, most",
    "so that fish do not shy from a sudden pull; at curved bars 1.2 was found better than 1.4 (Beck et al. 2020, Water 12:3244)",
    ["atMost", 1.5, "number"],
    "widen the entrance",
  ),
  acceleration: rule<VelocityGradient>(
    "rise of the velocity into the bypass",
    "so that smolt do not turn back from it: at most 1 m/s on a metre of way",
    ["atMost", u.perS(1), "perS"],
    "lengthen the way from the entrance to the control, or shape its floor",
    haro,
  ),
  accelerationFry: rule<VelocityGradient>(
    "rise of the velocity into the bypass, fry",
    "where fry pass",
    ["atMost", u.perS(0.2), "perS"],
    "lengthen the way from the entrance to the control, or shape its floor",
  ),
  entranceWidth: rule<Length>(
    "width of the entrance",
    "so that fish enter and debris passes",
    ["atLeast", u.m(0.5), "m"],
    "widen the entrance",
  ),
  entranceHeight: rule<Length>(
    "height of the entrance",
    "so that fish enter and debris passes",
    ["atLeast", u.m(0.5), "m"],
    "heighten the entrance",
  ),
  impactVelocity: rule<Velocity>(
    "impact velocity",
    "so that fish meet the pool unhurt",
    ["atMost", u.mps(7.6), "mps"],
    "lower the outfall, or slow the water in a longer or rougher chute",
  ),
  impactVelocityInjury: rule<Velocity>(
    "impact velocity, injury",
    "above 15 to 16 m/s injury is to be expected",
    ["atMost", u.mps(15), "mps"],
    "lower the outfall before anything else",
  ),
  poolDepth: rule<Length>(
    "depth of the pool",
    "so that fish do not strike its bottom",
    ["atLeast", u.m(0.9), "m"],
    "deepen the pool, or raise a sill behind it",
  ),
  poolDepthOverFall: rule<PlainNumber>(
    "depth of the pool over the fall",
    "a higher fall needs a deeper pool: a quarter of it",
    ["atLeast", 0.25, "number"],
    "deepen the pool, or lower the outfall",
  ),
} as const;

/** The name of a rule of practice with a limit, such as `"impactVelocity"`. */
export type LimitId = keyof typeof practiceLimits;

/** Every rule of practice with its limit. */
export type PracticeLimits = EditedRules<typeof practiceLimits>;

/** One rule of practice checked against a bypass, ready for a table. */
export type PracticeRow = RuleRow<LimitId | "reachesBed">;

/**
 * Changes limits of practice, as a local code asks.
 *
 * Returns all limits with the changes made; the source says where a changed limit comes from. Throws a RangeError for a
 * rule that doesn't exist.
 *
 * @example
 * bypass.editLimits({ leastShare: 0.05 }, "local code").leastShare.limit // => 0.05
 */
export function editLimits(
  changes: { readonly [N in LimitId]?: PracticeLimits[N]["limit"] },
  from: string,
): PracticeLimits {
  return editRules("bypass.editLimits", practiceLimits, changes, from);
}

const size = () => length("b", { above: 0, unit: "m" });
const height = () => length("h", { atLeast: 0, unit: "m" });

const specs = {
  shareOfTurbineFlow: number("q", { atLeast: 0 }),
  velocityRatio: number("r_e", { atLeast: 0 }),
  // Negative where the water slows down on its way to the control.
  acceleration: number("\\Delta v/\\Delta x", {}),
  entranceWidth: size(),
  entranceHeight: size(),
  entranceAboveBed: height(),
  impactVelocity: velocity("v_i", { atLeast: 0 }),
  fallHeight: height(),
  poolDepth: height(),
} satisfies InputSpecs;

/**
 * Checks a bypass against the rules of practice.
 *
 * Returns one row a rule: the value, the limit, whether it is met, where the rule comes from and what to do. Each rule
 * gives way to the local code. The acceleration that fry bear is checked where `fry` is true, the reach to the bed unless
 * `eel` is false. Throws a RangeError for values that no bypass can have.
 *
 * @example
 * bypass.checkPractice({ shareOfTurbineFlow: 0.04, velocityRatio: 1.24, acceleration: u.perS(0.62),
 *     entranceWidth: u.m(0.55), entranceHeight: u.m(3.6), entranceAboveBed: u.m(0), impactVelocity: u.mps(8.2),
 *     fallHeight: u.m(1.1), poolDepth: u.m(1.2) }).filter((row) => !row.met).length // => 1
 */
export function checkPractice(
  values: BypassValues,
  fish: BypassFish = {},
  limits: PracticeLimits = practiceLimits,
): readonly PracticeRow[] {
  const given = checkedNumbers("bypass.checkPractice", specs, values);
  const { shareOfTurbineFlow, velocityRatio, acceleration, fallHeight, poolDepth } = given;
  const measured: Readonly<Record<LimitId, number>> = {
    leastShare: shareOfTurbineFlow,
    mostShare: shareOfTurbineFlow,
    leastVelocityRatio: velocityRatio,
    mostVelocityRatio: velocityRatio,
    acceleration,
    accelerationFry: acceleration,
    entranceWidth: given.entranceWidth,
    entranceHeight: given.entranceHeight,
    impactVelocity: given.impactVelocity,
    impactVelocityInjury: given.impactVelocity,
    poolDepth,
    poolDepthOverFall: fallHeight > 0 ? poolDepth / fallHeight : Number.POSITIVE_INFINITY,
  };
  // The keys of the record are the ids of the rules; Object.keys forgets it.
  const ids = (Object.keys(measured) as LimitId[]).filter(
    (id) => id !== "accelerationFry" || fish.fry === true,
  );
  return [
    ...ids.map((id) =>
      checkRule(
        id,
        limits[id],
        measured[id],
        Number.isFinite(measured[id]) ? undefined : "no fall: the pool stands over the outfall",
      ),
    ),
    ...(fish.eel === false ? [] : [reachesBed(given.entranceAboveBed)]),
  ];
}

/** Without a number to edit: eel search along the bed, so the entrance begins there or it does not. */
function reachesBed(aboveBed: number): PracticeRow {
  const row = checkRule(
    "reachesBed",
    {
      what: "entrance for eel",
      why: "eel search along the bed: full depth, or an opening at the bed",
      limit: u.m(0),
      unit: "m",
      source: common,
      whatToDo: "take the entrance down to the bed, or add an opening there",
    },
    aboveBed,
  );
  return {
    ...row,
    value: row.met ? "reaches the bed" : `${row.value} above the bed`,
    limit: "reaches the bed",
  };
}
