import { checkNumber } from "../formula/check";
import { discharge, printValue } from "../formula/input";
import type { Discharge } from "../quantity/dimension";
import { u } from "../quantity/u";
import { rootBetween } from "../statistics/root";
import type { Control } from "./control";
import { type BypassStructure, type BypassWater, flowThrough } from "./flowThrough";

const caller = "bypass.adjust";

/** A crest this far below the headwater, or a gate this far open, counts as shut, in metres. */
const shut = 1e-4;

/**
 * Sets the control of a bypass so that it passes a wanted discharge at the water levels of the day.
 *
 * Returns the structure with its crest level, gate opening or orifice height changed. Valid as `bypass.flowThrough` is.
 * Throws a RangeError for a discharge that the control can't pass, with the most that it can.
 *
 * @example
 * bypass.adjust({ entrance: { width: u.m(0.55), sillLevel: u.m(0), bedLevel: u.m(0) },
 *     control: { kind: "rampedCrest", crestWidth: u.m(0.8), crestLevel: u.m(2), accelerationLength: u.m(3) },
 *     chute: { width: u.m(0.8), length: u.m(60), bedSlope: 0.06, roughness: 0.013, headLevel: u.m(2) },
 *     pool: { bottomLevel: u.m(-3) } },
 *   { turbineFlow: u.m3ps(34), approachVelocity: u.mps(0.556), headwaterLevel: u.m(3.6),
 *     tailwaterLevel: u.m(-1.8) }, u.m3ps(1.36)).control.crestLevel // => 2.6019 m
 */
export function adjust<C extends Control>(
  structure: BypassStructure & { readonly control: C },
  water: BypassWater,
  wanted: Discharge,
): BypassStructure & { readonly control: C } {
  checkNumber(caller, "discharge", wanted, discharge("Q", { above: 0 }));
  const [closed, open] = reach(structure, water);
  const passes = (setting: number): number =>
    flowThrough(withSetting(structure, setting), water).discharge - wanted;
  const [least, most] = [passes(closed) + wanted, passes(open) + wanted];
  if (wanted > most || wanted < least) {
    throw new RangeError(
      `${caller}: discharge is ${printValue(wanted, "discharge")}; this control passes ${printValue(least, "discharge")} to ` +
        `${printValue(most, "discharge")} at these water levels.`,
    );
  }
  return withSetting(structure, rootBetween(passes, closed, open));
}

/** The settings between which the control works, from shut to wide open. */
function reach(
  { control, entrance }: BypassStructure,
  { headwaterLevel }: BypassWater,
): readonly [closed: number, open: number] {
  switch (control.kind) {
    case "rampedCrest":
      return [headwaterLevel - shut, entrance.sillLevel + shut];
    case "sharpCrest":
      return [headwaterLevel - shut, control.floorLevel + shut];
    case "sluiceGate":
      return [shut, headwaterLevel - control.sillLevel - shut];
    case "orifice":
      return [shut, headwaterLevel - control.sillLevel - shut];
  }
}

function withSetting<C extends Control>(
  structure: BypassStructure & { readonly control: C },
  setting: number,
): BypassStructure & { readonly control: C } {
  const { kind } = structure.control;
  const changed =
    kind === "sluiceGate"
      ? { opening: u.m(setting) }
      : kind === "orifice"
        ? { height: u.m(setting) }
        : { crestLevel: u.m(setting) };
  return { ...structure, control: { ...structure.control, ...changed } };
}
