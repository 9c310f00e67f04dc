import { readdirSync, readFileSync, rmSync } from "node:fs";
import { join } from "node:path";
import { expect, test } from "vitest";
import {
  codeCells,
  formatNotebook,
  parseNotebook,
  readNotebook,
  sourceText,
  writeNotebook,
} from "../../kernel-helpers/src/workshop/notebookFile";
import { notebookText, temporaryFolder } from "./tinyNotebooks";

const sound = JSON.parse(notebookText(["const a = 1;\na"]));
const faultOf = (change: (notebook: typeof sound) => unknown): string => {
  const copy = structuredClone(sound);
  const value = change(copy) ?? copy;
  try {
    parseNotebook(JSON.stringify(value), "x.ipynb");
  } catch (error) {
    return error instanceof Error ? error.message : "";
  }
  return "no fault";
};

test("a notebook is written as Jupyter writes it, byte for byte", () => {
  const text = `{
 "cells": [
  {
   "cell_type": "markdown",
   "id": "title",
   "metadata": {},
   "source": [
    "# Head loss → metres\\n",
    "text"
   ]
  },
  {
   "cell_type": "code",
   "execution_count": null,
   "id": "a",
   "metadata": {
    "tags": []
   },
   "outputs": [],
   "source": []
  }
 ],
 "metadata": {},
 "nbformat": 4,
 "nbformat_minor": 5
}
`;
  expect(formatNotebook(parseNotebook(text, "x.ipynb"))).toBe(text);
});

test("writing and reading again gives the same notebook, and leaves no other file", () => {
  const folder = temporaryFolder();
  const path = join(folder, "a.ipynb");
  const notebook = parseNotebook(JSON.stringify(sound), path);
  writeNotebook(path, notebook);
  const again = readNotebook(path);
  expect(codeCells(again).map(sourceText)).toEqual(["const a = 1;\na"]);
  writeNotebook(path, again);
  expect(readFileSync(path, "utf8")).toBe(formatNotebook(notebook));
  expect(readdirSync(folder)).toEqual(["a.ipynb"]);
  rmSync(folder, { recursive: true });
});

test("a file that is missing, cut or empty is told in a sentence with its path", () => {
  expect(() => readNotebook("/no/such.ipynb")).toThrow("/no/such.ipynb cannot be read: ENOENT");
  expect(() => parseNotebook(JSON.stringify(sound).slice(0, -1), "cut.ipynb")).toThrow(
    "cut.ipynb is not a notebook: it is not JSON (",
  );
  expect(() => parseNotebook("", "empty.ipynb")).toThrow("empty.ipynb is not a notebook: it is not JSON (");
  expect(() => parseNotebook("[]", "list.ipynb")).toThrow("it must be a JSON object");
});

test("a fault of the format is told with the value, what is allowed and where it stands", () => {
  expect(faultOf((notebook) => void (notebook.nbformat_minor = 4))).toBe(
    "x.ipynb is not a notebook that can be run: its format is 4.4, and it must be 4.5 or a later 4.",
  );
  expect(faultOf((notebook) => void (notebook.cells = {}))).toContain("it has no list of cells");
  expect(faultOf((notebook) => void delete notebook.metadata)).toContain("it has no metadata object");
  expect(faultOf((notebook) => void (notebook.cells[0].id = "a b"))).toContain(
    'item 1 of its cells has the id "a b"; allowed are 1 to 64 letters, digits, "-" and "_"',
  );
  expect(faultOf((notebook) => void delete notebook.cells[0].id)).toContain("item 1 of its cells has no id");
  expect(faultOf((notebook) => void notebook.cells.push(notebook.cells[0]))).toContain(
    'item 2 of its cells has the id "cell-1" of an earlier cell',
  );
  expect(faultOf((notebook) => void (notebook.cells[0].cell_type = "sql"))).toContain(
    'has the cell_type "sql"; allowed are code, markdown, raw',
  );
  expect(faultOf((notebook) => void (notebook.cells[0].source = [1]))).toContain("has no source text");
  expect(faultOf((notebook) => void delete notebook.cells[0].outputs)).toContain("has no list of outputs");
  expect(faultOf((notebook) => void (notebook.cells[0].execution_count = "1"))).toContain("execution_count");
  expect(faultOf((notebook) => void (notebook.cells[0].outputs = [{ output_type: "plot" }]))).toContain(
    'has an output of type "plot"; allowed are stream, display_data, execute_result, error',
  );
  expect(
    faultOf((notebook) => void (notebook.cells[0].outputs = [{ output_type: "stream", name: "stdout" }])),
  ).toContain("has a stream output without name or text");
  expect(
    faultOf((notebook) => void (notebook.cells[0].outputs = [{ output_type: "display_data" }])),
  ).toContain("has a display_data output without data");
  expect(faultOf((notebook) => void (notebook.cells = [null]))).toContain(
    "item 1 of its cells is not an object",
  );
});
