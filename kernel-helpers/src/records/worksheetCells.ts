/** A cell of a worksheet that holds no value of its own: a formula's error, or a formula that was never calculated. */
export interface FaultyCell {
  /** Row and column, counted from 1. */
  readonly row: number;
  readonly column: number;
  /** The error's name, such as #N/A; undefined if the formula was never calculated. */
  readonly error: string | undefined;
}

/** What a worksheet's own text says and its values do not. */
export interface WorksheetCells {
  readonly rows: number;
  readonly columns: number;
  readonly faulty: readonly FaultyCell[];
}

/** Scans a worksheet's XML: how far its cells reach, and which of them hold no value. */
export function scanWorksheet(xml: string): WorksheetCells {
  let rows = 0;
  let columns = 0;
  const faulty: FaultyCell[] = [];
  const cells = /<(?:\w+:)?c(?=[\s>/])([^>]*?)(?:\/>|>(.*?)<\/(?:\w+:)?c>)/gs;
  for (const [, attributes, content = ""] of xml.matchAll(cells)) {
    const address = /\br="([A-Z]{1,3})(\d{1,7})"/.exec(attributes);
    if (address === null) continue;
    const column = columnNumber(address[1]);
    const row = Number(address[2]);
    rows = Math.max(rows, row);
    columns = Math.max(columns, column);
    if (/\bt="e"/.test(attributes)) {
      faulty.push({ row, column, error: /<(?:\w+:)?v[^>]*>([^<]*)</.exec(content)?.[1] });
    } else if (/<(?:\w+:)?f[\s>/]/.test(content) && !/<(?:\w+:)?v[\s>/]/.test(content)) {
      faulty.push({ row, column, error: undefined });
    }
  }
  return { rows, columns, faulty };
}

/** A is 1, Z is 26, AA is 27. */
function columnNumber(letters: string): number {
  return [...letters].reduce((number, letter) => 26 * number + letter.charCodeAt(0) - 64, 0);
}

/** The file of each worksheet, in the workbook's order. */
export function worksheetFiles(workbook: string, relations: string): string[] {
  const targets = new Map(
    [...relations.matchAll(/<(?:\w+:)?Relationship\b[^>]*>/g)].map(([tag]) => [
      /\bId="([^"]*)"/.exec(tag)?.[1],
      /\bTarget="([^"]*)"/.exec(tag)?.[1],
    ]),
  );
  return [...workbook.matchAll(/<(?:\w+:)?sheet\s[^>]*>/g)].map(([tag]) => {
    const target = targets.get(/\b\w+:id="([^"]*)"/.exec(tag)?.[1]) ?? "";
    return target.startsWith("/") ? target.slice(1) : `xl/${target}`;
  });
}
