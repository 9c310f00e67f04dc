import { checkNumber } from "../../formula/check";
import { number, ratio } from "../../formula/input";
import type { Energy } from "../../quantity/dimension";

/** What an option gives: more is better in both. */
export interface Gains {
  readonly survival: number;
  readonly energy: Energy;
}

const where = "energy.paretoFront";
const survivalInput = ratio("S", {});
const energyInput = number("E", { atLeast: 0 });

/** Refuses survivals that are no shares and energies below 0. */
export function checkGains(caller: string, options: readonly Gains[]): void {
  options.forEach(({ survival, energy }, at) => {
    checkNumber(caller, `survival of options[${at}]`, survival, survivalInput);
    checkNumber(caller, `energy of options[${at}]`, energy, energyInput);
  });
}

/** Whether the first is at least as good in both, and better in one. */
export const dominates = (one: Gains, other: Gains): boolean =>
  one.survival >= other.survival &&
  one.energy >= other.energy &&
  (one.survival > other.survival || one.energy > other.energy);

/**
 * Options that no other one beats: whoever wants more survival than such an option gives must give up energy.
 *
 * Returns the options of the front, from most energy to most survival. Throws a RangeError for survivals that are no
 * shares and energies below 0.
 *
 * @example
 * energy.paretoFront([{ survival: 0.8, energy: u.GWh(9) }, { survival: 0.9, energy: u.GWh(8.5) },
 *   { survival: 0.85, energy: u.GWh(8) }]).length // => 2
 */
export function paretoFront<Option extends Gains>(options: readonly Option[]): readonly Option[] {
  checkGains(where, options);
  return options
    .filter((one) => !options.some((other) => dominates(other, one)))
    .toSorted((one, other) => other.energy - one.energy || other.survival - one.survival);
}
