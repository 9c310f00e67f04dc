import { Offence, quote } from "./offence";
import { type CsvForm, readPlain } from "./plainCsv";
import { brokenTable, type Table, TableBuilder } from "./table";

const mega = 1_000_000;
/** Text beyond this size is no table that a notebook can hold. */
const largestFile = 300 * mega;
/** A line beyond this length is no record: a lost line break, or no CSV file at all. */
const longestLine = mega;

const asTable = "a CSV file in UTF-8, its entries apart by commas, one record a line";

/** Takes a CSV file apart: a separator between entries, quotation marks round an entry that holds one. */
export async function readCsv(
  bytes: Uint8Array,
  place: string,
  { separator = ",", headLine = 1 }: Partial<CsvForm> = {},
): Promise<Table> {
  const form = formOffences(bytes, place);
  if (form.length > 0) return brokenTable(place, ...form);

  const text = new TextDecoder("utf-8").decode(bytes);
  const from = startOfLine(text, headLine);
  if (from === undefined) return brokenTable(place, noHeadLine(place, headLine, asTable));
  const below = text.slice(from);
  const written = { separator, headLine };
  return below.includes('"') ? readQuoted(below, place, written) : readPlain(below, place, written);
}

/** Where a line begins, counted from 1; undefined where the text ends before. */
function startOfLine(text: string, line: number): number | undefined {
  const ends = /\r\n?|\n/g;
  for (let at = 1; at < line; at++) if (!ends.test(text)) return undefined;
  const from = line === 1 ? 0 : ends.lastIndex;
  return line > 1 && from === text.length ? undefined : from;
}

/** The line that should hold the names of the columns is not there. */
export function noHeadLine(place: string, headLine: number, allowed: string): Offence {
  return new Offence({ file: place }, allowed, () => {
    return `there is no line ${headLine}, which headLine names as that of the columns' names.`;
  });
}

function formOffences(bytes: Uint8Array, place: string): Offence[] {
  const whole = (explain: string): Offence[] => [new Offence({ file: place }, asTable, () => explain)];
  if (bytes.length === 0 || isMarkAlone(bytes)) return whole("the file is empty.");
  if (bytes.length > largestFile) {
    return whole(
      `the file has ${Math.round(bytes.length / mega)} MB; at most ${largestFile / mega} MB are read. Split it.`,
    );
  }
  if ((bytes[0] === 0xff && bytes[1] === 0xfe) || (bytes[0] === 0xfe && bytes[1] === 0xff)) {
    return whole("the text is UTF-16; save it as CSV in UTF-8.");
  }
  const long = longLine(bytes);
  if (long !== undefined) {
    return [
      new Offence({ file: place, line: long }, asTable, () => {
        return `the line is longer than ${longestLine / mega} MB; look for lost line breaks.`;
      }),
    ];
  }
  if (bytes.includes(0)) return whole("the file holds zero bytes, as no text does; save the table as CSV.");
  return encodingOffences(bytes, place);
}

/** A file may hold nothing but the mark of its encoding. */
function isMarkAlone(bytes: Uint8Array): boolean {
  return bytes.length === 3 && bytes[0] === 0xef && bytes[1] === 0xbb && bytes[2] === 0xbf;
}

/** The first line that is too long, counted from 1. */
function longLine(bytes: Uint8Array): number | undefined {
  const lineFeed = 10;
  const carriageReturn = 13;
  for (let start = 0, line = 1; start < bytes.length; line++) {
    let end = bytes.indexOf(lineFeed, start);
    if (end < 0) end = bytes.length;
    if (end - start > longestLine) {
      const other = bytes.subarray(start, end).indexOf(carriageReturn);
      if (other < 0 || other > longestLine) return line;
      end = start + other;
    }
    start = end + 1;
  }
  return undefined;
}

function encodingOffences(bytes: Uint8Array, place: string): Offence[] {
  const strict = new TextDecoder("utf-8", { fatal: true });
  const fits = (part: Uint8Array): boolean => {
    try {
      strict.decode(part);
      return true;
    } catch {
      return false;
    }
  };
  if (fits(bytes)) return [];
  const offences: Offence[] = [];
  for (let start = 0, line = 1; start < bytes.length; line++) {
    const feed = bytes.indexOf(10, start);
    const end = feed < 0 ? bytes.length : feed;
    const part = bytes.subarray(start, end);
    if (!fits(part)) {
      const value = new TextDecoder("utf-8").decode(part);
      offences.push(
        new Offence({ file: place, line, value }, "text in UTF-8", () => {
          return `${quote(value)} is not UTF-8; save the file as CSV in UTF-8.`;
        }),
      );
    }
    start = end + 1;
  }
  return offences;
}

/** Empty lines at the end of a file are no records; in a table of one column they may be: an entry is missing. */
function endOfRecords(count: number, width: number, isEmpty: (index: number) => boolean): number {
  if (width === 1) return count;
  let end = count;
  while (end > 1 && isEmpty(end - 1)) end--;
  return end;
}

async function readQuoted(text: string, place: string, { separator, headLine }: CsvForm): Promise<Table> {
  const { CsvError, parse } = await import("csv-parse/sync");
  const options = {
    delimiter: separator,
    record_delimiter: ["\r\n", "\n", "\r"],
    relax_column_count: true,
    max_record_size: longestLine,
  };
  let records: string[][];
  try {
    records = parse(text, options);
  } catch (error) {
    if (!(error instanceof CsvError)) throw error;
    // The number of records that were read whole leads to the line where the broken one begins.
    const whole = Number(error.records);
    const before = whole > 0 ? parse(text, { ...options, to: whole }) : [];
    const [firstLine] = text.split(/[\r\n]/, 1);
    const remark = separatorRemark(firstLine, separator);
    return brokenTable(place, quoteOffence(error.code, place, headLine + linesOf(before), remark));
  }
  const heads = records[0];
  const builder = new TableBuilder(place, heads, { separator, headLine });
  const isEmpty = (index: number): boolean => records[index].length === 1 && records[index][0] === "";
  const end = endOfRecords(records.length, heads.length, isEmpty);
  let line = headLine + linesOf([heads]);
  for (let index = 1; index < end; index++) {
    builder.add(records[index], line);
    line += linesOf([records[index]]);
  }
  return builder.table();
}

/** How many lines records take: an entry in quotation marks may hold line breaks. */
function linesOf(records: readonly (readonly string[])[]): number {
  let lines = records.length;
  for (const cells of records) {
    for (const cell of cells) {
      if (cell.includes("\n") || cell.includes("\r")) lines += cell.match(/\r\n|\n|\r/g)?.length ?? 0;
    }
  }
  return lines;
}

/** A mark inside an entry may also come from columns that are apart by another sign than the one read with. */
function separatorRemark(firstLine: string, separator: string): string {
  if (firstLine.includes(separator)) return "";
  const other = [";", "\t", "|", ","].find((sign) => firstLine.includes(sign));
  if (other === undefined) return "";
  return ` If the columns are apart by ${JSON.stringify(other)}, read the file with separator: ${JSON.stringify(other)}.`;
}

function quoteOffence(code: string, place: string, line: number, remark: string): Offence {
  const reasons: Readonly<Record<string, string>> = {
    CSV_QUOTE_NOT_CLOSED: "a quotation mark opens here and never closes; close it.",
    CSV_INVALID_CLOSING_QUOTE:
      "something stands between a closing quotation mark and the comma; double a mark that belongs to the text.",
    INVALID_OPENING_QUOTE:
      "a quotation mark stands inside an entry; put the whole entry in marks and double the one that belongs to it.",
    CSV_MAX_RECORD_SIZE: `the record is longer than ${longestLine / mega} MB; look for a quotation mark that does not close.`,
  };
  const reason = reasons[code] ?? `the quotation marks can't be read (${code}).`;
  return new Offence({ file: place, line }, asTable, () => reason + remark);
}
