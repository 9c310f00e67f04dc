import { Offence } from "./offence";

/** The entries of one column as text, from top to bottom. */
export interface Cells {
  readonly length: number;
  at(index: number): string | undefined;
}

/** A file's entries as text, column by column, with the places where they stand. */
export interface Table {
  /** The file's place, as the reader would write it. */
  readonly place: string;
  /** The line in which the heads stand, counted from 1. */
  readonly headLine: number;
  /** The heads of the columns as they stand in the file; none if the file could not be taken apart. */
  readonly heads: readonly string[];
  /** One list of entries a column. */
  readonly columns: readonly Cells[];
  /** The line (the row of a worksheet) of each record, counted from 1. */
  readonly lines: readonly number[];
  /** What is wrong with the file's form, found while it was taken apart. */
  readonly offences: readonly Offence[];
}

/** A file that could not be taken apart, with the reasons. */
export function brokenTable(place: string, ...offences: Offence[]): Table {
  return { place, headLine: 1, heads: [], columns: [], lines: [], offences };
}

/** Sorts lines of cells into columns; an empty line and one of another length than the heads' are offences. */
export class TableBuilder {
  readonly #place: string;
  readonly #heads: readonly string[];
  readonly #columns: string[][];
  readonly #lines: number[] = [];
  readonly #offences: Offence[] = [];

  readonly #separator: string;
  readonly #headLine: number;

  constructor(place: string, heads: readonly string[], { separator = ",", headLine = 1 } = {}) {
    this.#separator = separator;
    this.#headLine = headLine;
    this.#place = place;
    this.#heads = heads;
    this.#columns = heads.map(() => []);
  }

  add(cells: readonly string[], line: number): void {
    const columns = this.#columns;
    if (cells.length !== columns.length || (cells.length > 1 && cells.every((cell) => cell === ""))) {
      this.#refuse(cells, line);
      return;
    }
    for (let c = 0; c < columns.length; c++) columns[c].push(cells[c]);
    this.#lines.push(line);
  }

  #refuse(cells: readonly string[], line: number): void {
    const wanted = this.#heads.length;
    const found = cells.length;
    const empty = cells.every((cell) => cell === "");
    const tooMany = cells.length - 1 - cells.findLastIndex((cell) => cell.trim() !== "");
    this.#offences.push(
      new Offence(
        { file: this.#place, line, value: cells.join(this.#separator) },
        `${wanted} ${wanted === 1 ? "entry" : "entries"}, as many as ${this.#headLine === 1 ? "the first line" : `line ${this.#headLine}`} has`,
        () =>
          empty
            ? "the line is empty; take it out."
            : `the line has ${found} ${found === 1 ? "entry" : "entries"}; ` +
              (found > wanted && found - tooMany <= wanted
                ? `take out the ${this.#called} at its end.`
                : found > wanted
                  ? `${this.#separator === "," ? "write decimals with a point, and " : ""}put a text that holds a ${this.#called} in quotation marks.`
                  : `write a ${this.#called} for every entry that is missing.`),
      ),
    );
  }

  get #called(): string {
    return { ";": "semicolon", "\t": "tab", "|": "upright stroke" }[this.#separator] ?? "comma";
  }

  table(): Table {
    return {
      place: this.#place,
      headLine: this.#headLine,
      heads: this.#heads,
      columns: this.#columns,
      lines: this.#lines,
      offences: this.#offences,
    };
  }
}
