import type { Mass } from "../quantity/dimension";
import { u } from "../quantity/u";

/** One size class of a population: how many fish, the mass of one, and their survival. */
export interface WeightedClass {
  /** Number of fish, or any number in proportion to it, such as a density. */
  readonly count: number;
  /** Mean mass of one fish of the class. */
  readonly mass?: Mass;
  readonly survival: number;
}

/** Survival of a population: by numbers always, by biomass where every class has a mass. */
export interface WeightedSurvival {
  readonly byNumbers: number;
  /** Undefined where the classes have no masses. */
  readonly byBiomass: number | undefined;
  readonly count: number;
  readonly biomass: Mass | undefined;
  /** Share of each class in the number of fish. */
  readonly numberShares: readonly number[];
  /** Share of each class in the biomass. */
  readonly biomassShares: readonly number[] | undefined;
}

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/**
 * Survival of a population from the survival of its size classes, by numbers and by biomass.
 *
 * Returns both, with the shares of the classes. Each class counts with its own survival: the survival at the mean
 * length is another number, since survival is not a straight line over length. Throws a RangeError for counts below 0,
 * masses that are not above 0 or that only some classes have, and survivals outside 0..1.
 *
 * @example
 * survival.weighted({ classes: [{ count: 30, survival: 0.95 }, { count: 10, survival: 0.75 }] }).byNumbers // => 0.9
 */
export function weighted({ classes }: { readonly classes: readonly WeightedClass[] }): WeightedSurvival {
  checkClasses(classes);
  const counts = classes.map((one) => one.count);
  const survivals = classes.map((one) => one.survival);
  const masses = classes.flatMap((one) => (one.mass === undefined ? [] : [one.count * one.mass]));
  const withMasses = masses.length === classes.length;
  return {
    byNumbers: weightedMean(counts, survivals),
    byBiomass: withMasses ? weightedMean(masses, survivals) : undefined,
    count: sum(counts),
    biomass: withMasses ? u.kg(sum(masses)) : undefined,
    numberShares: sharesOf(counts),
    biomassShares: withMasses ? sharesOf(masses) : undefined,
  };
}

const sharesOf = (weights: readonly number[]): readonly number[] => {
  const all = sum(weights);
  return weights.map((weight) => weight / all);
};

// Rounding may carry a mean of equal survivals past them by the last digit; a mean lies between its parts.
const weightedMean = (weights: readonly number[], survivals: readonly number[]): number => {
  const mean = sum(sharesOf(weights).map((share, at) => share * (survivals[at] ?? Number.NaN)));
  return Math.min(Math.max(...survivals), Math.max(Math.min(...survivals), mean));
};

const refuse = (text: string): never => {
  throw new RangeError(`survival.weighted: ${text}.`);
};

function checkClasses(classes: readonly WeightedClass[]): void {
  if (classes.length === 0) refuse("there is no class; give at least one");
  classes.forEach(({ count, mass, survival }, at) => {
    if (!(count >= 0 && Number.isFinite(count)))
      refuse(`classes[${at}].count is ${String(count)}; it must be at least 0 and finite`);
    if (mass !== undefined && !(mass > 0 && Number.isFinite(mass)))
      refuse(`classes[${at}].mass is ${String(mass)} kg; it must be above 0 kg and finite`);
    if (!(survival >= 0 && survival <= 1))
      refuse(`classes[${at}].survival is ${String(survival)}; it must be a share from 0 to 1`);
    if ((mass === undefined) !== (classes[0]?.mass === undefined))
      refuse(`classes[${at}] and classes[0] differ: give a mass for every class or for none`);
  });
  if (sum(classes.map((one) => one.count)) === 0) refuse("every count is 0; at least one class needs fish");
}
