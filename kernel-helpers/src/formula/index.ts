export { type AnyFormula, catalogue } from "./catalogue";
export { defineFormula, type Formula, type FormulaInfo, type Given, type WorkedLine } from "./formula";
export * as input from "./input";
export { derived, memory, practice, printSource, type Provenance, published, type Source } from "./source";
export { noteUse, usedFormulas } from "./usage";
