/**
 * A table as CSV text: commas, LF line ends, a line end after the last row, quotes only where a cell needs them.
 *
 * Throws where a row has more or fewer cells than the header.
 *
 * @example
 * csvText(["date", "discharge [m3/s]"], [["2012-01-01", "41.20"]]) // => "date,discharge [m3/s]\n2012-01-01,41.20\n"
 */
export function csvText(header: readonly string[], rows: Iterable<readonly string[]>): string {
  const lines = [header.map(cell).join(",")];
  for (const row of rows) {
    if (row.length !== header.length) {
      throw new RangeError(
        `csvText: row ${lines.length} has ${row.length} cells; the header has ${header.length} columns.`,
      );
    }
    lines.push(row.map(cell).join(","));
  }
  return `${lines.join("\n")}\n`;
}

function cell(text: string): string {
  return /[",\r\n]/.test(text) ? `"${text.replaceAll('"', '""')}"` : text;
}
