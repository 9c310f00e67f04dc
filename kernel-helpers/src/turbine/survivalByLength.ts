import { checkNumber } from "../formula/check";
import { length } from "../formula/input";
import type { Length } from "../quantity/dimension";
import type { TurbineModel } from "./model";
import { survivalLaw } from "./survivalLaw";

/** Turbine survival of several lengths; every list has one entry a length, in the order given. */
export interface TurbineSurvivalByLength {
  readonly title: string;
  readonly totalLength: readonly Length[];
  readonly mortality: readonly number[];
  readonly survival: readonly number[];
  /** Whether every input lies in the range that its source tested, as far as that range is known. */
  readonly tested: readonly boolean[];
  /** Every caution that holds for at least one of the lengths, once. */
  readonly cautions: readonly string[];
}

const fishLength = length("L", { above: 0, unit: "mm" });

/**
 * Turbine survival of several lengths by one model.
 *
 * Returns mortality and survival as shares 0..1, a flag for each length inside the tested range, and the cautions.
 * Throws a RangeError for what `turbine.survivalLaw` refuses, and for lengths that are not above 0.
 *
 * @example
 * turbine.survivalByLength({ model: "kaplanSalmonid", lengths: [u.mm(150)], unit: { type: "kaplan",
 *   discharge: u.m3ps(17), head: u.m(5.3), rotationalSpeed: u.rpm(187.5), blades: 4, efficiency: 0.9,
 *   runnerDiameter: u.m(1.95), bladeSpacing: u.m(1.088) } }).survival[0] // => 0.8908
 */
export function survivalByLength({
  lengths,
  ...choice
}: TurbineModel & { readonly lengths: readonly Length[] }): TurbineSurvivalByLength {
  const law = survivalLaw(choice);
  lengths.forEach((totalLength, at) =>
    checkNumber("turbine.survivalByLength", `lengths[${at}]`, totalLength, fishLength),
  );
  const survival = lengths.map((totalLength) => law(totalLength));
  return {
    title: law.title,
    totalLength: [...lengths],
    mortality: survival.map((share) => 1 - share),
    survival,
    tested: lengths.map((totalLength) => law.tested(totalLength)),
    cautions: [...new Set(lengths.flatMap((totalLength) => law.cautions(totalLength)))],
  };
}
