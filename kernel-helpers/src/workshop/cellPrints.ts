/** What the kernel prints for a cell: the value of its last expression, or its error, in words for a reader. */
import { types } from "node:util";

/** Set to anything, this environment variable gives errors with their whole stack, for those who work on the module. */
export const wholeErrors = "NOTEBOOK_WHOLE_ERRORS";

/**
 * Tells an error: its sentence, those of its causes, and the line of the cell that led to it.
 *
 * `code` is the cell as it ran, compiled. Anything but an error is returned as it is.
 */
export function tellError(thrown: unknown, code: string): unknown {
  if (!types.isNativeError(thrown)) return thrown;
  const told = [String(thrown)];
  // A chain that bites its own tail must end.
  for (let cause = thrown.cause; types.isNativeError(cause) && told.length < 5; cause = cause.cause)
    told.push(`Because of ${String(cause)}`);
  const line = cellLine(thrown.stack ?? "", code);
  if (line !== undefined) told.push(`    at the line: ${line}`);
  return told.join("\n");
}

/** A cell has no file; the script that it becomes is named so. */
const cellPlace = /evalmachine\.<anonymous>:(\d+):\d+/g;
const longestLine = 120;

/** The outermost line of the cell on the stack: functions of earlier cells stand further in. */
function cellLine(stack: string, code: string): string | undefined {
  const lines = code.split("\n");
  // The call of the function that the kernel wraps around a cell stands one line below the cell.
  const own = [...stack.matchAll(cellPlace)]
    .map(([, line]) => Number(line))
    .filter((line) => line <= lines.length);
  const line = lines[(own.at(-1) ?? 0) - 1];
  if (line === undefined) return undefined;
  const written = asWritten(line, code).trim();
  return written.length > longestLine ? `${written.slice(0, longestLine)}…` : written;
}

/** Takes away what the compiler has put before names: `exports.rack.length(…)` was typed as `rack.length(…)`. */
function asWritten(line: string, code: string): string {
  const modules = [...code.matchAll(/\b(\w+) = require\(/g)].map(([, name]) => name);
  return [...modules, "exports"].reduce(
    (text, name) =>
      text.replaceAll(new RegExp(`\\(0, ${name}\\.(\\w+)\\)`, "g"), "$1").replaceAll(`${name}.`, ""),
    line.replace("exports.tsLastExpr = ", ""),
  );
}

/** Returns what is printed for a cell's value: a module's names in a line, any other value as it is. */
export function tellValue(value: unknown): unknown {
  if (typeof value !== "object" || value === null || !Object.hasOwn(value, "__esModule")) return value;
  const names = Object.keys(value).join(", ");
  return `A module with ${names}.\nType its name and a dot: Tab lists these, Shift-Tab on one explains it.`;
}
