import { basename } from "node:path";
import { joined } from "../outputs";
import { type Cell, isCodeCell, type Notebook, sourceText } from "../notebookFile";
import type { Failure } from "../run";
import { isJsonObject } from "../json";
import { HeadingIds } from "./headings";
import { highlightTypeScript } from "./highlight";
import { type MarkdownPlace, renderMarkdown } from "./markdown";
import { type Opening, readOpening } from "./opening";
import { faultBox, outputHtml } from "./output";
import type { Page } from "./shell";

/** A notebook that becomes a page, with what went wrong when it was run. */
export interface CourseNotebook {
  /** The file's name without its ending, as in "03-rack-layout-and-velocities". */
  readonly name: string;
  readonly notebook: Notebook;
  readonly failures: readonly Failure[];
}

/** What the index and the neighbouring pages say about a notebook. */
export interface NotebookSummary extends Opening {
  readonly file: string;
  readonly number: string | undefined;
}

/** Returns what a notebook says about itself in its first Markdown cell. */
export function summarise({ name, notebook }: CourseNotebook): NotebookSummary {
  const [, number, words] = /^(\d+)-(.*)$/.exec(name) ?? [undefined, undefined, name];
  const first = notebook.cells.find((cell) => cell.cell_type === "markdown");
  const otherwise = sentenceCase((words ?? name).replaceAll("-", " "));
  const opening = readOpening(first === undefined ? "" : sourceText(first), otherwise);
  // The page sets the number apart; a title that begins with it would say it twice.
  const ownNumber = new RegExp(`^${number ?? "(?!)"}[\\s.:]+`);
  return {
    ...opening,
    title: opening.title.replace(ownNumber, ""),
    titleHtml: opening.titleHtml.replace(ownNumber, ""),
    file: `${name}.html`,
    number,
  };
}

const sentenceCase = (words: string): string => words.charAt(0).toUpperCase() + words.slice(1);

/**
 * Returns the page of a notebook: its text, its code and what its cells have put out. `files` are all pages, `formulas`
 * the ids on the formula sheet: both can be linked to.
 */
export function notebookPage(
  from: CourseNotebook,
  files: ReadonlySet<string>,
  formulas: ReadonlySet<string>,
): Page {
  const { titleHtml, title, rest, number, file } = summarise(from);
  const place: MarkdownPlace = {
    ids: new HeadingIds(),
    headings: [],
    pageOf: (path) => {
      const page = `${basename(path, ".ipynb")}.html`;
      // Solutions and copies for projects have no page.
      return !/^\.?\/?[^/]*$/.test(path) || !files.has(page) ? undefined : page;
    },
    formulas,
  };
  const failures = new Map<number | undefined, Failure[]>();
  for (const failure of from.failures)
    failures.set(failure.cell, [...(failures.get(failure.cell) ?? []), failure]);

  const opening = from.notebook.cells.find((cell) => cell.cell_type === "markdown");
  let codeCell = 0;
  const cells = from.notebook.cells.map((cell) => {
    if (isCodeCell(cell)) {
      codeCell += 1;
      const outputs = cell.outputs.map((output) => outputHtml(output, place)).join("");
      const faults = (failures.get(codeCell) ?? [])
        .map(({ message }) => faultBox(`Cell ${codeCell}`, message))
        .join("");
      return codeHtml(sourceText(cell), outputs + faults);
    }
    if (cell.cell_type !== "markdown") return "";
    return `<div class="text">${renderMarkdown(cell === opening ? rest : sourceText(cell), place, attachmentsOf(cell))}</div>\n`;
  });
  const whole = (failures.get(undefined) ?? [])
    .map(({ message }) => faultBox("The notebook", message))
    .join("");
  return {
    file,
    title,
    titleHtml,
    number,
    contents: place.headings,
    body: failureNotice(from) + cells.join("") + whole,
  };
}

function codeHtml(source: string, outputs: string): string {
  const code =
    source.trim() === "" ? "" : `<pre class="code"><code>${highlightTypeScript(source)}</code></pre>\n`;
  const below = outputs === "" ? "" : `<div class="outputs">\n${outputs}</div>\n`;
  return code + below === "" ? "" : `<div class="cell">\n${code}${below}</div>\n`;
}

function failureNotice({ failures }: CourseNotebook): string {
  const [first] = failures;
  if (first === undefined) return "";
  const where = first.cell === undefined ? "" : `cell ${first.cell}: `;
  return `<div class="notice" role="note"><p><strong>The last run of this notebook failed.</strong> What stands below the failure may be missing or old.</p></div>\n${faultBox("What went wrong first", where + first.message)}`;
}

/** Pictures that a Markdown cell brings along, as data addresses by name. */
function attachmentsOf({
  attachments,
}: Cell & { readonly attachments?: unknown }): ReadonlyMap<string, string> {
  const found = new Map<string, string>();
  if (!isJsonObject(attachments)) return found;
  for (const [name, bundle] of Object.entries(attachments)) {
    if (!isJsonObject(bundle)) continue;
    for (const [type, content] of Object.entries(bundle)) {
      found.set(name, `data:${type};base64,${joined(content).replace(/\s/g, "")}`);
    }
  }
  return found;
}
