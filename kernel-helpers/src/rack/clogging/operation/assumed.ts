import { formatNumber, percent } from "../../../quantity/format";
import { printValue } from "../../../formula/input";
import type { CloggingInputs } from "./inputs";

/** Every assumption of a calculation, in words: nobody measured them, the user states them. */
export function assumed({ assumptions, cleaning }: CloggingInputs): readonly string[] {
  const { stickingShare, leafEquivalents, sediment, rackOut } = assumptions;
  const types = Object.entries(leafEquivalents).map(([type, value]) => `${type} ${formatNumber(value)}`);
  return [
    "debris is drawn to the rack in proportion to the water that it takes of the river, evenly over the day.",
    `${percent(stickingShare)} of the debris drawn to the rack stays on it.`,
    `kilograms of leaves that clog like one kilogram: ${types.join(", ")}.`,
    `the machine reaches ${percent(cleaning.reach)} of the rack and leaves it clean.`,
    sediment === undefined
      ? "no sediment grows before the rack."
      : `sediment grows by ${printValue(sediment.risePerDay, "length", "mm")} a day at flows from ` +
        `${printValue(sediment.aboveFlow, "discharge")} and is cleared every ` +
        `${printValue(sediment.clearedEvery, "time", "d")}.`,
    rackOut === undefined
      ? "the rack stays in all year."
      : `the rack is out from ${rackOut.from} to ${rackOut.to} of every year, without loss and without protection of fish.`,
  ];
}
