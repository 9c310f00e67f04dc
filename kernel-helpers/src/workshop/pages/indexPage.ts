import { escapeHtml } from "../../notebook/emit";
import { noPlace, renderOutputMarkdown } from "./markdown";
import { type CourseNotebook, summarise } from "./notebookPage";
import { courseName, type Page } from "./shell";
import { isSurvivalNotebook, survivalPicture } from "./survivalPicture";

/** Returns the course's first page. `readme` is the project's README, whose first paragraph says what the job is. */
export function indexPage(notebooks: readonly CourseNotebook[], readme: string | undefined): Page {
  const job = readme === undefined ? "" : renderOutputMarkdown(firstParagraph(readme), noPlace());
  const entries = notebooks.map((notebook) => {
    const { file, number, titleHtml, question } = summarise(notebook);
    const failed = notebook.failures.length > 0 ? ' <span class="failed">failed in the last run</span>' : "";
    return (
      `<li><a href="${file}"><span class="number">${escapeHtml(number ?? "")}</span><span class="name">${titleHtml}</span></a>` +
      `${failed}<p>${question}</p></li>`
    );
  });
  const shown = pictureHtml(notebooks.find(({ name }) => isSurvivalNotebook(name)));
  return {
    file: "index.html",
    title: courseName,
    titleHtml: courseName,
    contents: [],
    body:
      `<div class="lead">${job}</div>\n${shown}<h2 id="notebooks">The notebooks</h2>\n` +
      `<p>Each starts with one question and ends with what its answer cannot tell. These pages are for reading. ` +
      `To change an input and run a cell, open the same notebooks in Jupyter or VS Code; README says how.</p>\n` +
      `<ol class="notebooks">\n${entries.join("\n")}\n</ol>\n` +
      `<p class="sheet"><a href="formula-sheet.html">Formula sheet</a>: every equation with its symbols, limits, tested range and source.</p>\n`,
  };
}

/** Returns the first paragraph of a Markdown text that is neither a heading, a picture, a list, a quote nor a table. */
export function firstParagraph(text: string): string {
  const paragraphs = text.replaceAll("\r\n", "\n").split(/\n\s*\n/);
  return paragraphs.find((paragraph) => /^[^#!<>[\-*|`\s]/.test(paragraph))?.trim() ?? "";
}

/** The survival figure, leading to its notebook; nothing where there is none. */
function pictureHtml(notebook: CourseNotebook | undefined): string {
  const picture = notebook === undefined ? undefined : survivalPicture(notebook.notebook);
  if (notebook === undefined || picture === undefined) return "";
  const caption = picture.caption === "" ? "" : `<figcaption>${escapeHtml(picture.caption)}</figcaption>`;
  const image = `<img src="${escapeHtml(picture.source)}" alt="${escapeHtml(picture.alt)}">`;
  return `<figure class="plot"><a href="${summarise(notebook).file}">${image}</a>${caption}</figure>\n`;
}
