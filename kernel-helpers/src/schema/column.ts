import type { Quantity } from "../quantity/dimension";
import type { DimensionOf, UnitName } from "../quantity/unit";
import type { AnyRow, Rule } from "./rule";

/** Limits of a number, in the column's own unit. */
export interface Limits {
  readonly above?: number;
  readonly atLeast?: number;
  readonly below?: number;
  readonly atMost?: number;
}

interface Common {
  /** Missing entries are allowed and stay missing. */
  readonly optional?: boolean;
  /** No two rows may have the same entry. */
  readonly unique?: boolean;
  /** What the column holds, in words. */
  readonly note?: string;
}

/** A column of quantities; the file's header names the unit, `totalLength [mm]`, and may name another of its dimension. */
export interface QuantityColumn<K extends UnitName = UnitName> extends Common, Limits {
  readonly kind: "quantity";
  readonly unit: K;
}

/** A column of numbers without unit; `whole` ones are counts. */
export interface NumberColumn extends Common, Limits {
  readonly kind: "number";
  readonly whole?: boolean;
}

/** A column of words from a list. */
export interface ChoiceColumn<W extends string = string> extends Common {
  readonly kind: "choice";
  readonly oneOf: readonly W[];
}

/** A column of free text. */
export interface TextColumn extends Common {
  readonly kind: "text";
}

/** A column of days, written 2026-03-01. */
export interface DayColumn extends Common {
  readonly kind: "day";
}

export type Column = QuantityColumn | NumberColumn | ChoiceColumn | TextColumn | DayColumn;

/** What a file of records holds: plain data, read by `readRecords`, written out in the data's README. */
export interface Schema {
  /** What one row is, such as "daily mean flow". */
  readonly title: string;
  readonly columns: Readonly<Record<string, Column>>;
  /** Columns of the file that are not listed are refused unless this is true. */
  readonly others?: boolean;
  /** What must hold between columns and between records; added by `withRules`. */
  readonly rules?: readonly Rule<AnyRow>[];
}

type Entry<C extends Column> =
  C extends QuantityColumn<infer K>
    ? Quantity<DimensionOf<K>>
    : C extends NumberColumn
      ? number
      : C extends ChoiceColumn<infer W>
        ? W
        : string;

/** One checked row: quantities in SI, days and words as text; optional entries may be undefined. */
export type RowOf<S extends Schema> = {
  readonly [N in keyof S["columns"]]: S["columns"][N] extends { readonly optional: true }
    ? Entry<S["columns"][N]> | undefined
    : Entry<S["columns"][N]>;
};
