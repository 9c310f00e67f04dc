import { words } from "../formula/input";
import { u } from "../quantity/u";
import { type UnitName, units } from "../quantity/unit";
import { emitHtml, escapeHtml } from "./emit";

/** How a column is shown. Numbers in SI are shown in `unit`; `%` shows ratios in per cent. */
export interface ColumnLook {
  readonly title: string;
  readonly unit?: UnitName | "%";
  /** Digits behind the point; chosen from the largest number unless given. */
  readonly decimals?: number;
}

export interface TableLook<Row> {
  /** What the table shows, in a sentence or less. */
  readonly caption: string;
  /** The columns to show, in this order; a text is a title. Every field of the first row unless given. */
  readonly columns?: { readonly [N in keyof Row]?: string | ColumnLook };
}

/**
 * Shows rows as a table: caption, units in the head, numbers right-aligned with the same digits behind the point.
 *
 * Missing entries show as a dash; truth values as yes and no; a list of words as words joined by ", ".
 * Throws a RangeError for a column that no row has.
 *
 * @example
 * table(rows, { caption: "Head loss by equation", columns: { name: "Equation", headLoss: { title: "Head loss", unit: "mm" } } })
 */
export function table<Row extends object>(rows: readonly Row[], look: TableLook<Row>): void {
  const columns = columnsOf(rows, look);
  const body = rows.map((row) =>
    // A row's fields are read by the names that columnsOf has checked.
    columns.map((column) => cellText((row as Readonly<Record<string, unknown>>)[column.name], column)),
  );
  const heads = columns.map(head);
  const html = [
    "<table>",
    `<caption>${escapeHtml(look.caption)}</caption>`,
    `<thead><tr>${columns.map((column, at) => `<th scope="col"${align(column)}>${cellHtml(heads[at], column)}</th>`).join("")}</tr></thead>`,
    "<tbody>",
    ...body.map(
      (cells) =>
        `<tr>${cells.map((text, at) => `<td${align(columns[at])}>${cellHtml(text, columns[at])}</td>`).join("")}</tr>`,
    ),
    ...(rows.length === 0 ? [`<tr><td colspan="${columns.length}">${noRows}</td></tr>`] : []),
    "</tbody></table>",
  ].join("\n");
  const widths = heads.map((title, at) => Math.max(title.length, ...body.map((cells) => cells[at].length)));
  const line = (cells: readonly string[]) =>
    cells
      .map((text, at) => (columns[at].numeric ? text.padStart(widths[at]) : text.padEnd(widths[at])))
      .join("  ")
      .trimEnd();
  const lines = rows.length === 0 ? [noRows] : body.map(line);
  emitHtml(html, [look.caption, line(heads), ...lines].join("\n"));
}

/** An empty table must not pass for a broken one. */
const noRows = "no rows";

interface ShownColumn {
  readonly name: string;
  readonly title: string;
  readonly unit?: UnitName | "%";
  readonly numeric: boolean;
  readonly decimals: number;
}

function columnsOf<Row extends object>(rows: readonly Row[], look: TableLook<Row>): ShownColumn[] {
  const asked: Readonly<Record<string, string | ColumnLook | undefined>> =
    look.columns ??
    Object.fromEntries(Object.keys(rows[0] ?? {}).map((name) => [name, capital(words(name))]));
  return Object.entries(asked).map(([name, given]) => {
    const known = [...new Set(rows.flatMap((row) => Object.keys(row)))];
    if (rows.length > 0 && !known.includes(name)) {
      throw new RangeError(`table: no row has a column "${name}"; the rows have ${known.join(", ")}.`);
    }
    const { title, unit, decimals }: ColumnLook =
      typeof given === "string" || given === undefined ? { title: given ?? name } : given;
    const values = rows.map((row) => (row as Readonly<Record<string, unknown>>)[name]);
    const numbers = values
      .filter((value): value is number => typeof value === "number")
      .map((value) => inUnit(value, unit));
    return {
      name,
      title,
      unit,
      numeric: numbers.length > 0,
      decimals: decimals ?? usualDecimals(numbers, unit),
    };
  });
}

/** Three significant digits of the largest number; none for whole numbers, at least one for per cent. */
function usualDecimals(numbers: readonly number[], unit: UnitName | "%" | undefined): number {
  const finite = numbers.filter(Number.isFinite);
  if (finite.every(Number.isInteger)) return 0;
  if (unit === "%") return 1;
  const largest = Math.max(...finite.map(Math.abs));
  return largest === 0 ? 0 : Math.min(8, Math.max(0, 2 - Math.floor(Math.log10(largest))));
}

function inUnit(value: number, unit: UnitName | "%" | undefined): number {
  if (unit === undefined) return value;
  // A table's numbers come in SI; which dimension a column has, its unit says.
  return unit === "%" ? 100 * value : (u.to[unit] as (quantity: number) => number)(value);
}

function cellText(value: unknown, column: ShownColumn): string {
  if (value === undefined || value === null || (typeof value === "number" && Number.isNaN(value))) return "–";
  if (typeof value === "number") return inUnit(value, column.unit).toFixed(column.decimals);
  if (typeof value === "boolean") return value ? "yes" : "no";
  if (Array.isArray(value)) {
    return value.length === 0 ? "–" : value.map((one: unknown) => cellText(one, column)).join(", ");
  }
  return typeof value === "object" ? JSON.stringify(value) : String(value);
}

function head({ title, unit }: ShownColumn): string {
  if (unit === undefined) return title;
  return `${title} [${unit === "%" ? "%" : units[unit].symbol}]`;
}

const align = (column: ShownColumn): string =>
  column.numeric ? ' style="text-align:right"' : ' style="text-align:left"';

/** A Jupyter that does not trust a notebook yet drops every style and sets tables to the right; this attribute it keeps. */
const cellHtml = (text: string, { numeric }: ShownColumn): string =>
  numeric ? escapeHtml(text) : `<div align="left">${escapeHtml(text)}</div>`;

const capital = (text: string): string => text.charAt(0).toUpperCase() + text.slice(1);
