import createDOMPurify, { type Config, type WindowLike } from "dompurify";
import { JSDOM } from "jsdom";
import { tied } from "./ties";

const { window } = new JSDOM("");
// jsdom's window has what DOMPurify asks of a browser's; their two type packages don't know each other.
const purifier = createDOMPurify(window as unknown as WindowLike);

const tags =
  "table caption colgroup col thead tbody tfoot tr th td figure figcaption img p div span ul ol li dl dt dd br hr " +
  "strong b em i sub sup small code pre kbd abbr blockquote";

const allowed: Config = {
  ALLOWED_TAGS: tags.split(" "),
  ALLOWED_ATTR: ["alt", "colspan", "rowspan", "scope", "src", "style", "title", "width", "height"],
  ALLOW_DATA_ATTR: false,
  ALLOW_ARIA_ATTR: false,
  // What stands inside these is not text for a reader.
  FORBID_CONTENTS: ["script", "style", "iframe", "object", "embed", "template", "noscript", "svg", "math"],
};

const pictureAddress = /^data:image\/(?:svg\+xml|png)[;,]/;
const alignment = /(?:^|;)\s*text-align\s*:\s*(left|right|center|start|end)\s*(?:;|$)/i;

purifier.addHook("uponSanitizeAttribute", (_, attribute) => {
  if (attribute.attrName === "src" && !pictureAddress.test(attribute.attrValue)) attribute.keepAttr = false;
  if (attribute.attrName === "style") {
    const found = alignment.exec(attribute.attrValue)?.[1];
    if (found === undefined) attribute.keepAttr = false;
    else attribute.attrValue = `text-align: ${found.toLowerCase()}`;
  }
});

/**
 * Makes the HTML of a notebook's output safe for a page.
 *
 * Returns tables, figures, pictures that come along as data, lists and emphasised text; of styles, the alignment of
 * text. Scripts, event handlers, links, forms, frames and pictures from elsewhere are gone; such a picture is told by its
 * words.
 */
export function cleanHtml(html: string): string {
  const holder = window.document.createElement("div");
  holder.append(purifier.sanitize(html, { ...allowed, RETURN_DOM_FRAGMENT: true }));
  for (const image of holder.querySelectorAll("img:not([src])"))
    image.replaceWith(image.getAttribute("alt") ?? "");
  const texts = window.document.createTreeWalker(holder, window.NodeFilter.SHOW_TEXT);
  for (let text = texts.nextNode(); text !== null; text = texts.nextNode())
    text.nodeValue = tied(text.nodeValue ?? "");
  return holder.innerHTML;
}

/** Returns cleaned HTML as a tree that can be searched. */
export function htmlTree(html: string): DocumentFragment {
  return JSDOM.fragment(html);
}
