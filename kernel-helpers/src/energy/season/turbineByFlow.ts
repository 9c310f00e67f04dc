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
 * Each unit flow is worked out once: units run full, and alike, on most days.
 */
export function turbineByFlow(
  where: string,
  turbineSurvival: SeasonLaws["turbineSurvival"],
  plan: readonly PlannedSpecies[],
): (day: OperatingDay, species: number) => Float64Array {
  const known = new Map<number, readonly Float64Array[]>();
  const worked = (law: SurvivalOfLength): readonly Float64Array[] =>
    plan.map(({ species, classes }) =>
      Float64Array.from(classes, ({ totalLength }) =>
        checkNumber(
          where,
          `turbineSurvival of ${species} at ${format(totalLength, "mm")}`,
          law(totalLength),
          share,
        ),
      ),
    );
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
