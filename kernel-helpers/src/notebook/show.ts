import type { PlainNumber, Quantity, Remedies } from "../quantity/dimension";
import { format, formatNumber, percent } from "../quantity/format";
import type { DimensionOf, UnitName } from "../quantity/unit";
import { emitMarkdown, escapeMarkdown } from "./emit";

// A cell is compiled without strict null checks, where undefined passes for any unit: so it is asked for first.

/** What can be shown in a unit: a quantity of its dimension; without one, or in per cent, a plain number. */
type Shown<K> = K extends undefined
  ? PlainNumber
  : K extends UnitName
    ? Quantity<DimensionOf<K>>
    : PlainNumber;

/** What the compiler prints where the value does not fit the unit. */
type Advice<V, K> = K extends undefined ? WithoutUnit : K extends UnitName ? InUnit<V, K> : WithoutUnit;
type InUnit<V, K extends UnitName> = number extends V
  ? `arithmetic gives a plain number in SI units; make it a quantity again, ${Remedies[DimensionOf<K>]}`
  : `${K} is a unit of ${Remedies[DimensionOf<K>]}`;
type WithoutUnit = "a plain number; a quantity is shown in a unit of its own, as a length in mm";

/**
 * Shows a labelled value under the cell: a quantity in a unit, a ratio in per cent, or a plain number.
 *
 * `digits` counts significant digits, 3 unless told otherwise.
 *
 * @example
 * show("Rack length", rack.length({ channelWidth: u.m(17), rackAngle: u.deg(38) }), "m")
 */
export function show<K extends UnitName | "%" | undefined = undefined, V extends number = number>(
  label: string,
  value: V extends Shown<K> ? V : Advice<V, K>,
  unit?: K,
  digits = 3,
): void {
  // The signature pairs the value with its unit; inside, both are known by name only.
  const [number, name] = [value as number, unit as UnitName | "%" | undefined];
  const printed =
    name === undefined
      ? formatNumber(number, digits)
      : name === "%"
        ? percent(number, digits)
        : format(number as Quantity<DimensionOf<typeof name>>, name, digits);
  emitMarkdown(`${escapeMarkdown(label)}: **${printed}**`, `${label}: ${printed}`);
}
