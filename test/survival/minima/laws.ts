import * as fc from "fast-check";
import { type Length, protection } from "kernel-helpers";

/** Numbers spread evenly over a range; `fc.double` draws mostly tiny ones. */
export const between = (min: number, max: number) =>
  fc.integer({ min: 0, max: 100_000 }).map((step) => min + ((max - min) * step) / 100_000);

/** Turbine survival that falls strictly with length up to 1.2 m: a power of the length off a highest value. */
export const fallingTurbine = fc
  .record({ best: between(0.7, 1), drop: between(0.1, 0.9), power: between(0.4, 3) })
  .map(({ best, drop, power }) =>
    Object.assign((length: Length) => best * (1 - drop * (length / 1.2) ** power), { best }),
  );

/** Turbine survival of any shape: falling, with waves, with a flat end. */
export const anyTurbine = fc
  .record({
    best: between(0.5, 0.95),
    drop: between(0, 0.6),
    wave: between(0, 0.05),
    pitch: between(0.08, 0.4),
    floor: between(0, 0.3),
  })
  .map(
    ({ best, drop, wave, pitch, floor }) =>
      (length: Length) =>
        Math.max(floor, best - drop * length + wave * Math.sin((2 * Math.PI * length) / pitch)),
  );

export const rampNumbers = fc.record({ threshold: between(0.02, 0.9), exponent: between(0.3, 5) });

/** Every kind of protection law. */
export const anyProtection = fc.oneof(
  rampNumbers.map(protection.rampLaw),
  fc.constant(protection.barrierLaw()),
  fc.record({ midpoint: between(0.1, 1), steepness: between(2, 25) }).map(protection.logisticLaw),
);

export const bodyRatio = between(0.03, 0.3);
export const spacing = between(8, 60);
export const share = between(0, 1);
