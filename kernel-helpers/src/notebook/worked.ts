import type { FormulaInfo, WorkedLine } from "../formula/formula";
import { printSource } from "../formula/source";
import { raiseCautions } from "./cautions";
import { emitMarkdown, escapeMarkdown } from "./emit";

/** Any formula, whatever its inputs. */
interface Workable extends FormulaInfo {
  (inputs: never): unknown;
  readonly lines: (inputs: never) => readonly WorkedLine[];
  readonly cautions: (inputs: never) => readonly string[];
}

/**
 * Shows a calculation that can be checked line by line: equation, numbers with units, result, source with its
 * provenance mark, and cautions. Steps on the way, such as the angle of a velocity triangle, come first.
 *
 * Returns the result, in SI. Throws a RangeError as the formula itself does.
 *
 * @example
 * worked(rack.normalVelocity, { approachVelocity: u.mps(0.56), rackAngle: u.deg(38) })
 */
export function worked<F extends Workable>(formula: F, inputs: Parameters<F>[0]): ReturnType<F> {
  // Parameters and ReturnType are those of this very formula; the compiler can't join them again.
  const result = formula(inputs as never) as ReturnType<F>;
  const lines = formula.lines(inputs as never);
  const cautions = formula.cautions(inputs as never);
  raiseCautions(cautions);
  const source = printSource(formula.source);
  const parts = [
    ...lines.map((line) => `**${line.title}**\n\n$$${aligned(line)}$$`),
    `Source: ${escapeMarkdown(source)}`,
    ...cautions.map((caution) => `⚠ Caution: ${escapeMarkdown(caution)}`),
  ];
  const plain = [
    ...lines.map((line) => `${line.title}: ${line.symbol} = ${line.value}`),
    `Source: ${source}`,
    ...cautions.map((caution) => `Caution: ${caution}`),
  ];
  emitMarkdown(parts.join("\n\n"), plain.join("\n"));
  return result;
}

/** Equation, numbers and value under each other; a line that would repeat the one above is left out. */
function aligned({ symbol, equation, numbers, value }: WorkedLine): string {
  const rows = [equation, numbers, value].filter((row, at, all) => row !== all[at - 1]);
  return `\\begin{aligned}${symbol} &= ${rows.join(" \\\\[0.5em] &= ")}\\end{aligned}`;
}
