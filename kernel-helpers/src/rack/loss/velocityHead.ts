import { freeFall } from "../../quantity/constants";

/** Velocity head U²/2g in metres, for a velocity in m/s. */
export const velocityHead = (velocity: number): number => velocity ** 2 / (2 * freeFall);
