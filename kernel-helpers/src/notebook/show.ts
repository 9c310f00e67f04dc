import type { PlainNumber, Quantity } from "../quantity/dimension";
import { format, formatNumber, percent } from "../quantity/format";
import type { DimensionOf, UnitName } from "../quantity/unit";
import { emitMarkdown, escapeMarkdown } from "./emit";

/**
 * Shows a labelled value under the cell: a quantity in a unit, a ratio in per cent, or a plain number.
 *
 * `digits` counts significant digits, 3 unless told otherwise.
 *
 * @example
 * show("Rack length", rack.length({ channelWidth: u.m(17), rackAngle: u.deg(38) }), "m")
 */
export function show<K extends UnitName>(
  label: string,
  quantity: Quantity<DimensionOf<K>>,
  unit: K,
  digits?: number,
): void;
export function show(label: string, value: PlainNumber, unit?: "%", digits?: number): void;
export function show(label: string, value: number, unit?: UnitName | "%", digits = 3): void {
  const printed =
    unit === undefined
      ? formatNumber(value, digits)
      : unit === "%"
        ? percent(value, digits)
        : // The overloads pair the quantity with its unit; inside, both are known by name only.
          format(value as Quantity<DimensionOf<typeof unit>>, unit, digits);
  emitMarkdown(`${escapeMarkdown(label)}: **${printed}**`, `${label}: ${printed}`);
}
