import { renderToString } from "katex";

/**
 * Sets an equation in LaTeX.
 *
 * Returns HTML with the equation as MathML beside it for those who listen. LaTeX that cannot be read is shown as it is
 * written, in the colour of a fault; commands that could link, load or style are not followed.
 */
export function renderTex(latex: string, display: boolean): string {
  return renderToString(latex, {
    displayMode: display,
    throwOnError: false,
    trust: false,
    // Trade texts carry signs such as "³" inside \mathrm: fine to print, not worth a warning on the console.
    strict: "ignore",
    errorColor: "#a4262c",
    // Bounds on what one equation may ask for: a macro that calls itself must end.
    maxExpand: 1000,
    maxSize: 20,
  });
}
