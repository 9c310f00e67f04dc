import { checkInputs } from "../formula/check";
import { type InputSpecs, length, printValue, velocity } from "../formula/input";
import { practice, printSource, type Source, stated } from "../formula/source";
import type { Angle, Length, Quantity, Time, Velocity } from "../quantity/dimension";
import { u } from "../quantity/u";
import { type UnitName, units } from "../quantity/unit";
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

type Dimensioned = Quantity<"angle"> | Quantity<"velocity"> | Quantity<"time"> | Quantity<"length">;

/** A rule of practice: a limit that the user may edit. */
export interface PracticeLimit<L extends Dimensioned = Dimensioned> {
  readonly what: string;
  /** Why the limit stands, or for whom. */
  readonly why: string;
  /** The highest value that meets the rule. */
  readonly limit: L;
  /** The unit that value and limit are shown in. */
  readonly unit: UnitName;
  readonly source: Source;
  /** What to do where the limit is not met. */
  readonly whatToDo: string;
}

const common = practice("rule of practice; defer to the local code");

const limit = <L extends Dimensioned>(
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
export type PracticeLimits = { readonly [N in LimitId]: PracticeLimit<(typeof practiceLimits)[N]["limit"]> };

/** One rule of practice checked against a layout, ready for a table. */
export interface PracticeRow {
  readonly id: LimitId;
  readonly check: string;
  readonly why: string;
  readonly value: string;
  readonly limit: string;
  readonly met: boolean;
  readonly source: Source;
  /** The source with its provenance mark, in words. */
  readonly from: string;
  /** Empty where the limit is met. */
  readonly whatToDo: string;
}

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
  const names = Object.keys(practiceLimits);
  for (const [name, value] of Object.entries(changes)) {
    if (!names.includes(name)) {
      throw new RangeError(`rack.editLimits: there is no rule "${name}"; the rules are ${names.join(", ")}.`);
    }
    if (typeof value !== "number" || !(value > 0) || !Number.isFinite(value)) {
      throw new RangeError(`rack.editLimits: ${name} is ${String(value)}; it must be a quantity above 0.`);
    }
  }
  const edited = Object.entries(practiceLimits).map(([name, rule]) => {
    // A boundary: Object.entries forgets that name is one of LimitId.
    const changed = changes[name as LimitId];
    return [name, changed === undefined ? rule : { ...rule, limit: changed, source: stated(from) }];
  });
  // Every key of practiceLimits is there again, each with a limit of its own dimension.
  return Object.fromEntries(edited) as PracticeLimits;
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
  return ids.map((id) => row(id, limits[id], values[id]));
}

function row(id: LimitId, rule: PracticeLimit, value: number): PracticeRow {
  const kind = units[rule.unit].dimension;
  // A millionth of slack: 45° typed in degrees must not miss 45° by its last binary digit.
  const met = value <= rule.limit * (1 + 1e-6);
  return {
    id,
    check: rule.what,
    why: rule.why,
    value: Number.isFinite(value)
      ? printValue(value, kind, rule.unit)
      : "never: nothing sweeps along the rack",
    limit: `at most ${printValue(rule.limit, kind, rule.unit)}`,
    met,
    source: rule.source,
    from: printSource(rule.source),
    whatToDo: met ? "" : rule.whatToDo,
  };
}
