import { JSDOM } from "jsdom";
import { boxInRoot } from "../../kernel-helpers/src/host/node/svgBoxes";

/** A text of a drawn figure with its place in pixels. */
export interface DrawnText {
  readonly text: string;
  readonly box: DOMRect;
}

/** Reads a drawn SVG; throws where it is not well-formed XML. */
export function parseSvg(svg: string): Element {
  return new JSDOM(svg, { contentType: "image/svg+xml" }).window.document.documentElement;
}

/** The texts of a drawn figure. */
export function drawnTexts(svg: string): DrawnText[] {
  return [...parseSvg(svg).querySelectorAll("text")].map((element) => ({
    text: (element.textContent ?? "").replaceAll("\u200B", ""),
    box: boxInRoot(element),
  }));
}

/** Pairs of texts that lie on each other by more than a pixel or two. */
export function overlaps(svg: string): string[] {
  const texts = drawnTexts(svg);
  return texts.flatMap((one, index) =>
    texts.slice(index + 1).flatMap((other) => {
      const across = Math.min(one.box.right, other.box.right) - Math.max(one.box.left, other.box.left);
      const down = Math.min(one.box.bottom, other.box.bottom) - Math.max(one.box.top, other.box.top);
      return across > 1 && down > 2 ? [`${one.text} | ${other.text}`] : [];
    }),
  );
}

/** Texts that leave the picture. */
export function outside(svg: string): string[] {
  const root = parseSvg(svg);
  const [width, height] = [Number(root.getAttribute("width")), Number(root.getAttribute("height"))];
  return drawnTexts(svg)
    .filter(({ box }) => box.left < -1 || box.top < -1 || box.right > width + 1 || box.bottom > height + 1)
    .map(({ text }) => text);
}
