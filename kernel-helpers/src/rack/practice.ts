import { checkInputs } from "../formula/check";
import { type InputSpecs, length, velocity } from "../formula/input";
import {
  checkRule,
  type EditedRules,
  editRules,
  type Limited,
  type RuleOfPractice,
  type RuleRow,
} from "../formula/rules";
import { practice } from "../formula/source";
import type { Angle, Length, Time, Velocity } from "../quantity/dimension";
import { u } from "../quantity/u";
import type { UnitName } from "../quantity/unit";
import { angleInPlan, angleToHorizontal } from "./angles";
import { sweepTime } from "./sweep";

/** The layout of a rack as far as the rules of practice ask for it. */
export interface PracticeLayout {
  readonly channelWidth: Length;
  /** In plan, between rack and flow; 90° is square to the flow. */
  readonly rackAngle: Angle;
  /** To the horizontal, only where the rack leans to guide fish up its slope; an upright rack leaves it out. */
  readonly inclination?: Angle;
  readonly approachVelocity: Velocity;
  readonly clearSpacing: Length;
}

/** A rule of practice: a limit that the user may edit. */
export type PracticeLimit<L extends Limited = Limited> = RuleOfPractice<L>;

const common = practice("rule of practice; defer to the local code");

const limit = <L extends Limited>(
  what: string,
  why: string,
  value: L,
  unit: UnitName,
  whatToDo: string,
): PracticeLimit<L> => ({ what, why, limit: value, unit, source: common, whatToDo });

/** Two rules pull the angle two ways below 45°, and a reader who follows one must know of the other. */
const lowerAngle = "a lower angle helps here, but below 45° it lengthens the sweep";

/** The rules of practice with their usual limits. Every one gives way to the local code; `editLimits` changes them. */
export const practiceLimits = {
  rackAngle: limit<Angle>(
    "rack angle in plan",
    "so that the velocity along the rack is at least that square to it",
    u.deg(45),
    "deg",
    "turn the rack further into the flow, or lean it instead",
  ),
  inclination: limit<Angle>(
    "inclination of a leaning rack",
    "so that the velocity up its slope is at least twice that square to it",
    u.deg(26),
    "deg",
    "lay the rack flatter",
  ),
  normalVelocity: limit<Velocity>(
    "normal velocity",
    "in general",
    u.mps(0.5),
    "mps",
    `enlarge the rack; ${lowerAngle}`,
  ),
  normalVelocityWeakSwimmers: limit<Velocity>(
    "normal velocity, weak swimmers",
    "for weak swimmers and small eel, the upper figure in use",
    u.mps(0.3),
    "mps",
    `enlarge the rack, or reduce the discharge while they move; ${lowerAngle}`,
  ),
  normalVelocityWeakSwimmersStrict: limit<Velocity>(
    "normal velocity, weak swimmers, strict",
    "for weak swimmers and small eel, the lower figure in use",
    u.mps(0.25),
    "mps",
    `enlarge the rack, or reduce the discharge while they move; ${lowerAngle}`,
  ),
  sweepTime: limit<Time>(
    "sweep time",
    "so that fish reach the bypass before they tire",
    u.s(60),
    "s",
    "add a second bypass entrance; turning the rack towards 45° shortens the sweep, but from below it raises the normal velocity",
  ),
  clearSpacingSmolt: limit<Length>(
    "clear spacing, smolt",
    "so that smolt are blocked by their body or guided",
    u.mm(10),
    "mm",
    "choose a smaller clear spacing, or show by trial that smolt are guided",
  ),
  clearSpacingSilverEel: limit<Length>(
    "clear spacing, silver eel",
    "so that silver eel are blocked by their body or guided",
    u.mm(15),
    "mm",
    "choose a smaller clear spacing, or show by trial that eel are guided",
  ),
} as const;

/** The name of a rule of practice, such as `"sweepTime"`. */
export type LimitId = keyof typeof practiceLimits;

/** Every rule of practice with its limit. */
export type PracticeLimits = EditedRules<typeof practiceLimits>;

/** One rule of practice checked against a layout, ready for a table. */
export type PracticeRow = RuleRow<LimitId>;

/**
 * Changes limits of practice, as a local code asks.
 *
 * Returns all limits with the changes made; the source says where a changed limit comes from. Throws a RangeError for a
 * rule that doesn't exist.
 *
 * @example
 * rack.editLimits({ sweepTime: u.s(45) }, "local code").sweepTime.limit // => 45
 */
export function editLimits(
  changes: { readonly [N in LimitId]?: PracticeLimits[N]["limit"] },
  from: string,
): PracticeLimits {
  return editRules("rack.editLimits", practiceLimits, changes, from);
}

const specs = {
  channelWidth: length("B", { above: 0 }),
  rackAngle: angleInPlan({}),
  inclination: angleToHorizontal({ default: u.deg(90) }),
  approachVelocity: velocity("U", { above: 0 }),
  clearSpacing: length("b", { above: 0, unit: "mm" }),
} satisfies InputSpecs;

/**
 * Checks a rack's layout against the rules of practice.
 *
 * Returns one row a rule: the value, the limit, whether it is met, where the rule comes from and what to do. Each rule
 * gives way to the local code. The inclination is checked only where it is given. Throws a RangeError for a layout that
 * can't be built.
 *
 * @example
 * rack.checkPractice({ channelWidth: u.m(17), rackAngle: u.deg(38), approachVelocity: u.mps(0.56),
 *                      clearSpacing: u.mm(18) }).filter((row) => row.met).length // => 2
 */
export function checkPractice(
  layout: PracticeLayout,
  limits: PracticeLimits = practiceLimits,
): readonly PracticeRow[] {
  // A boundary: after checkInputs every name holds one number.
  const bare = checkInputs("rack.checkPractice", specs, { ...layout }) as Readonly<
    Record<keyof typeof specs, number>
  >;
  const { channelWidth, rackAngle, inclination, approachVelocity } = bare;
  const leans = layout.inclination !== undefined;
  const square = rackAngle >= u.deg(90);
  const normal = approachVelocity * Math.sin(rackAngle) * Math.sin(inclination);
  const values: Readonly<Record<LimitId, number>> = {
    rackAngle,
    inclination,
    normalVelocity: normal,
    normalVelocityWeakSwimmers: normal,
    normalVelocityWeakSwimmersStrict: normal,
    sweepTime: square
      ? Number.POSITIVE_INFINITY
      : sweepTime.evaluate({ channelWidth, rackAngle, approachVelocity }),
    clearSpacingSmolt: bare.clearSpacing,
    clearSpacingSilverEel: bare.clearSpacing,
  };
  // A rack that guides fish up its slope may stand square to the flow; its angle in plan and the way along it then say nothing.
  const ids = (Object.keys(values) as LimitId[]).filter((id) =>
    id === "inclination" ? leans : !(leans && square && (id === "rackAngle" || id === "sweepTime")),
  );
  return ids.map((id) =>
    checkRule(
      id,
      limits[id],
      values[id],
      Number.isFinite(values[id]) ? undefined : "never: nothing sweeps along the rack",
    ),
  );
}
