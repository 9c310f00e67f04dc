/** Failures told in few words. What a cell printed to stderr is text: the kernel's errors arrive with stack traces. */

/** Returns what a caught value says: anything can be thrown. */
export const messageOf = (error: unknown): string => (error instanceof Error ? error.message : String(error));

const stackLine = /^\s+at /;
const unreadRejection = /^UnhandledPromiseRejection: /;
const uncaughtError = /^UncaughtException: /;

/**
 * Shortens an error text.
 *
 * Returns the message without the stack and without the repeated source line, with places in the cell in
 * words; at most `limit` characters.
 *
 * @example
 * shortError("1:7 - Type 'number' is not assignable to type 'string'.\n")
 * // => "line 1, column 7: Type 'number' is not assignable to type 'string'."
 */
export function shortError(text: string, limit = 600): string {
  const kept = text.split("\n").filter((line) => !stackLine.test(line));
  const message = withoutSourceExcerpt(kept)
    .join("\n")
    .trim()
    .replace(unreadRejection, "")
    .replace(uncaughtError, "")
    .replace(/^(\d+):(\d+) - /gm, "line $1, column $2: ");
  return message.length > limit ? `${message.slice(0, limit)}…` : message;
}

/** Returns whether the text tells of an error in work that no cell waited for. */
export function isLateError(text: string): boolean {
  return text.split("\n").some((line) => unreadRejection.test(line) || uncaughtError.test(line));
}

/** Node begins a thrown error with the script's name or file, the source line, a caret and an empty line. */
function withoutSourceExcerpt(lines: string[]): string[] {
  if (!/^(?:evalmachine\.<anonymous>|\S.*\.js):\d+$/.test(lines[0] ?? "")) return lines;
  const end = lines.findIndex((line, index) => /^\s*\^+\s*$/.test(lines[index - 1] ?? "") && line === "");
  return end < 0 ? lines : lines.slice(end + 1);
}
