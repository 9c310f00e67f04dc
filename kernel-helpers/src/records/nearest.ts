/** Longer texts than this are no slip of the pen. */
const longestWord = 60;

/** How many letters must be put in, taken out or exchanged to make one word of the other. */
function distance(from: string, to: string): number {
  let row = Array.from({ length: to.length + 1 }, (_, j) => j);
  for (let i = 1; i <= from.length; i++) {
    const next = [i];
    for (let j = 1; j <= to.length; j++) {
      const exchanged = row[j - 1] + (from[i - 1] === to[j - 1] ? 0 : 1);
      next.push(Math.min(exchanged, row[j] + 1, next[j - 1] + 1));
    }
    row = next;
  }
  return row[to.length];
}

/** Capitals, spaces and hyphens are the commonest slips. */
function plain(word: string): string {
  return word.toLowerCase().replace(/[\s_-]/g, "");
}

/**
 * The word of a list that the writer of a text most likely meant, or undefined where none is near.
 *
 * @example
 * nearest("Graylin", ["roach", "grayling"]) // => "grayling"
 */
export function nearest(text: string, words: readonly string[]): string | undefined {
  const wanted = plain(text.slice(0, longestWord + 1));
  if (wanted === "" || text.length > longestWord) return undefined;
  const ranked = words
    .map((word) => ({ word, steps: distance(wanted, plain(word)) }))
    .filter(({ word, steps }) => steps <= Math.max(1, Math.floor(Math.min(word.length, wanted.length) / 3)))
    .toSorted((a, b) => a.steps - b.steps);
  return ranked[0]?.word;
}
