import { host } from "../host/current";

/** Emits Markdown, with a plain form for front-ends that don't render it. */
export function emitMarkdown(markdown: string, plain: string = markdown): void {
  host.emit({ "text/markdown": markdown, "text/plain": plain });
}

/** Emits HTML, with a plain form for front-ends that don't render it. */
export function emitHtml(html: string, plain: string): void {
  host.emit({ "text/html": html, "text/plain": plain });
}

const entities: Readonly<Record<string, string>> = {
  "&": "&amp;",
  "<": "&lt;",
  ">": "&gt;",
  '"': "&quot;",
  "'": "&#39;",
};

/** Makes a text safe inside HTML, in text and in attributes. */
export const escapeHtml = (text: string): string =>
  text.replace(/[&<>"']/g, (sign) => entities[sign] ?? sign);

/** Makes a text from a reader or a file safe inside Markdown: it is shown as it is written. */
export const escapeMarkdown = (text: string): string =>
  // Backslashes first: one put into an entity such as &#39; would show the entity's own letters.
  escapeHtml(text.replace(/[\\`*_[\]#|$~]/g, "\\$&"));
