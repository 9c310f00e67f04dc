import type { Cells, Table } from "./table";
import { TableBuilder } from "./table";

const lineFeed = 10;

/** How a CSV file is written. */
export interface CsvForm {
  readonly separator: string;
  /** The line in which the names of the columns stand, counted from 1; what stands above is no record. */
  readonly headLine: number;
}

/** The cells of one column, cut out of the file's text when they are asked for: a million texts of their own would fill the memory. */
class TextCells implements Cells {
  readonly #text: string;
  readonly #bounds: Uint32Array;
  readonly #column: number;
  readonly #width: number;
  readonly length: number;

  constructor(text: string, bounds: Uint32Array, column: number, width: number, length: number) {
    this.#text = text;
    this.#bounds = bounds;
    this.#column = column;
    this.#width = width;
    this.length = length;
  }

  at(index: number): string {
    const from = index * (this.#width + 1) + this.#column;
    // A bound is where a cell begins; the one before the next begins is the separator's or the line's end.
    return this.#text.slice(this.#bounds[from], this.#bounds[from + 1] - 1);
  }
}

/** Takes a CSV text without quotation marks apart: every separator parts two entries and every line break two records. */
export function readPlain(content: string, place: string, { separator, headLine }: CsvForm): Table {
  const text = content.includes("\r") ? content.replaceAll(/\r\n?/g, "\n") : content;
  const headEnd = endOfLine(text, 0);
  const heads = text.slice(0, headEnd).split(separator);
  const width = heads.length;
  const end = endOfRecords(text, width);
  const mark = separator.charCodeAt(0);
  // Lines of another length than the first are refused one by one.
  const refused = new TableBuilder(place, heads, { separator, headLine });
  const bounds = new Uint32Array(linesIn(text, headEnd + 1, end) * (width + 1));
  const lines: number[] = [];
  for (let start = headEnd + 1, line = headLine + 1; start < end; line++) {
    const first = lines.length * (width + 1);
    let cells = 0;
    let at = start;
    bounds[first] = start;
    for (
      let code = text.charCodeAt(at);
      at < text.length && code !== lineFeed;
      code = text.charCodeAt(++at)
    ) {
      if (code !== mark) continue;
      cells++;
      if (cells <= width) bounds[first + cells] = at + 1;
    }
    cells++;
    // A line of separators alone is an empty one.
    const empty = width > 1 && at - start === width - 1;
    if (cells === width && !empty) {
      bounds[first + width] = at + 1;
      lines.push(line);
    } else refused.add(text.slice(start, at).split(separator), line);
    start = at + 1;
  }
  const columns = heads.map((_, column) => new TextCells(text, bounds, column, width, lines.length));
  return { place, headLine, heads, columns, lines, offences: refused.table().offences };
}

function endOfLine(text: string, from: number): number {
  const end = text.indexOf("\n", from);
  return end < 0 ? text.length : end;
}

/** Empty lines at the end of a file are no records; in a table of one column they may be: an entry is missing. */
function endOfRecords(text: string, width: number): number {
  let end = text.endsWith("\n") ? text.length - 1 : text.length;
  if (width > 1) while (end > 0 && text.charCodeAt(end - 1) === lineFeed) end--;
  // One past the last record's last character, so that an empty last line is a line.
  return end + 1;
}

function linesIn(text: string, start: number, end: number): number {
  let lines = 0;
  for (let at = start; at < end; at = endOfLine(text, at) + 1) lines++;
  return lines;
}
