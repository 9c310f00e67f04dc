import { type InputSpec } from "../formula/input";
import { checkNumber } from "../formula/check";

type Given = Readonly<Record<string, unknown>>;

/** Refuses, in a sentence, an option that is no number of its kind or lies outside its limits. */
export function checkOptions(caller: string, given: Given, specs: Readonly<Record<string, InputSpec>>): void {
  for (const [name, spec] of Object.entries(specs)) {
    if (given[name] !== undefined) checkNumber(caller, name, given[name], spec);
  }
}

/** Throws the sentence `<caller>: <text>.` */
export function refuse(caller: string, text: string): never {
  throw new RangeError(`${caller}: ${text}.`);
}

/** The first twenty of a list of faults, and how many more there are. */
export function refuseAll(caller: string, faults: readonly string[]): void {
  if (faults.length === 0) return;
  const shown = faults.slice(0, 20);
  const more = faults.length - shown.length;
  refuse(caller, `${shown.join("; ")}${more > 0 ? `; and ${more} more` : ""}`);
}
