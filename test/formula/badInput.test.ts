import { describe, expect, test } from "vitest";
import { catalogue } from "kernel-helpers";
import type { AnyFormula } from "../../kernel-helpers/src/formula";
import type { InputValues } from "../../kernel-helpers/src/formula/input";
import { describeLimits, type InputSpec, remedy } from "../../kernel-helpers/src/formula/input";
import { docExamples, exampleInputs } from "./docExamples";

const formulas = catalogue.list();
const docstrings = new Map(docExamples().map((one) => [one.formulaId, one.docstring]));

/** A number a little past a limit, and one far past it. */
const past = (limit: number, sign: 1 | -1): number[] => [
  limit + sign * 1e-9 * Math.max(1, Math.abs(limit)),
  limit + sign * 1e6,
];

/** Numbers that an input must refuse: none at all, without end, past each of its limits. */
function forbiddenNumbers({ above, atLeast, below, atMost, kind }: InputSpec): number[] {
  return [
    Number.NaN,
    Number.POSITIVE_INFINITY,
    Number.NEGATIVE_INFINITY,
    ...(above === undefined ? [] : [above, ...past(above, -1)]),
    ...(atLeast === undefined ? [] : past(atLeast, -1)),
    ...(below === undefined ? [] : [below, ...past(below, 1)]),
    ...(atMost === undefined ? [] : past(atMost, 1)),
    ...(kind === "count" ? [(atLeast ?? above ?? 1) + 0.5] : []),
  ];
}

/** Values at the edge that are still allowed: a limit itself, or just inside one that is not. */
function allowedEdges({ above, atLeast, below, atMost, kind }: InputSpec): number[] {
  const low = above ?? atLeast;
  const high = below ?? atMost;
  const span = low !== undefined && high !== undefined ? high - low : Math.max(1, Math.abs(low ?? high ?? 1));
  const step = kind === "count" ? 1 : 1e-6 * span;
  return [
    ...(above === undefined ? (atLeast === undefined ? [] : [atLeast]) : [above + step]),
    ...(below === undefined ? (atMost === undefined ? [] : [atMost]) : [below - step]),
  ];
}

const wrongTypes: readonly unknown[] = ["18", "", null, true, {}, [], () => 1, 1n, Symbol("s"), new Date(0)];

/** The inputs with one changed; `many` inputs get a list of it. */
const changed = (inputs: InputValues, name: string, spec: InputSpec, value: unknown): unknown => ({
  ...inputs,
  [name]: spec.many === true ? [value] : value,
});

/** The sentence with which a formula refuses inputs, undefined where it takes them. Any other error goes on. */
function refusal(formula: AnyFormula, inputs: unknown): string | undefined {
  try {
    formula(inputs as InputValues); // hostile on purpose
    return undefined;
  } catch (error) {
    if (error instanceof RangeError) return error.message;
    throw error;
  }
}

describe.each(formulas.map((formula) => [formula.id, formula] as const))("%s", (id, formula) => {
  const good = exampleInputs(id);
  const entries = Object.entries(formula.inputs);

  /** What is wrong with the way in which the formula meets a value that it must refuse. */
  const complaintsAbout = (
    name: string,
    spec: InputSpec,
    values: readonly unknown[],
    says: string,
  ): string[] =>
    values.flatMap((value) => {
      const message = refusal(formula, changed(good, name, spec, value));
      if (message === undefined) return [`takes ${String(value)}`];
      return message.startsWith(`${id}: ${name}`) && message.includes(says) ? [] : [message];
    });

  test("takes the inputs of its example", () => {
    expect(refusal(formula, good)).toBeUndefined();
  });

  test.each(entries)("refuses numbers that %s may not be, and says what is allowed", (name, spec) => {
    expect(complaintsAbout(name, spec, forbiddenNumbers(spec), describeLimits(spec))).toEqual([]);
  });

  test.each(entries)("refuses what is not a number for %s, and says what to give", (name, spec) => {
    expect(complaintsAbout(name, spec, wrongTypes, remedy({ ...spec, many: false }))).toEqual([]);
  });

  test.each(entries.filter(([, spec]) => spec.many))(
    "refuses anything but a full list for %s",
    (name, spec) => {
      // oxlint-disable-next-line no-sparse-arrays -- a hole in a list is bad input too
      const messages = [[], 1, "x", null, [0.5, , 0.5]].map((value) =>
        refusal(formula, { ...good, [name]: value }),
      );
      expect(messages.filter((message) => !message?.includes(remedy({ ...spec, many: false })))).toEqual([]);
    },
  );

  test.each(entries.filter(([, spec]) => spec.default === undefined))(
    "asks for %s where it is missing",
    (name, spec) => {
      const without: unknown = Object.fromEntries(Object.entries(good).filter(([key]) => key !== name));
      expect(refusal(formula, without)).toBe(
        `${id}: ${name} is missing; give ${remedy(spec)}${spec.note === undefined ? "" : ` (${spec.note})`}.`,
      );
    },
  );

  test.each(entries)("answers at the limits of %s, or says how inputs limit each other", (name, spec) => {
    const unbounded = docstrings.get(id)?.includes("beyond all bounds") === true;
    const complaints = allowedEdges(spec).flatMap((value) => {
      const inputs = changed(good, name, spec, value);
      const message = refusal(formula, inputs);
      if (message !== undefined) return message.startsWith(`${id}: `) ? [] : [message];
      const result = formula(inputs as InputValues); // allowed, as refusal has just shown
      const numbers = typeof result === "number" ? [result] : Object.values(result);
      return numbers
        .filter((one) => !Number.isFinite(one) && !(unbounded && one === Number.POSITIVE_INFINITY))
        .map((one) => `${name} = ${value} gives ${one}`);
    });
    expect(complaints).toEqual([]);
  });

  test("names itself in every caution", () => {
    const cautions = entries.flatMap(([name, spec]) =>
      allowedEdges(spec).flatMap((value) => {
        const inputs = changed(good, name, spec, value);
        return refusal(formula, inputs) === undefined ? formula.cautions(inputs as InputValues) : [];
      }),
    );
    expect(cautions.filter((caution) => !caution.startsWith(`${id}: `))).toEqual([]);
  });

  test("refuses an input that it doesn't have, and lists those it has", () => {
    expect(refusal(formula, { ...good, clearSpacng: 0.018 })).toBe(
      `${id}: it has no input "clearSpacng"; its inputs are ${entries.map(([name]) => name).join(", ")}.`,
    );
  });

  test("refuses anything but one object of inputs", () => {
    const messages = [null, 3, "x", [1]].map((inputs) => refusal(formula, inputs));
    expect(messages.filter((message) => !message?.startsWith(`${id}: it takes one object`))).toEqual([]);
  });
});
