import type { Token } from "markdown-it";
import { escapeHtml } from "../../notebook/emit";
import { type Env, markdown, noPlace } from "./markdown";

/** What a notebook says about itself at its top. */
export interface Opening {
  /** The first-level heading as safe inline HTML, and as plain words. */
  readonly titleHtml: string;
  readonly title: string;
  /** The first sentence after it as safe inline HTML: the notebook's question. */
  readonly question: string;
  /** The text without that heading. */
  readonly rest: string;
}

/** Reads the title and the question from a notebook's first Markdown text; `otherwise` names one without a title. */
export function readOpening(text: string, otherwise: string): Opening {
  const env: Env = { place: noPlace(), part: "text", attachments: new Map() };
  const tokens = markdown.parse(text, env);
  const open = tokens.findIndex((token) => token.type === "heading_open" && token.markup === "#");
  const heading = open < 0 ? undefined : tokens[open + 1];
  const paragraph = tokens.findIndex((token, at) => at > open && token.type === "paragraph_open");
  const sentence = paragraph < 0 ? "" : firstSentence(tokens[paragraph + 1].content);
  const [from, to] = (open < 0 ? undefined : tokens[open].map) ?? [0, 0];
  return {
    titleHtml:
      heading === undefined
        ? escapeHtml(otherwise)
        : markdown.renderer.render([heading], markdown.options, env),
    title: heading === undefined ? otherwise : plainWords(heading, env),
    question: markdown.renderInline(sentence, env),
    rest: text
      .split("\n")
      .filter((_, line) => line < from || line >= to)
      .join("\n"),
  };
}

const plainWords = (inline: Token, env: Env): string =>
  markdown.renderer.renderInlineAsText(inline.children ?? [], markdown.options, env);

/** Returns a text up to the first full stop, question mark or exclamation mark that ends a sentence. */
function firstSentence(text: string): string {
  const [sentence] = /^[\s\S]*?[.?!](?:[*_]*)(?=\s+\p{Lu}|\s*$)/u.exec(text.trim()) ?? [text.trim()];
  return sentence.replace(/\s+/g, " ");
}
