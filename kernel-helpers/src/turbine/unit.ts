import type { Discharge, Length, RotationalSpeed } from "../quantity/dimension";

/** What every turbine unit is described by. `head` is the net head after the rack. */
interface AnyUnit {
  readonly discharge: Discharge;
  readonly head: Length;
  readonly rotationalSpeed: RotationalSpeed;
  readonly blades: number;
  readonly efficiency: number;
}

/** A unit whose water runs along the axis: Kaplan where the blades turn, propeller where they stand fixed. */
export interface AxialUnit extends AnyUnit {
  readonly type: "kaplan" | "propeller";
  readonly runnerDiameter: Length;
  /** Needed by `waterLengthStrike` and, where `bladeSpacing` is not given, by `kaplanSalmonid`. */
  readonly hubDiameter?: Length;
  /** Distance of two blades at mid-blade; follows from runner and hub where it is not given. */
  readonly bladeSpacing?: Length;
  /** Discharge of the best efficiency. Needed by `propellerStrike`. */
  readonly bestDischarge?: Discharge;
}

/** A Francis unit. */
export interface FrancisUnit extends AnyUnit {
  readonly type: "francis";
  readonly inletDiameter: Length;
  readonly outletDiameter: Length;
  readonly inletHeight: Length;
  readonly bestDischarge: Discharge;
  /** Discharge without swirl behind the runner over the best discharge: 1.0 to 1.1. */
  readonly swirlFreeRatio: number;
}

/** One turbine unit as the models of this topic read it. */
export type TurbineUnit = AxialUnit | FrancisUnit;
