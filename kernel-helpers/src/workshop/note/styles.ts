/** The styles of a page that stands alone. */
import { readFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";
import { woff2Only } from "../pages/assets";

const source = join(__dirname, "..", "..", "..", "src", "workshop");
const installed = createRequire(__filename);

/** Returns the style sheets of a page that stands alone, its equations' fonts among them as data. */
export function noteStyles(footer: string): string {
  const katex = dirname(installed.resolve("katex"));
  const equations = woff2Only(readFileSync(join(katex, "katex.min.css"), "utf8")).replace(
    /url\((fonts\/[\w-]+\.woff2)\)/g,
    (_, font: string) => `url(data:font/woff2;base64,${readFileSync(join(katex, font)).toString("base64")})`,
  );
  return [
    equations,
    readFileSync(join(source, "pages", "course.css"), "utf8"),
    readFileSync(join(source, "note", "note.css"), "utf8"),
    `@page { @bottom-left { content: ${cssText(footer)}; } }`,
  ].join("\n");
}

/** A text as a string of CSS: nothing in it can end the string or the style element. */
export const cssText = (text: string): string =>
  `"${text.replace(/[^\p{L}\p{N} .,-]/gu, (sign) => `\\${(sign.codePointAt(0) ?? 0).toString(16)} `)}"`;
