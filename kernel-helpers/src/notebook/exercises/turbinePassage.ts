import type {
  Angle,
  Discharge,
  Length,
  PlainNumber,
  Pressure,
  RotationalSpeed,
} from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { barotrauma } from "../../turbine/barotrauma";
import { injuryShareVonRaben } from "../../turbine/injuryShare";
import { turbineSurvival } from "../../turbine/survival";
import { strikeProbability, waterLength } from "../../turbine/waterLength";
import { defineExercise } from "./definition";

export interface RunnerAndAngle {
  readonly discharge: Discharge;
  readonly rotationalSpeed: RotationalSpeed;
  readonly blades: PlainNumber;
  readonly runnerDiameter: Length;
  readonly hubDiameter: Length;
  readonly inflowAngle: Angle;
}

export interface FishInWater {
  readonly waterLength: Length;
  readonly totalLength: Length;
}

const strikeSurvival = (fish: FishInWater): number =>
  turbineSurvival({ strikeProbability: strikeProbability(fish), injuryShare: injuryShareVonRaben({}) });

/** The pressure at which the equation gives a mortality, found by halving: it falls as the pressure rises. */
function pressureFor(acclimationPressure: Pressure, permittedMortality: number): Pressure {
  let [low, high] = [0, 10 * acclimationPressure];
  for (let step = 0; step < 60; step++) {
    const lowestPressure = (low + high) / 2;
    if (barotrauma.evaluate({ acclimationPressure, lowestPressure }) > permittedMortality)
      low = lowestPressure;
    else high = lowestPressure;
  }
  return u.Pa(high);
}

const regressionOfKind: Readonly<Record<string, string>> = {
  grayling: "kaplanSalmonid",
  "silver eel": "kaplanEel",
};

/** Exercises of notebook 11, turbine passage. */
export const turbinePassageExercises = {
  "11.1": defineExercise({
    expected: (runner: RunnerAndAngle): Length => waterLength(runner),
    within: 0.01,
    unit: "m",
    hint: "the chance to be struck is the fish's length over a length of water; where does it reach 1?",
  }),
  "11.2": defineExercise({
    expected: strikeSurvival,
    within: 0.005,
    hint: "take the chance to be struck times the share that dies of it, and ask for those that are left.",
  }),
  "11.3": defineExercise({
    expected: ({ species }: { readonly species: string }): string => regressionOfKind[species] ?? "none",
    within: 0,
    choices: ["kaplanSalmonid", "kaplanEel", "none"],
    hint: "look for its kind of fish in the sentence that says what each regression was fitted to.",
  }),
  "11.4": defineExercise({
    expected: ({
      blades,
      newBlades,
      ...fish
    }: FishInWater & { readonly blades: PlainNumber; readonly newBlades: PlainNumber }) =>
      strikeSurvival({ ...fish, waterLength: u.m((fish.waterLength * blades) / newBlades) }),
    within: 0.005,
    hint: "how does the water between two blades change with their number?",
  }),
  "11.5": defineExercise({
    expected: (inputs: {
      readonly acclimationPressure: Pressure;
      readonly permittedMortality: PlainNumber;
    }) => pressureFor(inputs.acclimationPressure, inputs.permittedMortality),
    within: 0.01,
    unit: "kPa",
    hint: "the mortality depends on the ratio of the two pressures alone; find the ratio first, then the pressure.",
  }),
};
