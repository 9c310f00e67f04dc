// The one piece of state that the reader expects: what this notebook has used since the kernel started.
const used = new Set<string>();

/** Notes that a formula was used, for the list of sources at a notebook's end. */
export function noteUse(id: string): void {
  used.add(id);
}

/** Returns the ids of the formulas used so far, in the order of their first use. */
export const usedFormulas = (): readonly string[] => [...used];
