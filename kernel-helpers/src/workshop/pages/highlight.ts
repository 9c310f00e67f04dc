import { classHighlighter, highlightCode } from "@lezer/highlight";
import { parser } from "@lezer/javascript";
import { escapeHtml } from "../../notebook/emit";

const typescript = parser.configure({ dialect: "ts" });

/** Returns TypeScript as HTML whose spans carry the class of each token; every character of the code is kept. */
export function highlightTypeScript(code: string): string {
  let html = "";
  highlightCode(
    code,
    typescript.parse(code),
    classHighlighter,
    (text, classes) => {
      html += classes === "" ? escapeHtml(text) : `<span class="${classes}">${escapeHtml(text)}</span>`;
    },
    () => {
      html += "\n";
    },
  );
  return html;
}
