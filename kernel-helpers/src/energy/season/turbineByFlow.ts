import { checkNumber } from "../../formula/check";
import { ratio } from "../../formula/input";
import { format } from "../../quantity/format";
import { u } from "../../quantity/u";
import type { SurvivalOfLength } from "../../survival/sizeClass";
import type { OperatingDay } from "../operation/operation";
import type { PlannedSpecies } from "./checkInputs";
import type { SeasonLaws } from "./seasonSurvival";

const share = ratio("S_t", {});

/**
 * Turbine survival of every class of a species on a day: the mean over the running units, weighted by their flows.
 *
 * Each unit flow and each length is worked out once: units run full, and alike, on most days, and species share lengths.
 */
export function turbineByFlow(
  where: string,
  turbineSurvival: SeasonLaws["turbineSurvival"],
  plan: readonly PlannedSpecies[],
): (day: OperatingDay, species: number) => Float64Array {
  const lengths = [...new Set(plan.flatMap(({ classes }) => classes.map(({ totalLength }) => totalLength)))];
  const place = new Map(lengths.map((totalLength, at) => [totalLength, at]));
  const places = plan.map(({ classes }) => classes.map(({ totalLength }) => place.get(totalLength) ?? 0));

  const worked = (law: SurvivalOfLength): readonly Float64Array[] => {
    const values = new Float64Array(lengths.length);
    for (const [at, totalLength] of lengths.entries()) {
      const value = law(totalLength);
      // The label is written only where it is needed: this runs for every length at every flow.
      if (!(value >= 0 && value <= 1))
        checkNumber(where, `turbineSurvival at ${format(totalLength, "mm")}`, value, share);
      values[at] = value;
    }
    return places.map((own) => {
      const gathered = new Float64Array(own.length);
      for (let at = 0; at < own.length; at++) gathered[at] = values[own[at]];
      return gathered;
    });
  };
  const known = new Map<number, readonly Float64Array[]>();
  const atFlow = (flow: number): readonly Float64Array[] => {
    // A law without load is the same at every flow.
    const key = "at" in turbineSurvival ? flow : 0;
    const found = known.get(key);
    if (found !== undefined) return found;
    const made = worked("at" in turbineSurvival ? turbineSurvival.at(u.m3ps(flow)) : turbineSurvival);
    known.set(key, made);
    return made;
  };
  const nothing = plan.map(({ classes }) => new Float64Array(classes.length));
  return (day, species) => {
    const [first, ...others] = day.unitFlows.filter((flow) => flow > 0);
    if (first === undefined) return nothing[species];
    if (others.every((flow) => flow === first)) return atFlow(first)[species];
    const mean = new Float64Array(plan[species].classes.length);
    for (const flow of [first, ...others]) {
      const own = atFlow(flow)[species];
      for (let at = 0; at < mean.length; at++) mean[at] += (flow / day.turbineFlow) * own[at];
    }
    return mean;
  };
}
