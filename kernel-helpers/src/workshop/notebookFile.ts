/** A notebook file (.ipynb, nbformat 4.5): read and checked, written so that differences stay small. */
import { readFileSync, renameSync, rmSync, writeFileSync } from "node:fs";
import { messageOf } from "./failureText";
import { inKeyOrder, isJsonObject, type JsonObject } from "./json";
import { joined, lines, type Output } from "./outputs";

export interface Cell {
  cell_type: "code" | "markdown" | "raw";
  id: string;
  metadata: JsonObject;
  source: string | string[];
}

export interface CodeCell extends Cell {
  cell_type: "code";
  execution_count: number | null;
  outputs: Output[];
}

export interface Notebook {
  nbformat: 4;
  nbformat_minor: number;
  metadata: JsonObject;
  cells: Cell[];
}

/** Returns whether the cell holds code. */
export function isCodeCell(cell: Cell): cell is CodeCell {
  return cell.cell_type === "code";
}

/** Returns the code cells of a notebook, in order: cell 1 of every report is the first of them. */
export function codeCells(notebook: Notebook): CodeCell[] {
  return notebook.cells.filter(isCodeCell);
}

/** Returns the text of a cell. */
export function sourceText(cell: Cell): string {
  return joined(cell.source);
}

/**
 * Reads a notebook file.
 *
 * Returns the notebook. Throws an `Error` in a sentence that names the file and what is wrong with it.
 */
export function readNotebook(path: string): Notebook {
  let text: string;
  try {
    text = readFileSync(path, "utf8");
  } catch (cause) {
    throw new Error(`${path} cannot be read: ${messageOf(cause)}.`, { cause });
  }
  return parseNotebook(text, path);
}

/** Reads a notebook from text; `path` is for the sentence when something is wrong with it. */
export function parseNotebook(text: string, path: string): Notebook {
  let value: unknown;
  try {
    value = JSON.parse(text);
  } catch (cause) {
    throw new Error(`${path} is not a notebook: it is not JSON (${messageOf(cause)}).`, { cause });
  }
  const faults = notebookFaults(value);
  if (faults.length > 0) throw new Error(`${path} is not a notebook that can be run: ${faults.join("; ")}.`);
  // Checked above, property by property.
  return value as Notebook;
}

/** Writes a notebook. The file is replaced in one step, so that an interruption leaves the old one whole. */
export function writeNotebook(path: string, notebook: Notebook): void {
  const unfinished = `${path}.${process.pid}.unfinished`;
  try {
    writeFileSync(unfinished, formatNotebook(notebook));
    renameSync(unfinished, path);
  } catch (error) {
    rmSync(unfinished, { force: true });
    throw error;
  }
}

/**
 * Returns the text of a notebook file as Jupyter writes it: keys in order, text in lines, one space a level,
 * a line end.
 */
export function formatNotebook(notebook: Notebook): string {
  const cells = notebook.cells.map((cell) => ({ ...cell, source: lines(sourceText(cell)) }));
  return `${JSON.stringify(inKeyOrder({ ...notebook, cells }), undefined, 1)}\n`;
}

const cellTypes = ["code", "markdown", "raw"];
const outputTypes = ["stream", "display_data", "execute_result", "error"];
const allowedId = /^[a-zA-Z0-9_-]{1,64}$/;

function notebookFaults(value: unknown): string[] {
  if (!isJsonObject(value)) return ["it must be a JSON object"];
  const { nbformat, nbformat_minor: minor, metadata, cells } = value;
  if (nbformat !== 4 || typeof minor !== "number" || minor < 5) {
    return [`its format is ${String(nbformat)}.${String(minor)}, and it must be 4.5 or a later 4`];
  }
  if (!isJsonObject(metadata)) return ["it has no metadata object"];
  if (!Array.isArray(cells)) return ["it has no list of cells"];
  const seen = new Set<string>();
  return cells.flatMap((cell: unknown, index) => {
    const where = `item ${index + 1} of its cells`;
    if (!isJsonObject(cell)) return [`${where} is not an object`];
    return [...idFaults(cell["id"], seen), ...cellFaults(cell)].map((fault) => `${where} ${fault}`);
  });
}

function idFaults(id: unknown, seen: Set<string>): string[] {
  if (typeof id !== "string") return ["has no id"];
  if (!allowedId.test(id)) return [`has the id "${id}"; allowed are 1 to 64 letters, digits, "-" and "_"`];
  if (seen.has(id)) return [`has the id "${id}" of an earlier cell`];
  seen.add(id);
  return [];
}

function cellFaults(cell: JsonObject): string[] {
  const faults: string[] = [];
  const type = cell["cell_type"];
  if (typeof type !== "string" || !cellTypes.includes(type)) {
    faults.push(`has the cell_type ${JSON.stringify(type)}; allowed are ${cellTypes.join(", ")}`);
  }
  if (!isText(cell["source"])) faults.push("has no source text");
  if (!isJsonObject(cell["metadata"])) faults.push("has no metadata object");
  if (type !== "code") return faults;
  const count = cell["execution_count"];
  if (count !== null && typeof count !== "number") faults.push("has an execution_count that is no number");
  const outputs = cell["outputs"];
  if (!Array.isArray(outputs)) return [...faults, "has no list of outputs"];
  return [...faults, ...outputs.flatMap(outputFaults)];
}

function outputFaults(output: unknown): string[] {
  const type = isJsonObject(output) ? output["output_type"] : undefined;
  if (!isJsonObject(output) || typeof type !== "string" || !outputTypes.includes(type)) {
    return [`has an output of type ${JSON.stringify(type)}; allowed are ${outputTypes.join(", ")}`];
  }
  if (type === "stream" && !(isText(output["text"]) && typeof output["name"] === "string")) {
    return ["has a stream output without name or text"];
  }
  if ((type === "display_data" || type === "execute_result") && !isJsonObject(output["data"])) {
    return [`has a ${type} output without data`];
  }
  return [];
}

function isText(value: unknown): value is string | string[] {
  return (
    typeof value === "string" || (Array.isArray(value) && value.every((line) => typeof line === "string"))
  );
}
