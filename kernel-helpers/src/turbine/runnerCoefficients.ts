import { freeFall } from "../quantity/constants";

/** What the coefficients of a runner follow from, in SI units. */
export interface RunnerFlow {
  readonly discharge: number;
  readonly head: number;
  readonly rotationalSpeed: number;
}

/** Angular velocity ω in radians per second. */
const angularVelocity = (rotationalSpeed: number): number => 2 * Math.PI * rotationalSpeed;

/** Energy coefficient E = gH/(ωD)². */
export const energyCoefficient = ({ head, rotationalSpeed }: RunnerFlow, diameter: number): number =>
  (freeFall * head) / (angularVelocity(rotationalSpeed) * diameter) ** 2;

/** Discharge coefficient q = Q/(ωD³). */
export const dischargeCoefficient = (discharge: number, rotationalSpeed: number, diameter: number): number =>
  discharge / (angularVelocity(rotationalSpeed) * diameter ** 3);
