import type { Terms } from "./design";

/** How far from exact a direction may be, as a share of its largest effect on a row. */
const exact = 1e-6;

/**
 * Says which rows a step of the coefficients separates, if the step proves that the data are separated.
 *
 * It does where it raises no row that has a failure, lowers no row that has a success, and moves at least one row: the
 * likelihood then rises along it for ever (Albert & Anderson 1984, Biometrika 71:1). `change` is the step's effect on
 * each row. Returns 1 for each row that goes to a share of 1, −1 for each that goes to 0, and 0 for the rest; undefined
 * where the step proves nothing.
 */
export function separatedRows(
  change: readonly number[],
  successes: readonly number[],
  trials: readonly number[],
): readonly number[] | undefined {
  const largest = change.reduce((most, value) => Math.max(most, Math.abs(value)), 0);
  if (!(largest > 0)) return undefined;
  const moved = change.map((value) => (Math.abs(value) > exact * largest ? Math.sign(value) : 0));
  const proven = moved.every((sign, row) => {
    if (sign === 0) return true;
    return successes[row] === (sign > 0 ? trials[row] : 0);
  });
  return proven ? moved : undefined;
}

/** Returns the sentence, without its full stop, that says where the data are separated and what to do. */
export function separationSentence(moved: readonly number[], terms: Terms): string {
  const rows = moved.filter((sign) => sign !== 0).length;
  const remedy = "merge levels, leave a term out or add rows with both outcomes";
  if (new Set(moved).size === 1) {
    return `every row has only ${outcome(moved[0])}, so there is nothing to fit; add rows with both outcomes`;
  }
  const kind = rows === moved.length ? "complete" : "quasi-complete";
  const levels = levelsMoved(moved, terms);
  const where =
    levels ?? `the terms tell ${rows} of ${moved.length} rows apart into only successes and only failures`;
  return `${where} (${kind} separation), so the fit has no finite coefficients; ${remedy}`;
}

const outcome = (sign: number): string => (sign > 0 ? "successes" : "failures");

/** Names the levels of one factor, if they are exactly the rows that moved. */
function levelsMoved(moved: readonly number[], terms: Terms): string | undefined {
  for (const [name, values] of Object.entries(terms)) {
    if (typeof values[0] !== "string") continue;
    const signs = new Map<string | number, Set<number>>();
    values.forEach((level, row) => signs.set(level, (signs.get(level) ?? new Set()).add(moved[row])));
    if ([...signs.values()].some((found) => found.size > 1)) continue;
    return [...signs]
      .map(([level, found]) => ({ level, sign: [...found][0] }))
      .filter(({ sign }) => sign !== 0)
      .map(({ level, sign }) => `every row with ${name} "${level}" has only ${outcome(sign)}`)
      .join(" and ");
  }
  return undefined;
}
