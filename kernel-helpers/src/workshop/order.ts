/** Returns the texts in the order of their characters, the same on every machine (no locale). */
export function inOrder(texts: readonly string[]): string[] {
  return texts.toSorted();
}
