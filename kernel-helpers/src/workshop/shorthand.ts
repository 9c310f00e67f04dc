import type tsTypes from "typescript";

/** The part of TypeScript's programming interface that is used here; the kernel brings its own version. */
type Compiler = Pick<
  typeof tsTypes,
  "createSourceFile" | "forEachChild" | "isShorthandPropertyAssignment" | "ScriptTarget"
>;

interface Conversion {
  readonly diagnostics: readonly unknown[];
}

/** The part of the kernel's cell converter that is repaired here. */
export interface Converter {
  convert(previousDeclarations: string, source: string): Conversion;
}

/**
 * Writes out shorthand properties: `{ clearSpacing }` becomes `{ clearSpacing: clearSpacing }`.
 *
 * Returns the same text where there are none. Line numbers stay; columns may move.
 */
export function expandShorthand(compiler: Compiler, source: string): string {
  const file = compiler.createSourceFile("cell.ts", source, compiler.ScriptTarget.ES2022, true);
  const names: { readonly end: number; readonly name: string }[] = [];
  const visit = (node: tsTypes.Node): void => {
    if (compiler.isShorthandPropertyAssignment(node) && node.objectAssignmentInitializer === undefined) {
      names.push({ end: node.name.getEnd(), name: node.name.text });
    }
    compiler.forEachChild(node, visit);
  };
  visit(file);
  return names.reduceRight(
    (text, { end, name }) => `${text.slice(0, end)}: ${name}${text.slice(end)}`,
    source,
  );
}

/**
 * Repairs how tslab carries a variable from one cell to the next: it finds every mention but the shorthand property,
 * so that `{ clearSpacing }` in a later cell failed with "clearSpacing is not defined".
 *
 * The cell is checked as it was written, so that messages name the right columns; only a cell without errors is
 * converted again with its shorthand written out.
 */
export function repairShorthand<C extends Converter>(compiler: Compiler, converter: C): C {
  const convert = converter.convert.bind(converter);
  converter.convert = (previousDeclarations, source) => {
    const asWritten = convert(previousDeclarations, source);
    if (asWritten.diagnostics.length > 0) return asWritten;
    const expanded = expandShorthand(compiler, source);
    return expanded === source ? asWritten : convert(previousDeclarations, expanded);
  };
  return converter;
}
