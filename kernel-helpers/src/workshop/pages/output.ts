import { escapeHtml } from "../../notebook/emit";
import { joined, type Output } from "../outputs";
import type { JsonObject } from "../json";
import { cleanHtml } from "./cleanHtml";
import { figureHtml, plotlyType } from "./figure";
import { type MarkdownPlace, renderOutputMarkdown } from "./markdown";

/** More than this of one text is more than a page can show and a reader can read, in characters. */
export const longestText = 20_000;

/** Returns one output of a cell as HTML for a page, in the richest of its forms that a page can show safely. */
export function outputHtml(output: Output, place: MarkdownPlace): string {
  switch (output.output_type) {
    case "stream":
      return output.name === "stderr"
        ? faultBox("This cell complained", joined(output.text))
        : textBox(joined(output.text));
    case "error":
      return faultBox("This cell failed", `${output.ename}: ${output.evalue}`);
    default:
      return displayHtml(output.data, place);
  }
}

function displayHtml(data: JsonObject, place: MarkdownPlace): string {
  if (data[plotlyType] !== undefined) return figureHtml(data);
  if (data["text/html"] !== undefined) {
    const html = cleanHtml(joined(data["text/html"])).trim();
    // A script alone, say: nothing of it is for a reader.
    if (html !== "") return `<div class="scroll rich">${html}</div>\n`;
  }
  for (const type of ["image/svg+xml", "image/png", "image/jpeg"]) {
    if (data[type] !== undefined) return pictureHtml(type, joined(data[type]), joined(data["text/plain"]));
  }
  if (data["text/markdown"] !== undefined) {
    const html = renderOutputMarkdown(joined(data["text/markdown"]), place);
    const warns = html.includes('class="caution"');
    return `<div class="rich${warns ? " warns" : ""}">${html}</div>\n`;
  }
  if (data["text/latex"] !== undefined) {
    return `<div class="rich">${renderOutputMarkdown(joined(data["text/latex"]), place)}</div>\n`;
  }
  const plain = joined(data["text/plain"]);
  return plain === "" ? "" : textBox(plain);
}

function pictureHtml(type: string, content: string, alt: string): string {
  const base64 =
    type === "image/svg+xml" ? Buffer.from(content).toString("base64") : content.replace(/\s/g, "");
  if (!/^[A-Za-z0-9+/]*={0,2}$/.test(base64))
    return faultBox("This picture cannot be shown", "It is not base64.");
  // As an image an SVG runs no script and loads nothing.
  return `<figure class="picture scroll"><img src="data:${type};base64,${base64}" alt="${escapeHtml(alt)}"></figure>\n`;
}

function textBox(text: string): string {
  return `<pre class="printed">${escapeHtml(shortened(text))}</pre>\n`;
}

/** A box for what went wrong, with its reason in words. */
export function faultBox(title: string, text: string): string {
  return `<div class="fault"><p class="fault-title">${escapeHtml(title)}</p><pre>${escapeHtml(shortened(text).trim())}</pre></div>\n`;
}

// The colours that terminals show, as ESC [ … m.
// oxlint-disable-next-line no-control-regex -- the escape character is what is looked for
const terminalCodes = /\u001b\[[0-9;]*[A-Za-z]/g;

function shortened(text: string): string {
  const plain = text.replace(terminalCodes, "").replace(/\n$/, "");
  if (plain.length <= longestText) return plain;
  return `${plain.slice(0, longestText)}\n… ${plain.length - longestText} more characters are not shown here.`;
}
