import { Matrix } from "ml-matrix";
import { checkNumber, refuse } from "../checks";

/** What the response may depend on, by name: numbers for a covariate, words for a factor, one value for each row. */
export type Terms = Readonly<Record<string, readonly number[] | readonly string[]>>;

/** One value for each term: where to predict. */
export type TermValues = Readonly<Record<string, number | string>>;

export interface CovariateTerm {
  readonly kind: "covariate";
  readonly name: string;
}

export interface FactorTerm {
  readonly kind: "factor";
  readonly name: string;
  /** The levels in order; the first one is the base that the others are compared with. */
  readonly levels: readonly string[];
}

export type Term = CovariateTerm | FactorTerm;

/** The columns of a regression: the intercept, then each term in the order it was given. */
export interface Design {
  readonly terms: readonly Term[];
  /** Names of the columns: "intercept", a covariate's name, or "factor: level" for every level but the base. */
  readonly names: readonly string[];
  readonly matrix: Matrix;
}

const isNumbers = (values: readonly number[] | readonly string[]): values is readonly number[] =>
  values.every((value) => typeof value === "number");

const isWords = (values: readonly number[] | readonly string[]): values is readonly string[] =>
  values.every((value) => typeof value === "string");

/** Returns the columns of the named terms; throws a RangeError where a term can't be one. */
export function designOf(
  by: string,
  terms: Terms,
  trials: readonly number[],
  levels: Readonly<Record<string, readonly string[]>> = {},
): Design {
  const unknown = Object.keys(levels).find((name) => !Object.hasOwn(terms, name));
  if (unknown !== undefined) {
    refuse(by, `levels names ${unknown}, which is not among the terms`);
  }
  const described = Object.entries(terms).map(([name, values]): Term => {
    if (values.length !== trials.length) {
      refuse(
        by,
        `terms.${name} has ${values.length} values and trials ${trials.length}; each row needs one of both`,
      );
    }
    if (isNumbers(values)) {
      values.forEach((value, row) => checkNumber(by, `terms.${name}[${row}]`, value));
      return { kind: "covariate", name };
    }
    if (!isWords(values)) {
      refuse(by, `terms.${name} mixes numbers and words; it must be all numbers or all words`);
    }
    return { kind: "factor", name, levels: levelsOf(by, name, values, levels[name]) };
  });
  const rows = trials.map((_, row) => rowOf(described, (name) => terms[name][row]));
  return {
    terms: described,
    names: ["intercept", ...described.flatMap(columnNames)],
    matrix: new Matrix(rows),
  };
}

function levelsOf(
  by: string,
  name: string,
  values: readonly string[],
  stated: readonly string[] | undefined,
): readonly string[] {
  const found = [...new Set(values)];
  if (stated === undefined) return found;
  const unlisted = found.find((level) => !stated.includes(level));
  if (unlisted !== undefined) {
    refuse(by, `terms.${name} has "${unlisted}", which levels.${name} does not list`);
  }
  const absent = stated.find((level) => !found.includes(level));
  if (absent !== undefined) {
    refuse(by, `levels.${name} lists "${absent}", which no row has; leave it out`);
  }
  return [...new Set(stated)];
}

/** The names of a term's columns. */
export function columnNames(term: Term): readonly string[] {
  return term.kind === "covariate"
    ? [term.name]
    : term.levels.slice(1).map((level) => `${term.name}: ${level}`);
}

/** One row of the design: 1 for the intercept, then the value of each covariate and 0 or 1 for each level. */
function rowOf(terms: readonly Term[], valueOf: (name: string) => number | string): number[] {
  return [
    1,
    ...terms.flatMap((term) =>
      term.kind === "covariate"
        ? [Number(valueOf(term.name))]
        : term.levels.slice(1).map((level) => (level === valueOf(term.name) ? 1 : 0)),
    ),
  ];
}

/** Returns the row of the design at these values; throws a RangeError where one is missing, unknown or of the wrong kind. */
export function rowAt(by: string, terms: readonly Term[], at: TermValues): readonly number[] {
  const unknown = Object.keys(at).find((name) => terms.every((term) => term.name !== name));
  if (unknown !== undefined) {
    const names = terms.map(({ name }) => name).join(", ");
    refuse(by, `at names ${unknown}, which is no term of the fit; its terms: ${names || "none"}`);
  }
  for (const term of terms) {
    const value = Object.hasOwn(at, term.name) ? at[term.name] : undefined;
    if (value === undefined) refuse(by, `at has no value for ${term.name}; give ${wanted(term)}`);
    const fits =
      term.kind === "covariate" ? Number.isFinite(value) : term.levels.some((level) => level === value);
    if (!fits) refuse(by, `at.${term.name} is ${JSON.stringify(value)}; it must be ${wanted(term)}`);
  }
  return rowOf(terms, (name) => at[name]);
}

function wanted(term: Term): string {
  return term.kind === "covariate"
    ? "a finite number"
    : `one of ${term.levels.map((level) => `"${level}"`).join(", ")}`;
}
