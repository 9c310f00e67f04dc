import type { Angle } from "../quantity/dimension";
import type { AxialUnit, FrancisUnit } from "./unit";

/**
 * Share of struck fish that die of it: von Raben's constant, the one that rises with length, or a share of your own.
 */
export type InjuryShare = "vonRaben" | "byLength" | number;

/** How strike becomes mortality. */
interface StrikeChoices {
  /** Share that falling pressure kills, independent of strike; 0 where nothing is said. */
  readonly pressureMortality?: number;
}

/** A strike equation whose correlation factor was fitted to tests. */
interface CorrelatedChoices extends StrikeChoices {
  /** Share of strikes that harm, fitted to tests: 0.1 to 0.2. */
  readonly correlation: number;
  /** 1 where nothing is said, since the correlation factor holds it already; a share below 1 raises a caution. */
  readonly injuryShare?: InjuryShare;
}

interface AxialStrikeChoices extends CorrelatedChoices {
  /** Where the fish passes: 0.5 hub, 0.75 mid-blade, 1 tip. */
  readonly radiusRatio?: number;
}

/** The strike kernel with a given inflow angle. It counts every touch, so it needs the share that dies of it. */
export interface WaterLengthStrike extends StrikeChoices {
  readonly injuryShare: InjuryShare;
  readonly model: "waterLengthStrike";
  readonly unit: AxialUnit;
  readonly inflowAngle: Angle;
}

export interface KaplanStrike extends AxialStrikeChoices {
  readonly model: "kaplanStrike";
  readonly unit: AxialUnit;
}

export interface PropellerStrike extends AxialStrikeChoices {
  readonly model: "propellerStrike";
  readonly unit: AxialUnit;
}

export interface FrancisStrike extends CorrelatedChoices {
  readonly model: "francisStrike";
  readonly unit: FrancisUnit;
}

/** A regression gives mortality itself: it takes no injury share, and its tests already felt the pressure. */
export type Regression =
  | { readonly model: "kaplanSalmonid" | "kaplanEel"; readonly unit: AxialUnit }
  | { readonly model: "francisSalmonid"; readonly unit: FrancisUnit };

export type Strike = WaterLengthStrike | KaplanStrike | PropellerStrike | FrancisStrike;

/** How turbine survival is estimated: a model, the unit, and the choices that the model needs. */
export type TurbineModel = Strike | Regression;

/** Whether a model is a regression; told by its name, so that a strike model without its choices is noticed. */
export const isRegression = (choice: TurbineModel): choice is Regression =>
  choice.model === "kaplanSalmonid" || choice.model === "kaplanEel" || choice.model === "francisSalmonid";
