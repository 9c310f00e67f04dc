import { defineFormula } from "../formula/formula";
import { length, velocity } from "../formula/input";
import { derived } from "../formula/source";

/**
 * Change of velocity along a way, such as the last stretch before a bypass entrance.
 *
 * Returns the gradient in 1/s: metres per second a metre; negative where the water slows down. Valid as the mean over the
 * way; within it the gradient may be steeper.
 *
 * @example
 * velocity.gradient({ velocityStart: u.mps(0.5), velocityEnd: u.mps(0.6), distance: u.m(0.35) }) // => 0.28571 1/s
 */
export const gradient = defineFormula({
  id: "velocity.gradient",
  title: "Velocity gradient along a way",
  symbol: "G",
  result: "velocityGradient",
  inputs: {
    velocityStart: velocity("v_1", { atLeast: 0 }),
    velocityEnd: velocity("v_2", { atLeast: 0 }),
    distance: length("\\Delta s", { above: 0 }),
  },
  tex: (q) => `\\frac{${q.velocityEnd} - ${q.velocityStart}}{${q.distance}}`,
  source: derived("difference of velocities over the way between them"),
  evaluate: ({ velocityStart, velocityEnd, distance }) => (velocityEnd - velocityStart) / distance,
});
