import type { Angle, Length, PlainNumber, Velocity } from "../../quantity/dimension";
import { u } from "../../quantity/u";
import { fitted } from "../../rack/loss/fitted";
import type { LawCoefficients } from "../../rack/loss/law/law";
import { areaRatio } from "../../rack/loss/openArea";
import { streamwiseBars } from "../../rack/loss/streamwiseBars";
import { defineExercise } from "./definition";

export interface CloggingRack {
  readonly blockage: PlainNumber;
  readonly normalVelocity: Velocity;
  readonly cleaningHead: Length;
}

/** The share of the open area that debris covers when the head loss by open share reaches the cleaning head. */
function shareAtCleaning({ blockage, normalVelocity, cleaningHead }: CloggingRack): number {
  const loss = (cloggedShare: number): number => {
    const openRatio = (1 - blockage) * (1 - cloggedShare);
    return areaRatio.evaluate({ netVelocity: normalVelocity / openRatio, openRatio });
  };
  // The loss rises with the clogged share and grows beyond all bounds towards 1, so that halving finds the one crossing.
  let [low, high] = [0, 1];
  for (let step = 0; step < 50; step++) {
    const middle = (low + high) / 2;
    if (loss(middle) < cleaningHead) low = middle;
    else high = middle;
  }
  return low;
}

export interface TwoShapes {
  readonly rectangular: LawCoefficients;
  readonly foil: LawCoefficients;
  readonly blockage: PlainNumber;
  readonly rackAngle: Angle;
}

/** The share of the loss coefficient that foils save against rectangular bars in the same rack. */
function savedByFoils({ rectangular, foil, blockage, rackAngle }: TwoShapes): number {
  const place = { blockage, rackAngle, overlayShare: 0 };
  return 1 - fitted({ ...foil, ...place }) / fitted({ ...rectangular, ...place });
}

/** Exercises of notebook 04, head loss. */
export const headLossExercises = {
  "04.1": defineExercise({
    expected: (inputs: { readonly barCoefficient: PlainNumber; readonly blockage: PlainNumber }) =>
      streamwiseBars(inputs),
    within: 0.02,
    hint: "a head loss is the coefficient times the velocity head; take both in metres.",
  }),
  "04.2": defineExercise({
    expected: ({ approachVelocity }: { readonly approachVelocity: Velocity }) =>
      u.mps(Math.SQRT2 * approachVelocity),
    within: 0.01,
    unit: "mps",
    hint: "the head loss goes with the square of the velocity; by which factor must a number grow for its square to double?",
  }),
  "04.3": defineExercise({
    expected: (inputs: {
      readonly barThickness: Length;
      readonly clearSpacing: Length;
      readonly newThickness: Length;
    }) => u.m((inputs.clearSpacing * inputs.newThickness) / inputs.barThickness),
    within: 0.01,
    unit: "mm",
    hint: "the bar term knows thickness and spacing only through O/(1 − O); look for what that is for bars alone.",
  }),
  "04.4": defineExercise({
    expected: shareAtCleaning,
    within: 0.01,
    hint: "take two shares, one with a head loss below the threshold and one above it, and halve the way between them.",
  }),
  "04.5": defineExercise({
    expected: savedByFoils,
    within: 0.01,
    hint: "ask rackLoss.fitted twice for the same rack without overlays, once with each set of coefficients; a saving is a share of the larger one.",
  }),
};
