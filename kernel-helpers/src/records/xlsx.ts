import { noHeadLine } from "./csv";
import { nearest } from "./nearest";
import { Offence, quote } from "./offence";
import { brokenTable, type Table, TableBuilder } from "./table";
import { type WorksheetCells, scanWorksheet, worksheetFiles } from "./worksheetCells";
import { type ZipEntry, entryText, zipEntries } from "./zip";

const mega = 1_000_000;
/** A workbook unpacks to many times its size; one that unpacks to more than this is no survey. */
const largestUnpacked = 250 * mega;
/** One cell at the far corner makes a sheet of seventeen thousand million empty ones. */
const mostCells = 10 * mega;

const asWorkbook = "an XLSX workbook whose worksheet holds the names of the columns in its first row";

/** What a cell holds, as the reader of workbooks gives it; numbers stay in the file's own digits. */
type Cell = string | boolean | Date | null;

/** Takes a worksheet apart. Formulas count with the values that were stored when the workbook was saved. */
export async function readXlsx(
  bytes: Uint8Array,
  place: string,
  { sheet, headLine = 1 }: { readonly sheet?: string; readonly headLine?: number } = {},
): Promise<Table> {
  const broken = (explain: string): Table =>
    brokenTable(place, new Offence({ file: place }, asWorkbook, () => explain));

  const entries = zipEntries(bytes);
  if (entries === undefined) return broken("the file is no workbook, or its end is missing; save it again.");
  const unpacked = entries.reduce((sum, { size }) => sum + size, 0);
  if (unpacked > largestUnpacked) {
    return broken(
      `the workbook unpacks to ${Math.round(unpacked / mega)} MB; at most ${largestUnpacked / mega} MB are read.`,
    );
  }

  let scans: WorksheetCells[];
  let sheets: { readonly sheet: string; readonly data: readonly (readonly Cell[])[] }[];
  try {
    scans = await scanWorksheets(entries);
    if (scans.some(({ rows, columns }) => rows * columns > mostCells)) {
      return broken(
        `a worksheet reaches over more than ${mostCells / mega} million cells; delete the stray entry far out.`,
      );
    }
    const { default: readWorkbook } = await import("read-excel-file/universal");
    // Its declaration says `typeof Date` where it gives a Date, and forgets that an empty cell is null.
    sheets = (await readWorkbook<string>(new Blob([new Uint8Array(bytes)]), {
      trim: false,
      parseNumber: (text) => text,
    })) as unknown as typeof sheets;
  } catch (error) {
    const reason = error instanceof Error ? error.message : String(error);
    return broken(`the workbook is damaged or no XLSX workbook (${reason}); save it again.`);
  }

  const names = sheets.map(({ sheet: name }) => name);
  const filled = sheets.filter(({ data }) => data.length > 0).map(({ sheet: name }) => name);
  if (filled.length === 0) return broken("the workbook is empty.");
  if (sheet === undefined && filled.length > 1) {
    return broken(
      `the workbook has ${filled.length} worksheets: ${filled.map(quote).join(", ")}; ` +
        `name the one to read: readRecords(name, schema, { sheet: ${quote(filled[0])} }).`,
    );
  }
  const wanted = sheet ?? filled[0];
  const index = names.indexOf(wanted);
  if (index < 0) {
    const near = nearest(wanted, names);
    return broken(
      `there is no worksheet ${quote(wanted)}; ${near === undefined ? "" : `did you mean ${quote(near)}? `}` +
        `The workbook has ${names.map(quote).join(", ")}.`,
    );
  }
  if (!filled.includes(wanted)) return broken(`the worksheet ${quote(wanted)} is empty.`);
  if (headLine > sheets[index].data.length)
    return brokenTable(place, noHeadLine(place, headLine, asWorkbook));
  return tableOf(sheets[index].data, scans[index], place, headLine);
}

async function scanWorksheets(entries: readonly ZipEntry[]): Promise<WorksheetCells[]> {
  const text = async (name: string): Promise<string> => {
    const entry = entries.find((candidate) => candidate.name === name);
    if (entry === undefined) throw new Error(`${name} is missing`);
    return entryText(entry);
  };
  const files = worksheetFiles(await text("xl/workbook.xml"), await text("xl/_rels/workbook.xml.rels"));
  const scans: WorksheetCells[] = [];
  // One after the other, so that one unpacked sheet is in memory at a time.
  for (const file of files) scans.push(scanWorksheet(await text(file)));
  return scans;
}

function tableOf(
  data: readonly (readonly Cell[])[],
  scan: WorksheetCells,
  place: string,
  headLine: number,
): Table {
  const rows = data.slice(headLine - 1).map((row) => row.map(cellText));
  const width = Math.max(...rows.map((row) => row.findLastIndex((cell) => cell !== "") + 1), scan.columns);
  const padded = (row: readonly string[]): string[] => Array.from({ length: width }, (_, c) => row[c] ?? "");
  const heads = padded(rows[0]);
  while (heads.length > 1 && rows.every((row) => (row[heads.length - 1] ?? "") === "")) heads.pop();

  const builder = new TableBuilder(place, heads, { headLine });
  rows.forEach((row, index) => {
    if (index === 0) return;
    const empty = row.every((cell) => cell === "");
    builder.add(empty ? [""] : padded(row).slice(0, heads.length), headLine + index);
  });
  const table = builder.table();
  const below = scan.faulty.filter(({ row }) => row >= headLine);
  const faulty = below.map(({ row, column, error }) => {
    const at = { file: place, line: row, column: heads[column - 1] ?? `${column}`, value: error ?? "" };
    return new Offence(at, "a value", () =>
      error === undefined
        ? "the formula was never calculated; open the workbook, let it calculate and save it."
        : `the formula gives ${quote(error)}; mend it, or leave the cell empty.`,
    );
  });
  return { ...table, offences: [...table.offences, ...faulty] };
}

function cellText(cell: Cell): string {
  if (cell === null) return "";
  if (typeof cell === "boolean") return cell ? "TRUE" : "FALSE";
  if (typeof cell === "string") return cell;
  const [day, time] = cell.toISOString().split("T");
  return time === "00:00:00.000Z" ? day : `${day}T${time}`;
}
