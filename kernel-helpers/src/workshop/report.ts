/** Telling in lines of text how a run of a notebook went. */
import type { Refresh } from "./golden";
import { notebookName } from "./notebookNames";
import type { Failure, NotebookRun } from "./run";

/** Returns one failure as a sentence that names notebook and cell. */
export function failureSentence(failure: Failure): string {
  const place = failure.cell === undefined ? "" : `, cell ${failure.cell}`;
  return `${notebookName(failure.notebook)}${place}: ${failure.message}`;
}

/** Returns what a run of a notebook gave: one line, and one more for each failure. */
export function runLines(run: NotebookRun): string[] {
  const name = notebookName(run.path);
  const took = `${run.cells.length} cells in ${run.seconds.toFixed(1)} s`;
  if (run.failures.length === 0) return [`${name}: ${took}.`];
  return [`${name}: failed (${took}).`, ...run.failures.map((failure) => indented(failureSentence(failure)))];
}

/** Returns the differences between a run and the stored outputs as lines. */
export function checkLines(differences: readonly string[]): string[] {
  if (differences.length === 0) return ["  agrees with the stored outputs."];
  return ["  differs from the stored outputs:", ...differences.map((what) => `  ${indented(what)}`)];
}

/** Returns what a refresh changed: each number old → new, and what changed besides. */
export function refreshLines(refresh: Refresh): string[] {
  if (refresh.cells.length === 0) {
    return [refresh.written ? "  the results are unchanged; the file was tidied." : "  nothing changed."];
  }
  return refresh.cells.flatMap(({ cell, differences, changes }) => {
    const { numbers, linesGone, linesNew } = changes;
    const told = [
      ...numbers.map(({ label, stored, fresh }) => `${label === "" ? "" : `${label}: `}${stored} → ${fresh}`),
      ...linesGone.map((line) => `- ${shortened(line)}`),
      ...linesNew.map((line) => `+ ${shortened(line)}`),
    ];
    // A change that shows in no number and no line is one of a figure or of a tag.
    return (told.length === 0 ? differences : told).map((what) => `  cell ${cell}: ${what}`);
  });
}

function shortened(line: string): string {
  const text = line.trim();
  return text.length > 120 ? `${text.slice(0, 120)}…` : text;
}

function indented(text: string): string {
  return `  ${text.replaceAll("\n", "\n    ")}`;
}
