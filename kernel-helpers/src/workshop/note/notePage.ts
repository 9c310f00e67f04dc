/** A notebook with its results as one page that stands alone and prints. */
import { escapeHtml } from "../../notebook/emit";
import { type Cell, type CodeCell, isCodeCell, type Notebook, sourceText } from "../notebookFile";
import type { Output } from "../outputs";
import { plotlyType, stillPicture } from "../pages/figure";
import { highlightTypeScript } from "../pages/highlight";
import { type MarkdownPlace, noPlace, renderMarkdown } from "../pages/markdown";
import { readOpening } from "../pages/opening";
import { outputHtml } from "../pages/output";
import { resultTitle, type Section, sectionsOf, withoutExercises, withoutInstructions } from "./sections";
import { noteStyles } from "./styles";

/** The number of each code cell, by its id. */
type CellNumbers = ReadonlyMap<string, number>;

/** The page runs nothing and loads nothing. */
const contentPolicy =
  "default-src 'none'; style-src 'unsafe-inline'; img-src data:; font-src data:; base-uri 'none'; form-action 'none'";

/**
 * Returns a notebook's page: its opening, its result first, then its sections with what their cells have put out, and all
 * code at the end, cell by cell, unless told to leave it to the notebook. Instructions and exercises are left out. `name`
 * says whose note it is, at every page's foot.
 */
export function notePage(name: string, notebook: Notebook, { withCode = true } = {}): string {
  const kept = withoutExercises(notebook);
  const [first] = kept.cells;
  const head = first === undefined || isCodeCell(first) ? undefined : first;
  const { title, titleHtml, rest } = readOpening(
    head === undefined ? "" : withoutInstructions(sourceText(head)),
    name,
  );
  const [before, ...titled] = sectionsOf({ ...kept, cells: kept.cells.slice(head === undefined ? 0 : 1) });
  const place = noPlace();
  const numbers = new Map(kept.cells.filter(isCodeCell).map((cell, at) => [cell.id, at + 1]));
  const sections = [
    ...titled.filter((section) => section.title === resultTitle),
    ...titled.filter((section) => section.title !== resultTitle),
  ];
  const body = [
    `<div class="text">${renderMarkdown(rest, place)}</div>\n`,
    cellsHtml(before.cells, numbers, place),
    ...sections.map((section) => sectionHtml(section, numbers, place)),
  ].join("");
  const ownTitle = title.replace(/^\d\d /, "");
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${contentPolicy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<title>${escapeHtml(`${ownTitle}, ${name}`)}</title>
<style>
${noteStyles(`${ownTitle}, ${name}`)}
</style>
</head>
<body class="note">
<main>
<h1>${titleHtml.replace(/^\d\d /, "")}</h1>
<div class="body">
${body}</div>
${withCode ? appendixHtml(kept, numbers) : traced}</main>
</body>
</html>
`;
}

function sectionHtml({ cells }: Section, numbers: CellNumbers, place: MarkdownPlace): string {
  return `<section>\n${cellsHtml(cells, numbers, place)}</section>\n`;
}

function cellsHtml(cells: readonly Cell[], numbers: CellNumbers, place: MarkdownPlace): string {
  const parts = cells.map((cell) =>
    isCodeCell(cell)
      ? { text: false, html: outputsHtml(cell, numbers, place) }
      : { text: true, html: textHtml(cell, place) },
  );
  return parts
    .filter(({ html }) => html !== "")
    .map(({ text, html }, at, shown) => {
      if (!text) return html;
      // What leads to a result stays with it on a page; the last words of a section lead to nothing.
      const leads = shown[at + 1]?.text === false;
      return `<div class="text">${leads ? withLeadIn(html) : html}</div>\n`;
    })
    .join("");
}

function outputsHtml(cell: CodeCell, numbers: CellNumbers, place: MarkdownPlace): string {
  const outputs = cell.outputs.map((output) => stillHtml(output, place)).join("");
  if (outputs === "") return "";
  return `<div class="outputs"><span class="cell-number">cell ${numbers.get(cell.id)}</span>\n${outputs}</div>\n`;
}

const textHtml = (cell: Cell, place: MarkdownPlace): string =>
  cell.cell_type === "markdown" ? renderMarkdown(withoutInstructions(sourceText(cell)), place).trim() : "";

/** Marks the last paragraph or heading of a text. */
const withLeadIn = (html: string): string => {
  const at = Math.max(...["<p>", "<h2 ", "<h3 ", "<h4 "].map((start) => html.lastIndexOf(start)));
  return at < 0 ? html : html.slice(0, at) + html.slice(at).replace(/^<(p|h\d)/, '<$1 class="lead-in"');
};

/** Every output as on the course's pages, but for figures, which are their still pictures. */
function stillHtml(output: Output, place: MarkdownPlace): string {
  if (output.output_type !== "display_data" && output.output_type !== "execute_result")
    return outputHtml(output, place);
  const picture = output.data[plotlyType] === undefined ? undefined : stillPicture(output.data);
  if (picture === undefined) return outputHtml(output, place);
  const caption = picture.caption === "" ? "" : `<figcaption>${escapeHtml(picture.caption)}</figcaption>`;
  return `<figure class="plot"><div class="plot-box"><img src="${escapeHtml(picture.source)}" alt="${escapeHtml(picture.alt)}"></div>${caption}</figure>\n`;
}

const traced = `<p class="traced">Every number comes from the cell of the notebook that is named beside it.</p>\n`;

function appendixHtml(notebook: Notebook, numbers: CellNumbers): string {
  const cells = notebook.cells.filter((cell) => isCodeCell(cell) && sourceText(cell).trim() !== "");
  const listed = cells.map(
    (cell) =>
      `<div class="cell"><p class="cell-number">cell ${numbers.get(cell.id)}</p><pre class="code"><code>${highlightTypeScript(sourceText(cell))}</code></pre></div>\n`,
  );
  return `<section class="appendix">\n<h2>The calculation, cell by cell</h2>\n<p>Every number above comes from these lines; a result names its cell at the right.</p>\n${listed.join("")}</section>\n`;
}
