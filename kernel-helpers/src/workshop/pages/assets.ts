/** What the pages share: the style sheets, the equations' fonts, the figures' script and one copy of plotly.js. */
import { copyFileSync, mkdirSync, readdirSync, readFileSync, writeFileSync } from "node:fs";
import { createRequire } from "node:module";
import { dirname, join } from "node:path";

const packageRoot = join(__dirname, "..", "..", "..");
const installed = createRequire(__filename);

/** Writes the shared files into `folder`. */
export function writeAssets(folder: string): void {
  mkdirSync(join(folder, "fonts"), { recursive: true });
  const katex = dirname(installed.resolve("katex"));
  for (const font of readdirSync(join(katex, "fonts"))) {
    if (font.endsWith(".woff2")) copyFileSync(join(katex, "fonts", font), join(folder, "fonts", font));
  }
  writeFileSync(join(folder, "katex.css"), woff2Only(readFileSync(join(katex, "katex.min.css"), "utf8")));
  // The style sheet stands beside this file in the source; the script is compiled.
  copyFileSync(join(packageRoot, "src", "workshop", "pages", "course.css"), join(folder, "course.css"));
  const script = readFileSync(
    join(packageRoot, "dist", "workshop", "pages", "browser", "figures.js"),
    "utf8",
  );
  writeFileSync(join(folder, "figures.js"), classicScript(script));
  copyFileSync(installed.resolve("plotly.js-dist"), join(folder, "plotly.js"));
}

/** Every browser that shows these pages reads woff2; the other two formats would be dead links. */
export function woff2Only(css: string): string {
  return css.replace(/,url\([^)]+\.(?:woff|ttf)\) format\("[a-z]+"\)/g, "");
}

/** The compiler writes a CommonJS module; from file:// a browser runs classic scripts alone. */
function classicScript(commonJs: string): string {
  return `(function (exports) {\n${commonJs.replace(/\n\/\/# sourceMappingURL=.*\s*$/, "\n")}})({});\n`;
}
