import { catalogue } from "../formula/catalogue";
import { printSource } from "../formula/source";
import { usedFormulas } from "../formula/usage";
import { emitMarkdown, escapeMarkdown } from "./emit";

/**
 * Lists what this notebook has really used since the kernel started: each source once, with its provenance mark
 * and the formulas that rest on it.
 *
 * @example
 * sources()
 */
export function sources(): void {
  const bySource = new Map<string, string[]>();
  for (const id of usedFormulas()) {
    const source = printSource(catalogue.get(id).source);
    bySource.set(source, [...(bySource.get(source) ?? []), id]);
  }
  if (bySource.size === 0) {
    emitMarkdown("**Sources used**: none; no formula was evaluated yet.");
    return;
  }
  const lines = [...bySource].map(([source, ids]) => ({ source, ids }));
  emitMarkdown(
    `**Sources used**\n\n${lines.map(({ source, ids }) => `- ${escapeMarkdown(source)}: ${ids.map((id) => `\`${id}\``).join(", ")}`).join("\n")}`,
    `Sources used\n${lines.map(({ source, ids }) => `- ${source}: ${ids.join(", ")}`).join("\n")}`,
  );
}
