import { type PlainNumber, type Quantity, remedies } from "./dimension";
import { type DimensionOf, type UnitName, units } from "./unit";

type Units = typeof units;

/** For each unit, what makes a quantity from a plain number. */
type Constructors = { readonly [K in keyof Units]: (value: PlainNumber) => Quantity<DimensionOf<K>> };

/** For each unit, what gives a quantity's number in that unit. */
type Readers = { readonly [K in keyof Units]: (quantity: Quantity<DimensionOf<K>>) => number };

const names = Object.keys(units) as UnitName[]; // the keys of a constant object

function construct(name: UnitName): (value: number) => number {
  const { inSI } = units[name];
  return (value) => {
    if (typeof value !== "number" || !Number.isFinite(value)) {
      throw new RangeError(`u.${name} was given ${String(value)}; it takes a finite number.`);
    }
    // Dividing by a whole number keeps u.mm(18) at 0.018 exactly as typed; multiplying by 0.001 may not.
    return inSI < 1 && Number.isInteger(1 / inSI) ? value / (1 / inSI) : value * inSI;
  };
}

function read(name: UnitName): (quantity: number) => number {
  const { inSI } = units[name];
  return (quantity) => {
    const value = inSI < 1 && Number.isInteger(1 / inSI) ? quantity * (1 / inSI) : quantity / inSI;
    // 2.014 × 1000 misses 2014 by its last binary digit: a whole number that was typed reads as one again.
    const whole = Math.round(value);
    return Math.abs(value - whole) <= 2 * Number.EPSILON * Math.abs(value) ? whole : value;
  };
}

// Object.fromEntries forgets which keys it was given, and brands exist for the compiler only.
const constructors = Object.fromEntries(
  names.map((name) => [name, construct(name)]),
) as unknown as Constructors;
const readers = Object.fromEntries(names.map((name) => [name, read(name)])) as unknown as Readers;

/**
 * Makes quantities: `u.mm(18)` is a length, `u.deg(38)` an angle, both stored in SI units.
 *
 * Arithmetic on quantities gives plain numbers; a constructor makes a quantity of them again:
 * `u.m(2 * width)`. `u.to.mm(x)` gives the number of millimetres in a length.
 *
 * Throws a RangeError for anything but a finite number.
 *
 * @example
 * u.to.cm(u.mm(18)) // => 1.8
 */
export const u: Constructors & { readonly to: Readers } = Object.defineProperty(
  { ...constructors, to: readers },
  // A cell that evaluates `u` gets the list of its units, not a dump of functions; node looks for this symbol.
  Symbol.for("nodejs.util.inspect.custom"),
  { value: listUnits },
);

/** How quantities are made and read. */
function listUnits(): string {
  return [
    "u makes quantities, as in u.mm(18), and u.to reads them, as in u.to.mm(x):",
    ...Object.values(remedies).map((remedy) => `  ${remedy}`),
  ].join("\n");
}
