import type { DimensionName, PlainNumber, Quantity } from "../quantity/dimension";
import { percent } from "../quantity/format";
import { type UnitName, units } from "../quantity/unit";
import { printValue } from "./input";
import { printSource, type Source, stated } from "./source";

/** A number that a rule may limit: a quantity, or a share without unit. */
export type Limited = Quantity<DimensionName> | PlainNumber;

/** A rule of practice: a limit that the user may edit. */
export interface RuleOfPractice<L extends Limited = Limited> {
  readonly what: string;
  /** Why the limit stands, or for whom. */
  readonly why: string;
  /** The highest value that meets the rule, or the lowest where `side` says so. */
  readonly limit: L;
  /** Which side of the limit meets the rule; at most it, where nothing is said. */
  readonly side?: "atMost" | "atLeast";
  /** The unit that value and limit are shown in; "share" shows per cent, "number" a plain number. */
  readonly unit: UnitName | "share" | "number";
  readonly source: Source;
  /** What to do where the limit is not met. */
  readonly whatToDo: string;
}

/** Rules of practice by name. */
export type RulesOfPractice = Readonly<Record<string, RuleOfPractice>>;

/** The same rules, each with a limit of its own dimension. */
export type EditedRules<R extends RulesOfPractice> = {
  readonly [N in keyof R]: RuleOfPractice<R[N]["limit"]>;
};

/** One rule of practice in words, ready for a table. */
export interface RuleInWords {
  readonly rule: string;
  readonly limit: string;
  readonly why: string;
  /** The source with its provenance mark. */
  readonly from: string;
}

/** One rule of practice checked against a value, ready for a table. */
export interface RuleRow<Id extends string = string> {
  readonly id: Id;
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
 * Changes limits of rules of practice, as a local code asks.
 *
 * Returns all rules with the changes made; the source of a changed one is the reader's own words. Throws a RangeError
 * that names the caller, for a rule that doesn't exist and for a limit that is no number above 0.
 */
export function editRules<R extends RulesOfPractice>(
  caller: string,
  rules: R,
  changes: { readonly [N in keyof R]?: R[N]["limit"] },
  from: string,
): EditedRules<R> {
  const names = Object.keys(rules);
  for (const [name, value] of Object.entries<unknown>(changes)) {
    if (!names.includes(name)) {
      throw new RangeError(`${caller}: there is no rule "${name}"; the rules are ${names.join(", ")}.`);
    }
    if (typeof value !== "number" || !(value > 0) || !Number.isFinite(value)) {
      throw new RangeError(`${caller}: ${name} is ${String(value)}; it must be a quantity above 0.`);
    }
  }
  const edited = names.map((name) => {
    const changed = changes[name];
    return [
      name,
      changed === undefined ? rules[name] : { ...rules[name], limit: changed, source: stated(from) },
    ];
  });
  // Every key of the rules is there again, each with a limit of its own dimension.
  return Object.fromEntries(edited) as EditedRules<R>;
}

/**
 * Checks a value in SI against a rule of practice.
 *
 * Returns the row of a table of checks. `inWords` replaces the printed value where it is not a finite number.
 */
export function checkRule<Id extends string>(
  id: Id,
  rule: RuleOfPractice,
  value: number,
  inWords?: string,
): RuleRow<Id> {
  const least = rule.side === "atLeast";
  // A millionth of slack: 45° typed in degrees must not miss 45° by its last binary digit.
  const met = least ? value >= rule.limit * (1 - 1e-6) : value <= rule.limit * (1 + 1e-6);
  return {
    id,
    check: rule.what,
    why: rule.why,
    value: inWords ?? printed(value, rule.unit),
    limit: limitOf(rule),
    met,
    source: rule.source,
    from: printSource(rule.source),
    whatToDo: met ? "" : rule.whatToDo,
  };
}

/**
 * Rules of practice in words, without a value to check.
 *
 * Returns one row a rule, in their order: what it limits, the limit, why, and where it comes from. For `rack.practiceLimits`,
 * `bypass.practiceLimits` and what `editLimits` makes of them.
 *
 * @example
 * rulesInWords(rack.editLimits({ sweepTime: u.s(45) }, "local code"))[5].limit // => "at most 45 s"
 */
export function rulesInWords(rules: RulesOfPractice): readonly RuleInWords[] {
  return Object.values(rules).map((rule) => ({
    rule: rule.what,
    limit: limitOf(rule),
    why: rule.why,
    from: printSource(rule.source),
  }));
}

const limitOf = (rule: RuleOfPractice): string =>
  `${rule.side === "atLeast" ? "at least" : "at most"} ${printed(rule.limit, rule.unit)}`;

function printed(value: number, unit: RuleOfPractice["unit"]): string {
  if (unit === "share") return percent(value);
  return unit === "number" ? printValue(value, "number") : printValue(value, units[unit].dimension, unit);
}
