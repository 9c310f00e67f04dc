/** How many offences a message spells out. */
const shownOffences = 20;

/** How much of a file's text a message quotes. */
const quotedCharacters = 60;

/** One thing in a file that its schema does not allow. */
export class Offence {
  /** The file's place, as the reader would write it. */
  readonly file: string;
  /** The line of a CSV file or the row of a worksheet, counted from 1; undefined if the whole file is meant. */
  readonly line: number | undefined;
  /** The column's head as it stands in the file; undefined if a whole line is meant. */
  readonly column: string | undefined;
  /** The entry as it stands in the file; undefined if there is none. */
  readonly value: string | undefined;
  /** What is allowed in its place, in words. */
  readonly allowed: string;
  readonly #explain: () => string;

  /** `explain` gives what is wrong and the remedy; it runs only when the sentence is read. */
  constructor(
    place: {
      readonly file: string;
      readonly line?: number;
      readonly column?: string;
      readonly value?: string;
    },
    allowed: string,
    explain: () => string,
  ) {
    this.file = place.file;
    this.line = place.line;
    this.column = place.column;
    this.value = place.value;
    this.allowed = allowed;
    this.#explain = explain;
  }

  /** What is wrong and the remedy. */
  get fault(): string {
    return this.#explain();
  }

  /** Where it stands, the value, what is wrong, the remedy and what is allowed. */
  get sentence(): string {
    const line = this.line === undefined ? "" : `:${this.line}`;
    const column = this.column === undefined ? "" : `, column ${shorten(this.column)}`;
    return `${shorten(this.file, 200)}${line}${column}: ${this.fault} Allowed: ${this.allowed}.`;
  }
}

/** A file whose records can't be used as they stand. Every offence is in `offences`; the message shows the first twenty. */
export class RecordsError extends Error {
  declare readonly offences: readonly Offence[];

  constructor(title: string, offences: readonly Offence[]) {
    const sorted = offences.toSorted((a, b) => (a.line ?? 0) - (b.line ?? 0));
    const file = shorten(sorted[0]?.file ?? "", 200);
    const count = sorted.length;
    const more = count - shownOffences;
    super(
      [
        `${file} can't be read as "${title}": ${count} ${count === 1 ? "fault" : "faults"}. None of its records is used.`,
        ...sorted.slice(0, shownOffences).map((offence) => offence.sentence),
        ...(more > 0 ? [`… and ${more} more.`] : []),
      ].join("\n"),
    );
    this.name = "RecordsError";
    // Not enumerable: where the error is printed, the message has said it all.
    Object.defineProperty(this, "offences", { value: sorted });
  }
}

/** A file's text for a message: at most `characters` long, with control and invisible characters spelled out. */
export function shorten(text: string, characters = quotedCharacters): string {
  const kept = text.length > characters ? text.slice(0, characters).replace(/[\uD800-\uDBFF]$/, "") : text;
  const visible = kept.replace(/[\p{Cc}\p{Cf}\p{Cs}\p{Zl}\p{Zp}]/gu, (character) => {
    const named = { "\n": "\\n", "\r": "\\r", "\t": "\\t" }[character];
    return named ?? `\\u{${character.codePointAt(0)?.toString(16)}}`;
  });
  return kept === text ? visible : `${visible}… (${text.length} characters)`;
}

/** The same in quotation marks. */
export function quote(text: string): string {
  return `"${shorten(text)}"`;
}
