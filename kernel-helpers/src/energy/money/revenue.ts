import { checkNumber } from "../../formula/check";
import { number } from "../../formula/input";
import type { Energy, PlainNumber } from "../../quantity/dimension";
import { u } from "../../quantity/u";

const energyInput = number("E", { atLeast: 0 });
const priceInput = number("p", { atLeast: 0, note: "of a MWh, in any currency" });

/**
 * Revenue of an energy at a price.
 *
 * Returns a sum in the currency of the price. Valid for one price all year; where it changes with the hour, water at dear
 * hours is worth more. Throws a RangeError for a negative energy or price.
 *
 * @example
 * energy.revenue({ energy: u.GWh(8), pricePerMWh: 80 }) // => 640000
 */
export function revenue({
  energy,
  pricePerMWh,
}: {
  readonly energy: Energy;
  readonly pricePerMWh: PlainNumber;
}): number {
  checkNumber("energy.revenue", "energy", energy, energyInput);
  checkNumber("energy.revenue", "pricePerMWh", pricePerMWh, priceInput);
  return u.to.MWh(energy) * pricePerMWh;
}
