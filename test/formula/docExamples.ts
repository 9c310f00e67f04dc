import { readdirSync, readFileSync } from "node:fs";
import { join, relative, sep } from "node:path";
import { fileURLToPath } from "node:url";
import ts from "typescript";
import * as helpers from "kernel-helpers";
import type { InputValues } from "../../kernel-helpers/src/formula/input";

const source = fileURLToPath(new URL("../../kernel-helpers/src", import.meta.url));

/** A docstring's example: an expression and what it prints, as in `// => 27.613 m`. */
export interface DocExample {
  readonly file: string;
  readonly name: string;
  /** The formula's id where the docstring belongs to one. */
  readonly formulaId: string | undefined;
  readonly docstring: string;
  readonly code: string;
  readonly printed: string;
}

/** Rooms whose examples build figures, read files or drive a kernel; their own tests run what they show. */
const otherRooms = ["figures", "host", "notebook", "records", "schema", "workshop"];

/** Every declaration with an example that ends in `// => …`, and every formula whether it has one or not. */
export function docExamples(): readonly DocExample[] {
  return readdirSync(source, { recursive: true, encoding: "utf8" })
    .filter((path) => path.endsWith(".ts") && !otherRooms.includes(path.split(sep)[0]))
    .flatMap((path) => examplesOf(join(source, path)));
}

function examplesOf(path: string): DocExample[] {
  const text = readFileSync(path, "utf8");
  const file = ts.createSourceFile(path, text, ts.ScriptTarget.Latest, true);
  return file.statements.flatMap((statement) => {
    const found = ts.getJSDocCommentsAndTags(statement).filter(ts.isJSDoc).at(-1);
    const docstring = found?.getText(file) ?? "";
    // The raw text, not the parser's: it drops the line breaks inside an example.
    const [, example = ""] = /@example\s*([\s\S]*?)(?:\n\s*\*\s*@|\*\/$)/.exec(docstring) ?? [];
    const lines = example.replaceAll(/^[ \t]*\* ?/gm, "").trim();
    const [, code = "", printed = ""] = /^([\s\S]*?)\s*\/\/ => (.*)$/.exec(lines) ?? [];
    const formulaId = /^export const \w+ = defineFormula\(\{\s*id: "([^"]+)"/.exec(
      statement.getText(file),
    )?.[1];
    if (code === "" && formulaId === undefined) return [];
    const name = /^export (?:async )?(?:const|function) (\w+)/.exec(statement.getText(file))?.[1] ?? "";
    return [{ file: relative(source, path), name, formulaId, docstring, code, printed }];
  });
}

/** Runs an example's code as a cell would, with everything that "kernel-helpers" exports at hand. */
export function run(code: string): unknown {
  // eslint-disable-next-line no-new-func -- the docstring is source code of this repository
  return new Function(...Object.keys(helpers), `"use strict"; return (${code});`)(...Object.values(helpers));
}

/** Returns the inputs with which a formula's example calls it. */
export function exampleInputs(id: string): InputValues {
  const example = docExamples().find((one) => one.formulaId === id);
  if (example === undefined || example.code === "") throw new Error(`${id} has no docstring example`);
  const file = ts.createSourceFile("example.ts", example.code, ts.ScriptTarget.Latest, true);
  let inputs: string | undefined;
  const visit = (node: ts.Node): void => {
    if (ts.isCallExpression(node) && node.expression.getText(file) === id)
      inputs = node.arguments[0]?.getText(file) ?? "{}";
    ts.forEachChild(node, visit);
  };
  visit(file);
  if (inputs === undefined) throw new Error(`the docstring example of ${id} does not call ${id}`);
  return run(inputs) as InputValues; // what the example passes to the formula
}
