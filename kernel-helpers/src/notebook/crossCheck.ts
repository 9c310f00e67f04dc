import { printValue } from "../formula/input";
import { formatNumber } from "../quantity/format";
import { type UnitName, units } from "../quantity/unit";
import { emitMarkdown, escapeMarkdown } from "./emit";

/** A tolerance in full: 0.0001, where a power of ten would puzzle. */
const share = new Intl.NumberFormat("en", { maximumSignificantDigits: 3, useGrouping: false });

/** A second way to the same number. */
export interface Route {
  /** How the second number was reached: "by hand, 17 / sin 38°", "published, …", "limit case …". */
  readonly by: string;
  /** The second number, in SI as the first. */
  readonly gives: number;
  /** How far the two may lie apart, relative to the second; 1e-6 unless told otherwise. */
  readonly within?: number;
  /** The unit both numbers are shown in; none for plain numbers. */
  readonly unit?: UnitName;
}

/**
 * Compares a number with an independent route to it and shows the verdict.
 *
 * Throws an Error that gives both numbers where they lie further apart than allowed, so that a run can't go on
 * with a wrong key number.
 *
 * @example
 * crossCheck("Rack length", length, { by: "by hand, 17 / sin 38°", gives: 27.613, within: 1e-4 })
 */
export function crossCheck(what: string, value: number, { by, gives, within = 1e-6, unit }: Route): void {
  const apart = Math.abs(value - gives);
  const agrees = apart <= within * Math.max(Math.abs(gives), Number.MIN_VALUE);
  const print = (number: number): string =>
    unit === undefined ? formatNumber(number, 6) : printValue(number, units[unit].dimension, unit, 6);
  const numbers = `${print(value)} against ${print(gives)}`;
  if (!agrees) {
    throw new Error(
      `crossCheck: ${what} does not agree: ${numbers} (${by}); they may lie ${share.format(100 * within)} % apart. ` +
        "After an edit of an input, the second route must use the new input too.",
    );
  }
  emitMarkdown(
    `✓ ${escapeMarkdown(what)}: ${numbers}, ${escapeMarkdown(by)}.`,
    `✓ ${what}: ${numbers}, ${by}.`,
  );
}
