/**
 * Says whether tests that need a program can run here.
 *
 * Returns true where it was found. Where it was not, a person's machine skips those tests, with the reason on the
 * console; the machine that guards every push fails instead, since it must have everything.
 */
export function requireOnCI(name: string, found: boolean): boolean {
  if (found) return true;
  if (process.env["CI"] === "true") throw new Error(`${name} was not found; CI must have it.`);
  console.warn(`Skipped: these tests need ${name}, which was not found.`);
  return false;
}
