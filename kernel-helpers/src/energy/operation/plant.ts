import { checkNumber } from "../../formula/check";
import { discharge, length, number, ratio } from "../../formula/input";
import type { Discharge, Length, Velocity } from "../../quantity/dimension";
import { checkUnits } from "../dispatch";
import type { EfficiencyCurve } from "../efficiencyCurve";
import type { Shutdown } from "./shutdown";

/** A run-of-river plant as its energy sees it. */
export interface RunOfRiverPlant {
  /** One curve a unit, from its technical minimum to full discharge; equal units stand as often as there are. */
  readonly units: readonly EfficiencyCurve[];
  /** Left to the old river course before anything else. */
  readonly residualFlow: Discharge;
  /** Taken before the turbines, from their channel. */
  readonly bypassFlow: Discharge;
  /** Head water less tail water at an ordinary flow. */
  readonly grossHead: Length;
  /** How far the tail water stands above that of an ordinary flow; nothing where it is left out. */
  readonly tailwaterRise?: (riverFlow: Discharge) => Length;
  /** Losses of the intake apart from the rack, at full discharge; they grow with the square of the flow. */
  readonly intakeLoss?: Length;
  /** The approach channel at the rack. */
  readonly channelWidth: Length;
  readonly channelDepth: Length;
  /** Head loss of the clean rack at an approach velocity. */
  readonly rackLoss: (approachVelocity: Velocity) => Length;
  /** How many times the clean rack's loss debris makes it, at least 1: a number, or one for each date, as from `cloggingByDay`. */
  readonly cloggingFactor?: number | ((date: string) => number);
  /** When the turbines stand still for the fish. */
  readonly shutdown?: Shutdown;
  /** Share of the day's hours that count as night; half unless told. Only shutdowns ask for it. */
  readonly nightShare?: number;
}

export const flowAtLeastNothing = discharge("Q", { atLeast: 0 });
export const lossAtLeastNothing = length("\\Delta h", { atLeast: 0, unit: "m" });
export const anyRise = length("\\Delta z", { unit: "m" });
export const factorAtLeastOne = number("k_V", { atLeast: 1 });
const positiveLength = length("B", { above: 0, unit: "m" });
const shareInput = ratio("p", {});

/** Refuses numbers that no plant has, naming the caller and the number. */
export function checkPlant(caller: string, plant: RunOfRiverPlant): void {
  checkUnits(caller, plant.units);
  checkNumber(caller, "residualFlow", plant.residualFlow, flowAtLeastNothing);
  checkNumber(caller, "bypassFlow", plant.bypassFlow, flowAtLeastNothing);
  checkNumber(caller, "grossHead", plant.grossHead, positiveLength);
  checkNumber(caller, "channelWidth", plant.channelWidth, positiveLength);
  checkNumber(caller, "channelDepth", plant.channelDepth, positiveLength);
  if (plant.intakeLoss !== undefined) checkNumber(caller, "intakeLoss", plant.intakeLoss, lossAtLeastNothing);
  if (typeof plant.cloggingFactor === "number")
    checkNumber(caller, "cloggingFactor", plant.cloggingFactor, factorAtLeastOne);
  if (plant.nightShare !== undefined) checkNumber(caller, "nightShare", plant.nightShare, shareInput);
}
