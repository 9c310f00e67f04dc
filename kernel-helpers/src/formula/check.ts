import { type InputSpec, type InputSpecs, type InputValues, refuseNumber, remedy } from "./input";

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
    const passed: unknown = given[name];
    const value = passed === undefined ? spec.default : passed;
    if (value === undefined)
      throw new RangeError(`${id}: ${name} is missing; give ${remedy(spec)}${noteOf(spec)}.`);
    if (spec.many === true) {
      if (!Array.isArray(value) || value.length === 0) {
        throw new RangeError(
          `${id}: ${name} is ${describeValue(value)}; give a list with at least one entry, ${remedy(spec)}.`,
        );
      }
      // Array.from turns the holes of a sparse list into undefined, so that they are refused too.
      checked[name] = Array.from(value, (one: unknown, at) => checkNumber(id, `${name}[${at}]`, one, spec));
    } else {
      checked[name] = checkNumber(id, name, value, spec);
    }
  }
  return checked;
}

/**
 * Checks one number known only at run time.
 *
 * Returns it. Throws a RangeError that names the caller, the number's label, its value with its unit and what is allowed.
 */
export function checkNumber(caller: string, label: string, value: unknown, spec: InputSpec): number {
  if (typeof value !== "number") {
    throw new RangeError(`${caller}: ${label} is ${describeValue(value)}; give ${remedy(spec)}.`);
  }
  const refusal = refuseNumber(value, spec);
  if (refusal !== undefined) throw new RangeError(`${caller}: ${label} ${refusal}${noteOf(spec)}.`);
  return value;
}

/** What the input means or usually is, where its name does not say enough. */
const noteOf = ({ note }: InputSpec): string => (note === undefined ? "" : ` (${note})`);

/** Names a value that is not a number, in words that fit any value: JSON can't print them all. */
function describeValue(value: unknown): string {
  if (typeof value === "string") return JSON.stringify(value);
  if (Array.isArray(value)) return value.length === 0 ? "an empty list" : "a list";
  if (typeof value === "function") return "a function";
  return typeof value === "object" && value !== null ? "an object" : String(value);
}
