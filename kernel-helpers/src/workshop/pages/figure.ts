import { joined } from "../outputs";
import type { JsonObject } from "../json";
import { cleanHtml, htmlTree } from "./cleanHtml";
import { escapeHtml } from "../../notebook/emit";

/** The mime type of a figure that Plotly draws. */
export const plotlyType = "application/vnd.plotly.v1+json";

/** A figure's still picture with its words. */
export interface StillPicture {
  readonly source: string;
  readonly alt: string;
  readonly caption: string;
}

/** Returns the still picture that a figure's output carries, or undefined where it carries none. */
export function stillPicture(data: JsonObject): StillPicture | undefined {
  const tree = htmlTree(cleanHtml(joined(data["text/html"])));
  const image = tree.querySelector("img[src]");
  if (image === null) return undefined;
  return {
    source: image.getAttribute("src") ?? "",
    alt: image.getAttribute("alt") ?? "",
    caption: tree.querySelector("figcaption")?.textContent?.trim() ?? "",
  };
}

/** Puts JSON where HTML is read: no character of it can end the script element or be taken for a line end. */
function embeddedJson(value: unknown): string {
  return JSON.stringify(value).replace(
    /[<>&\u2028\u2029]/g,
    (sign) => `\\u${sign.charCodeAt(0).toString(16).padStart(4, "0")}`,
  );
}

/**
 * Returns a figure: the still picture with its words, and beside it the specification from which the page's script
 * draws the figure anew when a reader points at it.
 */
export function figureHtml(data: JsonObject): string {
  const picture = stillPicture(data);
  const specification = data[plotlyType];
  const alt = picture?.alt ?? "";
  const still =
    picture === undefined
      ? '<p class="absent">This figure was stored without its picture; run the notebook to draw it.</p>'
      : `<img src="${escapeHtml(picture.source)}" alt="${escapeHtml(alt)}">`;
  const caption =
    picture === undefined || picture.caption === ""
      ? ""
      : `<figcaption>${escapeHtml(picture.caption)}</figcaption>`;
  const interactive =
    typeof specification === "object" && specification !== null
      ? `<script type="application/json" class="plot-specification">${embeddedJson(specification)}</script>`
      : "";
  return `<figure class="plot"><div class="plot-box scroll"><div class="still">${still}</div></div>${caption}${interactive}</figure>\n`;
}
