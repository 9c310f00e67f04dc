export { type AnyFormula, catalogue } from "./catalogue";
export { defineFormula } from "./formula";
export * as input from "./input";
export { type RuleInWords, rulesInWords } from "./rules";
export { derived, memory, practice, printSource, published, stated } from "./source";
export { usedFormulas } from "./usage";
