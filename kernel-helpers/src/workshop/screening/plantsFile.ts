import { createReadStream } from "node:fs";
import { RecordsError } from "../../records/offence";
import { checkRecords } from "../../records/records";
import { readTable } from "../../records/readTable";
import { messageOf } from "../failureText";
import { type CatchmentPlant, plantRecord } from "./plantRecord";
import { strikeSlope } from "./strikeSlope";

/** Some records of a file as text, with the file's head. */
export interface TextBatch {
  /** From 0. */
  readonly index: number;
  readonly head: string;
  readonly records: readonly string[];
  /** The line of the file in which the first of them begins, counted from 1. */
  readonly firstLine: number;
}

/** Reads a file of records a few at a time; a line break inside quotation marks ends no record. */
export async function* textBatches(path: string, size: number): AsyncGenerator<TextBatch> {
  let head: string | undefined;
  let records: string[] = [];
  let index = 0;
  let line = 1;
  let firstLine = 2;
  for await (const { text, lines } of recordTexts(path)) {
    if (head === undefined) head = text;
    else {
      if (records.length === 0) firstLine = line;
      records.push(text);
      if (records.length === size) {
        yield { index, head, records, firstLine };
        index += 1;
        records = [];
      }
    }
    line += lines;
  }
  if (records.length > 0 || index === 0) yield { index, head: head ?? "", records, firstLine };
}

/** The records of a file one by one, each with the number of lines that it takes. */
async function* recordTexts(path: string): AsyncGenerator<{ readonly text: string; readonly lines: number }> {
  let rest = "";
  for await (const chunk of createReadStream(path, { encoding: "utf8", highWaterMark: 1 << 20 })) {
    // An encoding is set, so the chunks are text.
    rest += chunk as string;
    let from = 0;
    let end = rest.indexOf("\n");
    while (end >= 0) {
      const text = rest.slice(from, end);
      if (isWhole(text)) {
        yield { text: withoutReturn(text), lines: text.split("\n").length };
        from = end + 1;
      }
      end = rest.indexOf("\n", end + 1);
    }
    rest = rest.slice(from);
    if (rest.length > longestRecord) {
      throw new RangeError(
        `${path} has a record of more than a million characters; look for a lost line break or quotation mark.`,
      );
    }
  }
  if (rest !== "") yield { text: withoutReturn(rest), lines: rest.split("\n").length };
}

const longestRecord = 1_000_000;

/** An even number of quotation marks: none is open. */
const isWhole = (text: string): boolean => !text.includes('"') || text.split('"').length % 2 === 1;

const withoutReturn = (text: string): string => (text.endsWith("\r") ? text.slice(0, -1) : text);

/** The checked plants of a batch, and what is wrong with the others, in sentences. */
export interface PlantBatch {
  readonly index: number;
  readonly plants: readonly CatchmentPlant[];
  readonly faults: readonly string[];
}

/** Checks the records of a batch against the schema, and that the strike equations take them. */
export async function checkBatch(place: string, batch: TextBatch): Promise<PlantBatch> {
  const bytes = new TextEncoder().encode([batch.head, ...batch.records].join("\n"));
  // The batch has its head in line 1 and its first record in line 2.
  const lineInFile = (line: number): number => (line === 1 ? 1 : line - 2 + batch.firstLine);
  const sentence = (line: number, text: string) => `${place}:${lineInFile(line)}${text}`;
  try {
    const table = await readTable(bytes, place);
    const { rows, setAside } = checkRecords(table, plantRecord, { setAside: true });
    const away = new Set(setAside.map(({ line }) => line));
    const lines = table.lines.filter((line) => !away.has(line));
    const faults = setAside.map(({ line, column, fault, allowed }) =>
      sentence(line, `${column === undefined ? "" : `, column ${column}`}: ${fault} Allowed: ${allowed}.`),
    );
    const refused = rows.flatMap((plant, at) => {
      try {
        strikeSlope(plant);
        return [];
      } catch (error) {
        if (!(error instanceof RangeError)) throw error;
        return [sentence(lines[at], `: ${error.message}`)];
      }
    });
    return { index: batch.index, plants: rows, faults: [...faults, ...refused] };
  } catch (error) {
    if (!(error instanceof RecordsError)) throw error;
    const faults = error.offences.map(({ line, column, fault, allowed }) =>
      line === undefined
        ? `${place}: ${fault} Allowed: ${allowed}.`
        : sentence(
            line,
            `${column === undefined ? "" : `, column ${column}`}: ${fault} Allowed: ${allowed}.`,
          ),
    );
    return { index: batch.index, plants: [], faults: faults.length > 0 ? faults : [messageOf(error)] };
  }
}
