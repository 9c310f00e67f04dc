import katexPlugin from "@vscode/markdown-it-katex";
import MarkdownIt, { type Token } from "markdown-it";
import { escapeHtml } from "../../notebook/emit";
import { type Heading, HeadingIds } from "./headings";
import { highlightTypeScript } from "./highlight";
import { renderTex } from "./tex";
import { tied } from "./ties";

/** What one page gathers while its Markdown is rendered. */
export interface MarkdownPlace {
  readonly ids: HeadingIds;
  readonly headings: Heading[];
  /** Returns where a link to another notebook leads from this page, or undefined where it has no page. */
  readonly pageOf: (notebookPath: string) => string | undefined;
  /** The ids of the formulas that the formula sheet has: where one is named, it leads there. */
  readonly formulas: ReadonlySet<string>;
}

/** A place for Markdown that leads nowhere and forms no page. */
export const noPlace = (): MarkdownPlace => ({
  ids: new HeadingIds(),
  headings: [],
  pageOf: () => undefined,
  formulas: new Set(),
});

/** A page's part: of the notebook's text, whose headings form the page, or of an output, whose headings don't. */
export interface Env {
  readonly place: MarkdownPlace;
  readonly part: "text" | "output";
  readonly attachments: ReadonlyMap<string, string>;
}

/** The reader of all Markdown on the pages. */
export const markdown = new MarkdownIt({ html: false, linkify: false, typographer: false });
markdown.use(katexPlugin);

markdown.renderer.rules.math_inline = (tokens, at) => renderTex(unquoted(tokens[at].content), false);
markdown.renderer.rules.math_block = (tokens, at) =>
  `<div class="equation">${renderTex(tokens[at].content, true)}</div>\n`;
// An equation set apart inside a paragraph, where HTML allows no block.
markdown.renderer.rules.math_inline_block = (tokens, at) =>
  `<span class="equation">${renderTex(tokens[at].content, true)}</span>`;

markdown.renderer.rules.fence = (tokens, at) => codeBox(tokens[at].content, tokens[at].info.trim());
markdown.renderer.rules.code_block = (tokens, at) => codeBox(tokens[at].content, "");
markdown.renderer.rules.table_open = () => '<div class="scroll"><table>\n';
markdown.renderer.rules.table_close = () => "</table></div>\n";

markdown.renderer.rules.code_inline = (tokens, at, _options, env: Env) => {
  const { content } = tokens[at];
  const code = `<code>${escapeHtml(content)}</code>`;
  return env.place.formulas.has(content) && !insideLink(tokens, at)
    ? `<a class="formula" href="formula-sheet.html#${content}">${code}</a>`
    : code;
};

const insideLink = (tokens: readonly Token[], at: number): boolean => {
  const last = tokens.slice(0, at).findLast(({ type }) => type === "link_open" || type === "link_close");
  return last?.type === "link_open";
};

/** `$`1+1`$` is an equation too, in some front-ends. */
const unquoted = (latex: string): string => (/^`.+`$/s.test(latex) ? latex.slice(1, -1) : latex);

function codeBox(code: string, language: string): string {
  const html = /^(?:ts|typescript|js|javascript)$/i.test(language)
    ? highlightTypeScript(code)
    : escapeHtml(code);
  return `<pre class="code"><code>${html.replace(/\n$/, "")}</code></pre>\n`;
}

markdown.renderer.rules.image = (tokens, at, _options, env: Env) => {
  const token = tokens[at];
  const alt = markdown.renderer.renderInlineAsText(token.children ?? [], markdown.options, env);
  const wanted = token.attrGet("src") ?? "";
  const source = env.attachments.get(wanted.replace(/^attachment:/, "")) ?? wanted;
  // A page loads nothing: a picture that does not come along is told by its words.
  if (!/^data:image\/(?:png|jpeg|gif|webp);base64,/.test(source))
    return `<em class="absent">${escapeHtml(alt)}</em>`;
  return `<img src="${escapeHtml(source)}" alt="${escapeHtml(alt)}">`;
};

// markdown-it keeps javascript:, vbscript:, file: and data: links out itself.
markdown.core.ruler.push("page-links", (state) => {
  const env = state.env as Env;
  for (const block of state.tokens) {
    for (const [at, token] of (block.children ?? []).entries()) {
      if (token.type === "link_open") placeLink(block.children ?? [], at, env);
    }
  }
});

function placeLink(tokens: Token[], at: number, env: Env): void {
  const link = tokens[at];
  const href = link.attrGet("href") ?? "";
  const [, path = "", part = ""] = /^([^#?]*\.ipynb)(#[^?]*)?$/.exec(href) ?? [];
  if (path !== "") {
    const page = env.place.pageOf(path);
    if (page === undefined) dropLink(tokens, at);
    else link.attrSet("href", page + part);
  } else if (/^https?:/i.test(href)) {
    link.attrSet("rel", "noopener noreferrer");
  } else if (!/^(?:#|mailto:)/i.test(href)) {
    // A file of the project, which has no place beside the pages.
    dropLink(tokens, at);
  }
}

/** Leaves a link's words without the link. */
function dropLink(tokens: Token[], at: number): void {
  const level = tokens[at].level;
  const close = tokens.find(
    (token, index) => index > at && token.type === "link_close" && token.level === level,
  );
  for (const token of [tokens[at], close]) {
    if (token === undefined) continue;
    token.type = "text";
    token.content = "";
  }
}

markdown.core.ruler.push("page-ties", (state) => {
  for (const block of state.tokens)
    for (const token of block.children ?? []) if (token.type === "text") token.content = tied(token.content);
});

// A notebook's first-level heading names the page; the page's own text starts at the second level.
markdown.core.ruler.push("page-headings", (state) => {
  const env = state.env as Env;
  state.tokens.forEach((open, at) => {
    if (open.type !== "heading_open") return;
    const inline = state.tokens[at + 1];
    const close = state.tokens[at + 2];
    if (env.part === "output") {
      open.tag = close.tag = "p";
      open.attrSet("class", "output-heading");
      return;
    }
    const level = Math.max(2, Number(open.tag.slice(1)));
    open.tag = close.tag = `h${level}`;
    const id = env.place.ids.next(inline.content);
    open.attrSet("id", id);
    if (level === 2 || level === 3) {
      const words = (inline.children ?? []).filter((token) => !/^(?:link|image)/.test(token.type));
      env.place.headings.push({
        level,
        id,
        html: markdown.renderer.render(words, markdown.options, withoutFormulas(env)),
      });
    }
  });
});

/** The contents of a page are links already. */
const withoutFormulas = (env: Env): Env => ({ ...env, place: { ...env.place, formulas: new Set() } });

// What warns must be seen: a paragraph or list item that begins with the sign of warning.
markdown.core.ruler.push("page-cautions", (state) => {
  state.tokens.forEach((token, at) => {
    if (token.type !== "inline" || !token.content.startsWith("⚠")) return;
    const holder =
      state.tokens[at - 2]?.type === "list_item_open" ? state.tokens[at - 2] : state.tokens[at - 1];
    holder?.attrJoin("class", "caution");
  });
});

// Under a worked calculation its source is for those who ask; it stands back.
markdown.core.ruler.push("page-sources", (state) => {
  const env = state.env as Env;
  if (env.part !== "output") return;
  state.tokens.forEach((token, at) => {
    if (token.type === "inline" && token.content.startsWith("Source:"))
      state.tokens[at - 1]?.attrJoin("class", "source");
  });
});

/** Renders a notebook's text. Its headings get ids and enter the page's contents. */
export function renderMarkdown(
  text: string,
  place: MarkdownPlace,
  attachments: ReadonlyMap<string, string> = new Map(),
): string {
  return markdown.render(text, { place, part: "text", attachments } satisfies Env);
}

/** Renders Markdown that a cell has put out. Its headings are shown, and form no part of the page's contents. */
export function renderOutputMarkdown(text: string, place: MarkdownPlace): string {
  return markdown.render(text, { place, part: "output", attachments: new Map() } satisfies Env);
}
