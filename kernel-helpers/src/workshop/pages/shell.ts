import { escapeHtml } from "../../notebook/emit";
import { standingCaution } from "../../notebook/cautions";
import type { Heading } from "./headings";

export const courseName = "Bar Rack Notebooks";

/**
 * What a page may load: its own folder and what it carries itself. Scripts come from files alone. Styles may stand in
 * the text, because equations are set with them.
 */
export const contentPolicy =
  "default-src 'none'; script-src 'self'; style-src 'self' 'unsafe-inline'; img-src 'self' data:; " +
  "font-src 'self' data:; base-uri 'none'; form-action 'none'";

/** A page to link to. `titleHtml` is safe inline HTML. */
export interface PageLink {
  readonly file: string;
  readonly titleHtml: string;
}

/** A page of the course before it has its frame. */
export interface Page {
  readonly file: string;
  readonly title: string;
  readonly titleHtml: string;
  /** What stands in front of the title: a notebook's number. */
  readonly number?: string;
  readonly contents: readonly Heading[];
  /** The page's body, as safe HTML. */
  readonly body: string;
  readonly previous?: PageLink;
  readonly next?: PageLink;
}

/** Returns a whole page: head, header, contents, body, ways on, footer. */
export function pageHtml(page: Page): string {
  const { title, titleHtml, number, body, contents } = page;
  const tab =
    page.file === "index.html"
      ? courseName
      : `${number === undefined ? "" : `${number} `}${title} · ${courseName}`;
  return `<!doctype html>
<html lang="en">
<head>
<meta charset="utf-8">
<meta http-equiv="Content-Security-Policy" content="${contentPolicy}">
<meta name="viewport" content="width=device-width, initial-scale=1">
<meta name="referrer" content="no-referrer">
<title>${escapeHtml(tab)}</title>
<link rel="icon" href="data:image/svg+xml;base64,${icon}">
<link rel="stylesheet" href="assets/katex.css">
<link rel="stylesheet" href="assets/course.css">
<script src="assets/figures.js" defer></script>
</head>
<body>
<a class="skip" href="#main">Skip to the text</a>
<header class="top">
<a class="course" href="index.html">${courseName}</a>
<nav aria-label="Course">${link("index.html", "Contents", page.file)}${link("formula-sheet.html", "Formula sheet", page.file)}</nav>
</header>
<div class="page${contents.length === 0 ? " plain" : ""}">
${contents.length === 0 ? "" : contentsHtml(contents)}<main id="main" tabindex="-1">
<h1>${number === undefined ? "" : `<span class="number">${escapeHtml(number)}</span> `}${titleHtml}</h1>
${body}${ways(page)}</main>
<footer class="end">
<p class="standing">${escapeHtml(standingCaution)}</p>
<p>Code: MIT licence. Text and figures: <abbr title="Creative Commons Attribution 4.0">CC BY 4.0</abbr>.</p>
</footer>
</div>
</body>
</html>
`;
}

const icon = Buffer.from(
  '<svg xmlns="http://www.w3.org/2000/svg" viewBox="0 0 16 16"><rect width="16" height="16" rx="3" fill="#12465a"/>' +
    '<path d="M3 4.5h10M3 8h10M3 11.500h10" stroke="#fff" stroke-width="1.500"/></svg>',
).toString("base64");

function link(file: string, words: string, current: string): string {
  return `<a href="${file}"${file === current ? ' aria-current="page"' : ""}>${words}</a>`;
}

/** The contents stand beside the text where there is room and open above it where there is not. */
function contentsHtml(headings: readonly Heading[]): string {
  const list = `<ul>${headings.map(({ level, id, html }) => `<li class="level-${level}"><a href="#${id}">${html}</a></li>`).join("")}</ul>`;
  return `<nav class="contents beside" aria-label="On this page"><p>On this page</p>${list}</nav>
<details class="contents above"><summary>On this page</summary><nav aria-label="On this page">${list}</nav></details>
`;
}

function ways({ previous, next }: Page): string {
  if (previous === undefined && next === undefined) return "";
  return `<nav class="ways" aria-label="Previous and next">${way(previous, "prev", "Previous")}${way(next, "next", "Next")}</nav>\n`;
}

function way(to: PageLink | undefined, relation: "prev" | "next", word: string): string {
  if (to === undefined) return "";
  return `<a class="${relation}" rel="${relation}" href="${to.file}"><span>${word}</span> ${to.titleHtml}</a>`;
}
