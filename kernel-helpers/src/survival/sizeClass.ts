import { relativeWidth } from "../fish/body";
import { checkNumber } from "../formula/check";
import { length } from "../formula/input";
import type { Length, PlainNumber } from "../quantity/dimension";
import { format } from "../quantity/format";
import { u } from "../quantity/u";
import { total } from "./total";

/** Protection as a function of relative width: one of `protection`'s laws, or a function of your own. */
export interface ProtectionOfWidth {
  (relativeWidth: PlainNumber): number;
  readonly breaks?: readonly number[];
  readonly cautions?: readonly string[];
}

/** Survival as a function of total length: `turbine.survivalLaw`, or a function of your own. */
export interface SurvivalOfLength {
  (totalLength: Length): number;
  readonly tested?: (totalLength: Length) => boolean;
  readonly cautions?: (totalLength: Length) => readonly string[];
}

/** What survival by size class is made of. */
export interface SizeClassLaws {
  /** What the fish meets the gap with, over its total length: `fish.gapRatio(species)`. */
  readonly bodyRatio: number;
  readonly protection: ProtectionOfWidth;
  readonly turbineSurvival: SurvivalOfLength;
  /** Survival of protected fish: a number or a function of length. An assumption to state. */
  readonly protectedSurvival: number | SurvivalOfLength;
}

/** One length at one clear spacing. All shares are 0..1. */
export interface SizeClass {
  readonly relativeWidth: number;
  readonly protection: number;
  readonly turbineSurvival: number;
  readonly protectedSurvival: number;
  readonly totalSurvival: number;
}

/** Combines the laws at one clear spacing into a function of length in metres. `caller` is named in errors. */
export function sizeClassAt(
  caller: string,
  laws: SizeClassLaws,
  clearSpacing: Length,
): (totalLength: number) => SizeClass {
  const { bodyRatio, protection, turbineSurvival, protectedSurvival } = laws;
  const protectedLaw = typeof protectedSurvival === "number" ? () => protectedSurvival : protectedSurvival;
  return (metres) => {
    const totalLength = u.m(metres);
    const share = (name: string, value: number): number => {
      if (value >= 0 && value <= 1) return value;
      throw new RangeError(
        `${caller}: ${name} is ${String(value)} at ${format(totalLength, "mm")}; it must be a share from 0 to 1.`,
      );
    };
    const width = relativeWidth.evaluate({ totalLength, widthRatio: bodyRatio, clearSpacing });
    const shares = {
      protection: share("protection", protection(width)),
      turbineSurvival: share("turbineSurvival", turbineSurvival(totalLength)),
      protectedSurvival: share("protectedSurvival", protectedLaw(totalLength)),
    };
    return { relativeWidth: width, ...shares, totalSurvival: total.evaluate(shares) };
  };
}

const positiveLength = length("L", { above: 0, unit: "mm" });

/** Refuses a length that is not above 0 and finite; the kernel reports other dimensions before the cell runs. */
export function checkLength(caller: string, name: string, value: Length): void {
  checkNumber(caller, name, value, positiveLength);
}
