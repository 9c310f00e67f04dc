import type tsTypes from "typescript";

/** The part of TypeScript's programming interface that is used here; the kernel brings its own version. */
type Compiler = Pick<
  typeof tsTypes,
  | "createSourceFile"
  | "forEachChild"
  | "isBindingElement"
  | "isIdentifier"
  | "isShorthandPropertyAssignment"
  | "ScriptTarget"
>;

interface Conversion {
  /** The cell as it runs, in JavaScript. */
  readonly output?: string;
  readonly diagnostics: readonly unknown[];
}

/** The part of the kernel's cell converter that is repaired here. */
export interface Converter {
  convert(previousDeclarations: string, source: string): Conversion;
}

/**
 * Spells out what the kernel's converter misreads: `{ clearSpacing }` becomes `{ clearSpacing: clearSpacing }`, and
 * the renaming parameter `({ species: name })` becomes `({ "species": name })`.
 *
 * Returns the same text where there is nothing to spell out. Line numbers stay; columns may move.
 */
export function spellOut(compiler: Compiler, source: string): string {
  const file = compiler.createSourceFile("cell.ts", source, compiler.ScriptTarget.ES2022, true);
  const edits: { readonly from: number; readonly to: number; readonly text: string }[] = [];
  const visit = (node: tsTypes.Node): void => {
    if (compiler.isShorthandPropertyAssignment(node) && node.objectAssignmentInitializer === undefined) {
      const to = node.name.getEnd();
      edits.push({ from: to, to, text: `: ${node.name.text}` });
    }
    if (compiler.isBindingElement(node) && node.propertyName && compiler.isIdentifier(node.propertyName)) {
      const { propertyName } = node;
      edits.push({
        from: propertyName.getStart(),
        to: propertyName.getEnd(),
        text: JSON.stringify(propertyName.text),
      });
    }
    compiler.forEachChild(node, visit);
  };
  visit(file);
  return edits.reduceRight(
    (text, { from, to, text: put }) => text.slice(0, from) + put + text.slice(to),
    source,
  );
}

/**
 * Repairs how tslab carries a variable from one cell to the next. It writes `exports.` before every mention of a
 * variable of an earlier cell, but misses the shorthand property (`{ clearSpacing }` failed with "clearSpacing is not
 * defined") and takes a renamed property for such a variable (`({ species: name })` hid `exports` itself).
 *
 * A cell with errors is converted once more as it was written, so that messages name the right columns.
 */
export function repairSpelling<C extends Converter>(compiler: Compiler, converter: C): C {
  const convert = converter.convert.bind(converter);
  converter.convert = (previousDeclarations, source) => {
    const spelt = spellOut(compiler, source);
    const conversion = convert(previousDeclarations, spelt);
    const asWritten = conversion.diagnostics.length === 0 || spelt === source;
    return asWritten ? conversion : convert(previousDeclarations, source);
  };
  return converter;
}
