import { defineFormula } from "../formula/formula";
import { length, velocity } from "../formula/input";
import { derived } from "../formula/source";
import { usualSizes } from "../formula/usualSizes";
import { freeFall } from "../quantity/constants";

/**
 * Velocity at the entrance of the bypass over the approach velocity.
 *
 * Returns a plain number. Valid for mean velocities over the entrance and over the approach channel.
 *
 * @example
 * bypass.entranceVelocityRatio({ entranceVelocity: u.mps(0.67), approachVelocity: u.mps(0.56) }) // => 1.1964
 */
export const entranceVelocityRatio = defineFormula({
  id: "bypass.entranceVelocityRatio",
  title: "Entrance velocity over approach velocity",
  symbol: "r_e",
  result: "number",
  inputs: {
    entranceVelocity: velocity("U_e", { atLeast: 0, note: "mean over the entrance" }),
    approachVelocity: velocity("U", { above: 0, usual: usualSizes.approachVelocity }),
  },
  tex: (q) => `\\frac{${q.entranceVelocity}}{${q.approachVelocity}}`,
  source: derived("a ratio"),
  evaluate: ({ entranceVelocity, approachVelocity }) => entranceVelocity / approachVelocity,
});

/**
 * Velocity at which falling water, and a fish in it, meets the pool below.
 *
 * Returns the velocity in metres a second. Valid for a free fall from rest without resistance of the air.
 *
 * @example
 * bypass.impactVelocity({ fallHeight: u.m(2.5) }) // => 7.0036 m/s
 */
export const impactVelocity = defineFormula({
  id: "bypass.impactVelocity",
  title: "Velocity at the end of a fall",
  symbol: "v_i",
  result: "velocity",
  inputs: {
    fallHeight: length("h", { atLeast: 0, unit: "m", note: "from the outfall to the pool's surface" }),
  },
  tex: (q) => `\\sqrt{2g\\,${q.fallHeight}}`,
  source: derived("free fall from rest"),
  evaluate: ({ fallHeight }) => Math.sqrt(2 * freeFall * fallHeight),
});

/**
 * How fast the velocity rises along the way into the bypass.
 *
 * Returns the velocity gradient in 1/s: metres a second for each metre; negative where the flow slows down. Valid as a
 * mean over the distance.
 *
 * @example
 * bypass.acceleration({ velocityStart: u.mps(0.56), velocityEnd: u.mps(0.9), distance: u.m(1.2) }) // => 0.28333 1/s
 */
export const acceleration = defineFormula({
  id: "bypass.acceleration",
  title: "Rise of the velocity along the way into the bypass",
  symbol: "\\Delta v/\\Delta x",
  result: "velocityGradient",
  inputs: {
    velocityStart: velocity("v_1", { atLeast: 0 }),
    velocityEnd: velocity("v_2", { atLeast: 0 }),
    distance: length("\\Delta x", { above: 0, unit: "m" }),
  },
  tex: (q) => `\\frac{${q.velocityEnd} - ${q.velocityStart}}{${q.distance}}`,
  source: derived("difference over distance"),
  evaluate: ({ velocityStart, velocityEnd, distance }) => (velocityEnd - velocityStart) / distance,
});
