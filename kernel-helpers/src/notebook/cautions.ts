import { emitMarkdown, escapeMarkdown } from "./emit";

// What this notebook has raised since the kernel started; the reader expects it at the notebook's end.
const raised = new Set<string>();

/** Keeps cautions for the list at the notebook's end. */
export function raiseCautions(texts: readonly string[]): void {
  for (const text of texts) raised.add(text);
}

/** Stands under every result, whatever the notebook raised. */
export const standingCaution =
  "For study and pre-design. Racks carry debris loads, intakes drown people, trials use live animals: " +
  "local codes, permits and licensed practice decide.";

/** A caution, a result that carries cautions, or a list of both. */
export type Cautious = string | { readonly cautions: readonly string[] } | readonly Cautious[];

function textsOf(one: Cautious): readonly string[] {
  if (typeof one === "string") return [one];
  if (isList(one)) return one.flatMap(textsOf);
  // An untyped cell may pass anything.
  const carried: unknown = typeof one === "object" && one !== null ? one.cautions : undefined;
  if (Array.isArray(carried)) return one.cautions;
  throw new RangeError(
    `cautions: ${typeof one === "object" ? JSON.stringify(one) : String(one)} carries no list of cautions; ` +
      "give texts, results that carry cautions, or lists of them.",
  );
}

/** Array.isArray alone does not tell the compiler that a readonly list is one. */
const isList = (one: Cautious): one is readonly Cautious[] => Array.isArray(one);

/**
 * Lists what to keep in mind: the cautions raised by the worked calculations so far, the ones given here,
 * and the standing one that defers to local codes, permits and licensed practice.
 *
 * Takes texts, results that carry cautions (those of `survival.bySizeClass`, `turbine.survivalByLength`,
 * `rackLoss.compareLosses` …), and lists of them. Each caution is listed once. Throws a RangeError for anything else.
 *
 * @example
 * cautions("The flow record ends in 2023.", rackLoss.compareLosses(rackHere))
 */
export function cautions(...more: readonly Cautious[]): void {
  raiseCautions(textsOf(more));
  const lines = [...raised, standingCaution];
  emitMarkdown(
    `**Cautions**\n\n${lines.map((line) => `- ⚠ ${escapeMarkdown(line)}`).join("\n")}`,
    `Cautions\n${lines.map((line) => `- ${line}`).join("\n")}`,
  );
}
