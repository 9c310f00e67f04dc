import { renderToString } from "katex";
import { expect, test } from "vitest";
import { catalogue } from "kernel-helpers";
import { exampleInputs } from "./docExamples";

/** What KaTeX says against a text, undefined where it draws it without a warning. */
function complaint(tex: string): string | undefined {
  try {
    renderToString(tex, { throwOnError: true, strict: "error" });
    return undefined;
  } catch (error) {
    return `${tex}: ${String(error)}`;
  }
}

test.each(catalogue.list().map((formula) => [formula.id, formula] as const))(
  "%s: KaTeX draws its equation, its steps and its worked lines",
  (id, formula) => {
    const lines = formula.lines(exampleInputs(id));
    const texts = [
      formula.equation,
      ...formula.stepEquations.map(({ equation }) => equation),
      ...lines.flatMap((line) => [line.symbol, line.equation, line.numbers, line.value]),
      ...Object.values(formula.inputs).map(({ symbol }) => symbol),
    ];
    expect(texts.map(complaint).filter((text) => text !== undefined)).toEqual([]);
  },
);
