import type { Length } from "../quantity/dimension";
import { format } from "../quantity/format";
import { u } from "../quantity/u";
import { checkLength } from "./sizeClass";

const mostClasses = 100_000;

/**
 * Lengths from the shortest to the longest, one step apart.
 *
 * Returns a list of lengths that starts at the shortest and ends at the longest, or at the last step before it. Throws
 * a RangeError where the step is not above 0, the longest is shorter than the shortest, or the list would have more
 * than 100 000 entries.
 *
 * @example
 * survival.lengthClasses({ shortest: u.mm(50), longest: u.mm(600), step: u.mm(5) }).length // => 111
 */
export function lengthClasses({
  shortest,
  longest,
  step,
}: {
  readonly shortest: Length;
  readonly longest: Length;
  readonly step: Length;
}): readonly Length[] {
  checkRange("survival.lengthClasses", { shortest, longest, step });
  return stepped(shortest, longest, step).map((metres) => u.m(metres));
}

/** Numbers from the lowest to the highest, or to the last step before it. */
export function stepped(lowest: number, highest: number, step: number): number[] {
  // A hair over the whole number of steps: (600 mm - 50 mm)/5 mm must give 110 steps, not 109.999….
  const steps = Math.floor((highest - lowest) / step + 1e-9);
  return Array.from({ length: steps + 1 }, (_, at) => Math.min(highest, lowest + at * step));
}

/** Refuses a range of lengths that can't be stepped through. */
export function checkRange(
  caller: string,
  { shortest, longest, step }: { readonly shortest: Length; readonly longest: Length; readonly step: Length },
): void {
  checkLength(caller, "shortest", shortest);
  checkLength(caller, "longest", longest);
  checkLength(caller, "step", step);
  if (longest < shortest) {
    throw new RangeError(
      `${caller}: longest is ${format(longest, "mm")}; it must be at least shortest, ${format(shortest, "mm")}.`,
    );
  }
  if ((longest - shortest) / step > mostClasses) {
    throw new RangeError(
      `${caller}: step is ${format(step, "mm")}, which makes more than 100 000 lengths; give a larger step.`,
    );
  }
}
