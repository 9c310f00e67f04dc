/** Listing the numbers that a refresh changes in a cell's outputs, old → new, for the person who reviews it. */
import { splitNumbers } from "./numbers";
import { joined, type Output } from "./outputs";

export interface NumberChange {
  /** The words before the number on its line. */
  readonly label: string;
  readonly stored: string;
  readonly fresh: string;
}

export interface OutputChanges {
  readonly numbers: readonly NumberChange[];
  /** Lines without their counterpart: words changed, not only numbers. */
  readonly linesGone: readonly string[];
  readonly linesNew: readonly string[];
}

/**
 * Compares what a reader sees in the outputs of one cell: printed text, and the words of HTML and Markdown.
 *
 * Returns every number that changed, and the lines whose words changed. The points of a drawn figure are not
 * listed; `differences` tells that a figure changed.
 */
export function numberChanges(stored: readonly Output[], fresh: readonly Output[]): OutputChanges {
  const { pairs, gone, added } = matchLines(shownLines(stored), shownLines(fresh));
  return {
    numbers: pairs.flatMap(([old, now]) => changesInLine(old, now)),
    linesGone: gone,
    linesNew: added,
  };
}

function changesInLine(stored: string, fresh: string): NumberChange[] {
  const old = splitNumbers(stored);
  const now = splitNumbers(fresh);
  return old.numbers.flatMap((number, index) => {
    const other = now.numbers[index];
    if (other === undefined || other === number) return [];
    return [{ label: labelOf(old.between, index), stored: number, fresh: other }];
  });
}

/** Returns the nearest words before a number, so that a row of a table gives its name to all its numbers. */
function labelOf(between: readonly string[], index: number): string {
  const before = between
    .slice(0, index + 1)
    .map((text) => text.replace(/[^\p{L}\p{N}%°³²/ ()]+/gu, " ").trim());
  before.reverse();
  // A lone letter is more often a unit than a name.
  const words =
    before.find((text) => /\p{L}{2}/u.test(text)) ?? before.find((text) => /\p{L}/u.test(text)) ?? "";
  return words.slice(-50);
}

/**
 * Pairs the lines of two texts. Lines whose words (all but the numbers) agree are pairs, the first with the
 * first; what is left on either side has no counterpart.
 */
function matchLines(
  stored: readonly string[],
  fresh: readonly string[],
): { pairs: [string, string][]; gone: string[]; added: string[] } {
  const waiting = new Map<string, string[]>();
  for (const line of stored) {
    const key = wordsOf(line);
    waiting.set(key, [...(waiting.get(key) ?? []), line]);
  }
  const pairs: [string, string][] = [];
  const added: string[] = [];
  for (const line of fresh) {
    const old = waiting.get(wordsOf(line))?.shift();
    if (old === undefined) added.push(line);
    else pairs.push([old, line]);
  }
  return { pairs, gone: [...waiting.values()].flat(), added };
}

/** Spaces are left out: a number that grows by a digit moves the padding of a table. */
function wordsOf(line: string): string {
  return splitNumbers(line)
    .between.map((text) => text.replaceAll(/\s+/g, ""))
    .join("#");
}

function shownLines(outputs: readonly Output[]): string[] {
  return outputs
    .flatMap((output) => {
      if (output.output_type === "stream") return joined(output.text);
      if (output.output_type === "error") return `${output.ename}: ${output.evalue}`;
      return shownText(output.data);
    })
    .flatMap((text) => text.split("\n"))
    .filter((line) => line.trim() !== "");
}

/** A front-end shows one form of a bundle: HTML if there is, else Markdown, else plain text. */
function shownText(data: Readonly<Record<string, unknown>>): string {
  if (data["text/html"] !== undefined) return wordsOfHtml(joined(data["text/html"]));
  return joined(data["text/markdown"] ?? data["text/latex"] ?? data["text/plain"]);
}

function wordsOfHtml(html: string): string {
  return (
    html
      .replace(/<(script|style|svg)\b[\s\S]*?<\/\1\s*>/gi, "")
      // A cell of a table stays on its row's line, whatever holds its words.
      .replace(/<\/div>(?=<\/t[dh]>)/gi, " ")
      .replace(/<\/(tr|p|div|li|h\d|caption|figcaption|table|pre)\s*>|<br\s*\/?>/gi, "\n")
      .replace(/<\/?(sub|sup|em|strong|b|i|span|code|a)\b[^>]*>/gi, "")
      .replace(/<[^>]*>/g, " ")
      .replace(/&nbsp;|&#160;/g, " ")
      .replace(/&lt;/g, "<")
      .replace(/&gt;/g, ">")
      .replace(/&amp;/g, "&")
  );
}
