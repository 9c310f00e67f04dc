import { checkWhole } from "../statistics/checks";
import { readCsv } from "./csv";
import { Offence } from "./offence";
import { brokenTable, type Table } from "./table";
import { readXlsx } from "./xlsx";

const zipMark = [0x50, 0x4b];
/** Workbooks of before 2007, and protected ones of today. */
const oldWorkbookMark = [0xd0, 0xcf, 0x11, 0xe0];

/**
 * Takes a CSV or XLSX file apart. Returns its entries as text with their places; what is wrong with its form is
 * in the table's offences.
 */
export async function readTable(
  bytes: Uint8Array,
  place: string,
  options: { readonly sheet?: string; readonly separator?: string; readonly headLine?: number } = {},
): Promise<Table> {
  const { headLine = 1 } = options;
  checkWhole("readRecords", "headLine", headLine, 1);
  const starts = (mark: readonly number[]): boolean => mark.every((byte, i) => bytes[i] === byte);
  const broken = (explain: string): Table =>
    brokenTable(
      place,
      new Offence({ file: place }, "a CSV file (.csv) or an XLSX workbook (.xlsx)", () => explain),
    );
  const ending = /\.[^./]*$/.exec(place)?.[0].toLowerCase() ?? "";

  if (starts(oldWorkbookMark)) {
    return broken(
      "the file is a workbook of the old kind or a protected one; save it as CSV or as plain XLSX.",
    );
  }
  if (ending === ".xlsx") return readXlsx(bytes, place, { sheet: options.sheet, headLine });
  if (ending !== ".csv") return broken(`the name ends in "${ending}".`);
  if (starts(zipMark))
    return broken("the file is a workbook or another packed file, not text; name it .xlsx.");
  if (options.sheet !== undefined) return broken("a CSV file has no worksheets; leave out the option sheet.");
  return readCsv(bytes, place, { separator: options.separator, headLine });
}
