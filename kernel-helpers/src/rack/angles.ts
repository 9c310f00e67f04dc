import { angle, type InputOptions } from "../formula/input";
import { u } from "../quantity/u";

/** The rack's angle in plan as an input of a formula. */
export const angleInPlan = <O extends InputOptions<"angle">>(options: O) =>
  angle("\\alpha", { above: 0, atMost: u.deg(90), note: "in plan, between rack and flow", ...options });

/** The rack's inclination as an input of a formula. */
export const angleToHorizontal = <O extends InputOptions<"angle">>(options: O) =>
  angle("\\theta", { above: 0, atMost: u.deg(90), note: "to the horizontal", ...options });

/** Cosine of a plan angle up to 90°: exactly 0 at 90°, where Math.cos leaves 6e-17 of rounding behind. */
export const planCosine = (rackAngle: number): number => Math.sin(Math.PI / 2 - rackAngle);
