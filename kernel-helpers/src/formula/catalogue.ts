import type { FormulaInfo, WorkedLine } from "./formula";
import type { InputValues } from "./input";

/** A formula known only at run time: its inputs are checked when it is called. */
export interface AnyFormula extends FormulaInfo {
  (inputs: InputValues): number | Readonly<Record<string, number>>;
  readonly evaluate: (inputs: InputValues) => number | Readonly<Record<string, number>>;
  readonly cautions: (inputs: InputValues) => readonly string[];
  readonly tested: (inputs: InputValues) => boolean;
  readonly lines: (inputs: InputValues) => readonly WorkedLine[];
}

const formulas = new Map<string, AnyFormula>();

/** Puts a formula into the catalogue. Throws an Error for an id that is taken or has no topic. */
export function register(formula: AnyFormula): void {
  if (!/^[a-z][A-Za-z]*\.[a-z][A-Za-z]*$/.test(formula.id)) {
    throw new Error(`defineFormula: the id "${formula.id}" must read topic.name in camel case.`);
  }
  if (formulas.has(formula.id)) throw new Error(`defineFormula: the id "${formula.id}" is taken.`);
  formulas.set(formula.id, formula);
}

/** Every registered formula: `catalogue.list()`, `catalogue.list("rack")`, `catalogue.get("rack.length")`. */
export const catalogue = {
  /** Returns the formulas of one topic, or all, in the order of their definition. */
  list(topic?: string): readonly AnyFormula[] {
    const all = [...formulas.values()];
    if (topic === undefined) return all;
    const found = all.filter((formula) => formula.topic === topic);
    if (found.length === 0) {
      throw new RangeError(
        `catalogue.list: there is no topic "${topic}"; the topics are ${catalogue.topics().join(", ")}.`,
      );
    }
    return found;
  },
  /** Returns the formula with this id. Throws a RangeError that lists the topic's ids where there is none. */
  get(id: string): AnyFormula {
    const formula = formulas.get(id);
    if (formula !== undefined) return formula;
    const near = [...formulas.keys()].filter((known) => known.startsWith(`${id.split(".")[0]}.`));
    const known = near.length > 0 ? near : catalogue.topics();
    throw new RangeError(
      `catalogue.get: there is no formula "${id}"; there ${near.length > 0 ? "are" : "are the topics"} ${known.join(", ")}.`,
    );
  },
  /** Returns the names of the topics. */
  topics(): readonly string[] {
    return [...new Set([...formulas.values()].map((formula) => formula.topic))];
  },
};
