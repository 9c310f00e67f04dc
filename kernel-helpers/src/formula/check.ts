import { type InputSpecs, refuseNumber, remedy } from "./input";
import type { InputValues } from "./formula";

/**
 * Checks inputs known only at run time against their specifications.
 *
 * Returns every input, defaults filled in. Throws a RangeError that names the formula, the input, the value with its
 * unit and what is allowed.
 */
export function checkInputs(id: string, specs: InputSpecs, given: InputValues): InputValues {
  if (typeof given !== "object" || given === null || Array.isArray(given)) {
    throw new RangeError(`${id}: it takes one object of named inputs, { ${Object.keys(specs).join(", ")} }.`);
  }
  for (const name of Object.keys(given)) {
    if (!Object.hasOwn(specs, name)) {
      throw new RangeError(
        `${id}: it has no input "${name}"; its inputs are ${Object.keys(specs).join(", ")}.`,
      );
    }
  }
  const checked: Record<string, number | readonly number[]> = {};
  for (const [name, spec] of Object.entries(specs)) {
    const value = given[name] ?? spec.default;
    if (value === undefined) throw new RangeError(`${id}: ${name} is missing; give ${remedy(spec)}.`);
    if (spec.many === true) {
      if (!Array.isArray(value) || value.length === 0) {
        throw new RangeError(`${id}: ${name} must be a list with at least one entry, ${remedy(spec)}.`);
      }
      value.forEach((one: unknown, at) => checkOne(id, `${name}[${at}]`, one, spec));
    } else {
      checkOne(id, name, value, spec);
    }
    checked[name] = value;
  }
  return checked;
}

function checkOne(id: string, label: string, value: unknown, spec: InputSpecs[string]): void {
  if (typeof value !== "number") {
    throw new RangeError(
      `${id}: ${label} is ${JSON.stringify(value) ?? String(value)}; give ${remedy(spec)}.`,
    );
  }
  const refusal = refuseNumber(value, spec);
  if (refusal !== undefined)
    throw new RangeError(`${id}: ${label} ${refusal}${spec.note ? ` (${spec.note})` : ""}.`);
}
