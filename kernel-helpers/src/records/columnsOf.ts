import { allowedIn, type Schema } from "../schema";
import { headOf } from "./header";

/** One column of a schema, in words. */
export interface DescribedColumn {
  /** Its head in a file, with the unit in brackets. */
  readonly column: string;
  readonly allowed: string;
  readonly meaning: string | undefined;
}

/**
 * Describes the columns of a schema: what a file's heads are called, what may stand below them, and what it means.
 *
 * Returns one record a column, in the schema's order, for `table`.
 *
 * @example
 * columnsOf(fish.lengthRecord)[3].column // => "totalLength [mm]"
 */
export function columnsOf(schema: Schema): readonly DescribedColumn[] {
  return Object.entries(schema.columns).map(([name, column]) => ({
    column: headOf(name, column),
    allowed: allowedIn(column),
    meaning: column.note,
  }));
}
