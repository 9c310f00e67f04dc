/** Things by a key, in the order in which the keys first come. */
export function grouped<T>(things: readonly T[], keyOf: (thing: T) => string): Map<string, T[]> {
  const found = new Map<string, T[]>();
  for (const thing of things) {
    const key = keyOf(thing);
    const there = found.get(key);
    if (there === undefined) found.set(key, [thing]);
    else there.push(thing);
  }
  return found;
}
