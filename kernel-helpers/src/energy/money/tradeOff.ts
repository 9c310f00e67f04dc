import { checkNumber } from "../../formula/check";
import { number } from "../../formula/input";
import type { Energy } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { annuityFactor } from "./annuityFactor";
import { checkGains, dominates, type Gains } from "./paretoFront";

/** One way to build or run a plant: its survival, its energy of a mean year, and what it costs. */
export interface Option extends Gains {
  readonly name: string;
  /** Bound once, in any currency; nothing where it is left out. */
  readonly investment?: number;
  /** Spent each year on top: cleaning, repair. */
  readonly upkeep?: number;
}

/** An option beside the others. Money in the currency of the price. */
export interface WeighedOption extends Option {
  /** Whether no other option gives more of one and no less of the other. */
  readonly onFront: boolean;
  /** An option that beats this one: the one of most survival among them. */
  readonly beatenBy: string | undefined;
  /** Survival over that of the reference, as a share: 0.01 is a percentage point. */
  readonly survivalGained: number;
  /** Energy under that of the reference; negative where it is more. */
  readonly energyLost: Energy;
  /** Of a year. */
  readonly lostRevenue: number;
  /** Investment and upkeep of a year over those of the reference. */
  readonly yearlySpending: number;
  /** Lost revenue and spending of a year. */
  readonly yearlyCost: number;
  /** Yearly cost of each percentage point gained; undefined where none is. */
  readonly costPerPoint: number | undefined;
}

const where = "energy.tradeOff";
const money = number("C", { atLeast: 0, note: "in the currency of the price" });

/**
 * Weighs options by survival, energy and money against a reference among them.
 *
 * Returns every option in the order given: whether it lies on the front of survival and energy, which option beats it, and
 * what each percentage point of survival costs in a year. Valid for one price of energy, one rate of interest, and options
 * that last equally long. Throws a RangeError for a reference that is no option, names that stand twice, negative sums of
 * money and survivals that are no shares.
 *
 * @example
 * energy.tradeOff({ options: [{ name: "40 mm", survival: 0.8, energy: u.GWh(9) },
 *   { name: "18 mm", survival: 0.9, energy: u.GWh(8.9), investment: 600_000 }], reference: "40 mm", pricePerMWh: 80,
 *   interestRate: 0.04, years: 30 })[1].costPerPoint // => 4269.8
 */
export function tradeOff({
  options,
  reference,
  pricePerMWh,
  interestRate,
  years,
}: {
  readonly options: readonly Option[];
  /** Name of the option that the others are weighed against. */
  readonly reference: string;
  readonly pricePerMWh: number;
  /** A year: 0.04 is 4 per cent. */
  readonly interestRate: number;
  /** Over which investments are paid back. */
  readonly years: number;
}): readonly WeighedOption[] {
  checkGains(where, options);
  checkNumber(where, "pricePerMWh", pricePerMWh, money);
  options.forEach(({ name, investment = 0, upkeep = 0 }, at) => {
    if (options.findIndex((other) => other.name === name) !== at)
      throw new RangeError(`${where}: two options are called "${name}"; give each a name of its own.`);
    checkNumber(where, `investment of "${name}"`, investment, money);
    checkNumber(where, `upkeep of "${name}"`, upkeep, money);
  });
  const base = options.find(({ name }) => name === reference);
  if (base === undefined) {
    const names = options.map(({ name }) => `"${name}"`).join(", ");
    throw new RangeError(
      `${where}: reference is "${reference}", which is no option; the options are ${names}.`,
    );
  }
  const factor = annuityFactor({ interestRate, years });
  const spendingOf = ({ investment = 0, upkeep = 0 }: Option): number => factor * investment + upkeep;
  return options.map((option) => {
    const [better] = options
      .filter((other) => dominates(other, option))
      .toSorted((one, other) => other.survival - one.survival || other.energy - one.energy);
    const survivalGained = option.survival - base.survival;
    const energyLost = u.J(base.energy - option.energy);
    const lostRevenue = pricePerMWh * u.to.MWh(energyLost);
    const yearlySpending = spendingOf(option) - spendingOf(base);
    const yearlyCost = lostRevenue + yearlySpending;
    return {
      ...option,
      onFront: better === undefined,
      beatenBy: better?.name,
      survivalGained,
      energyLost,
      lostRevenue,
      yearlySpending,
      yearlyCost,
      costPerPoint: survivalGained > 0 ? yearlyCost / (100 * survivalGained) : undefined,
    };
  });
}
