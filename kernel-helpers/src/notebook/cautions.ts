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

/**
 * Lists what to keep in mind: the cautions raised by the worked calculations so far, the ones given here,
 * and the standing one that defers to local codes, permits and licensed practice.
 *
 * @example
 * cautions("The flow record ends in 2023.")
 */
export function cautions(...more: readonly string[]): void {
  raiseCautions(more);
  const lines = [...raised, standingCaution];
  emitMarkdown(
    `**Cautions**\n\n${lines.map((line) => `- ⚠ ${escapeMarkdown(line)}`).join("\n")}`,
    `Cautions\n${lines.map((line) => `- ${line}`).join("\n")}`,
  );
}
