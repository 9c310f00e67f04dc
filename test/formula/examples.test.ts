import { describe, expect, test } from "vitest";
import * as helpers from "kernel-helpers";
import { catalogue, units } from "kernel-helpers";
import { docExamples, run } from "./docExamples";

const examples = docExamples();

/** Reads "27.613 m" or "3.4e-5" into its SI value and half of its last digit. */
function readPrinted(text: string): { value: number; tolerance: number } {
  const [, number, exponent = "0", symbol = ""] = /^(-?[\d.]+)(?:e(-?\d+))?\s*(\S*)$/.exec(text) ?? [];
  if (number === undefined) throw new Error(`"${text}" is not a number with a unit`);
  const unit = Object.values(units).find((one) => one.symbol === symbol);
  if (symbol !== "" && unit === undefined) throw new Error(`no unit is printed "${symbol}"`);
  const inSI = unit?.inSI ?? 1;
  const decimals = (number.split(".")[1] ?? "").length - Number(exponent);
  return {
    value: Number(number) * 10 ** Number(exponent) * inSI,
    tolerance: 0.5000001 * 10 ** -decimals * inSI,
  };
}

/** Says how an example's result differs from what it prints; undefined where it doesn't. */
function difference(code: string, printed: string): string | undefined {
  const result = run(code);
  if (typeof result !== "number") {
    const [got, said] = [JSON.stringify(result), JSON.stringify(run(printed))];
    return got === said ? undefined : `gives ${got}, prints ${said}`;
  }
  const { value, tolerance } = readPrinted(printed);
  return Math.abs(result - value) <= tolerance ? undefined : `gives ${result}, prints ${printed}`;
}

describe("every docstring example agrees with what it prints", () => {
  const withCode = examples.filter(({ code }) => code !== "");

  test.each(withCode.map((one) => [`${one.file}: ${one.name}`, one] as const))(
    "%s",
    (_, { code, printed }) => {
      expect(difference(code, printed)).toBeUndefined();
    },
  );
});

describe("every formula of the catalogue", () => {
  const formulas = catalogue.list().map((formula) => [formula.id, formula] as const);

  test.each(formulas)("%s has a docstring example that calls it by its id", (id) => {
    const example = examples.find((one) => one.formulaId === id);
    expect(example?.code).toContain(`${id}(`);
  });

  test.each(formulas)("%s is exported under its id", (id, formula) => {
    const [topic = "", name = ""] = id.split(".");
    const namespaces: Readonly<Record<string, unknown>> = helpers;
    expect(namespaces[topic]).toHaveProperty(name, formula);
  });

  test.each(formulas)("%s says in its docstring what it returns and where it is valid", (id) => {
    const docstring = examples.find((one) => one.formulaId === id)?.docstring ?? "";
    expect(docstring).toMatch(/Returns? /);
    expect(docstring).toMatch(/[Vv]alid|[Aa] screening value|[Aa]n approximation/);
    expect(docstring).not.toMatch(/\\frac|\\sin|\$\$/);
  });
});
