import type { Length } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { strikeFrancis, strikeKaplan, strikePropeller } from "../../turbine";
import type { CatchmentPlant } from "./plantRecord";

/** A fish and a correlation at which no runner's probability reaches 1, where its straight line would end. */
const shortFish = u.mm(0.001);
const correlation = 0.1;

/** A size that the row's rule has found there. */
function sized<Q>(value: Q | undefined, name: string): Q {
  if (value === undefined) throw new RangeError(`${name} is missing.`);
  return value;
}

/**
 * Strike probability for each metre of fish and each unit of the correlation factor.
 *
 * All strike equations of the course are straight lines through 0 in both, up to 1; one call gives the slope, and the loop
 * needs no other. Throws a RangeError in a sentence for whatever the equations refuse.
 */
export function strikeSlope(plant: CatchmentPlant): number {
  return strikeAt(plant, shortFish) / (shortFish * correlation);
}

function strikeAt(plant: CatchmentPlant, totalLength: Length): number {
  const { discharge, head, rotationalSpeed, blades, efficiency } = plant;
  const fish = { totalLength, discharge, head, rotationalSpeed, blades, efficiency, correlation };
  if (plant.type === "francis") {
    return strikeFrancis({
      ...fish,
      inletDiameter: sized(plant.inletDiameter, "inletDiameter"),
      outletDiameter: sized(plant.outletDiameter, "outletDiameter"),
      inletHeight: sized(plant.inletHeight, "inletHeight"),
      bestDischarge: sized(plant.bestDischarge, "bestDischarge"),
      swirlFreeRatio: sized(plant.swirlFreeRatio, "swirlFreeRatio"),
    });
  }
  const axial = { ...fish, runnerDiameter: sized(plant.runnerDiameter, "runnerDiameter"), radiusRatio: 0.75 };
  return plant.type === "kaplan"
    ? strikeKaplan(axial)
    : strikePropeller({ ...axial, bestDischarge: sized(plant.bestDischarge, "bestDischarge") });
}
