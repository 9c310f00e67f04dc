import { execFileSync } from "node:child_process";
import { mkdtempSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { readNotebook } from "../../kernel-helpers/src/workshop/notebookFile";
import { repositoryRoot } from "../../kernel-helpers/src/workshop/notebookNames";
import { notePage } from "../../kernel-helpers/src/workshop/note/notePage";
import { hasChromium, startChromium, watchedPage } from "./chromium";
import { requireOnCI } from "./requireOnCI";

const hasPoppler = requireOnCI("poppler-utils (pdftoppm)", found("pdftoppm") && found("pdftotext"));

function found(program: string): boolean {
  try {
    execFileSync("which", [program], { stdio: "ignore" });
    return true;
  } catch {
    return false;
  }
}

let folder: string;
let browser: Browser;

/** A document in print: what was seen while it was printed. */
interface Print {
  readonly complaints: readonly string[];
  readonly escapes: readonly string[];
  /** The text of each page. */
  readonly pages: readonly string[];
  /** The same with marks, and every section moved down by so many millimetres, so that breaks fall elsewhere. */
  readonly moved: ReadonlyMap<number, readonly string[]>;
  readonly pairs: number;
}
const prints = new Map<string, Print>();
const printOf = (name: string): Print => {
  const one = prints.get(name);
  if (one === undefined) throw new Error(`${name} was not printed`);
  return one;
};

const notebooks = join(repositoryRoot, "notebooks");
const example = join(notebooks, "projects", "example", "design-note.ipynb");
const guideline = join(notebooks, "18-guideline.ipynb");
// A table moved further would be taller than what its page has left, and must be cut.
const ways = [0, 12, 24, 36, 48, 60, 72, 84];
const dotsAnInch = 40;
const pixels = (millimetres: number): number => Math.round((millimetres / 25.4) * dotsAnInch);

/**
 * Puts a mark at both ends of what must stay on one page, too small to be seen and to move anything: the first and the
 * last row of each table, a figure with its words, a heading with what follows it. Returns how many pairs.
 */
function markPairs(page: Page): Promise<number> {
  return page.evaluate((headings) => {
    let count = 0;
    // Inside, because it runs in the page.
    // oxlint-disable-next-line unicorn/consistent-function-scoping
    const mark = (place: Node, text: string): void => {
      const span = document.createElement("span");
      span.style.fontSize = "0.5px";
      span.textContent = text;
      place.parentNode?.insertBefore(span, place);
    };
    const pair = (first: Node | null | undefined, last: Node | null | undefined): void => {
      if (first == null || last == null) throw new Error("there is nothing to mark");
      mark(first, `Qa${count}q`);
      mark(last, `Qz${count}q`);
      count += 1;
    };
    for (const table of document.querySelectorAll(".body table")) {
      const last = [...table.querySelectorAll("tr")].at(-1);
      pair(table.querySelector("caption")?.firstChild, last?.querySelector("td div, td")?.firstChild);
    }
    for (const heading of document.querySelectorAll(headings)) {
      const all = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT | NodeFilter.SHOW_ELEMENT);
      all.currentNode = heading;
      let next = all.nextNode();
      // oxlint-disable-next-line unicorn/consistent-function-scoping -- as above
      const isContent = (node: Node): boolean =>
        node.nodeName === "IMG" ||
        (node.nodeType === Node.TEXT_NODE &&
          (node.textContent ?? "").trim() !== "" &&
          node.parentElement?.closest(".katex-mathml, .cell-number, span[style]") === null);
      while (next !== null && (heading.contains(next) || !isContent(next))) next = all.nextNode();
      pair(heading.firstChild, next);
    }
    return count;
  }, "h2, h3, .rich > p:first-child:not(:last-child)");
}

beforeAll(async () => {
  if (!hasChromium || !hasPoppler) return;
  folder = mkdtempSync(join(tmpdir(), "note-browser-"));
  browser = await startChromium();
  await print("note", notePage("example", readNotebook(example)));
  await print("guideline", notePage("course", readNotebook(guideline), { withCode: false }));
}, 240_000);

async function print(name: string, html: string): Promise<void> {
  const file = join(folder, `${name}.html`);
  writeFileSync(file, html);
  const { page, complaints, escapes } = await watchedPage(await browser.newContext());
  await page.goto(pathToFileURL(file).href);
  const printed = async (pdf: string): Promise<string[]> => {
    const path = join(folder, pdf);
    await page.pdf({ path, preferCSSPageSize: true, printBackground: true });
    return execFileSync("pdftotext", ["-raw", path, "-"], { encoding: "utf8" }).split("\f").slice(0, -1);
  };
  const pages = await printed(`${name}.pdf`);
  const pairs = await markPairs(page);
  const moved = new Map<number, readonly string[]>();
  for (const way of ways) {
    await page.evaluate((millimetres) => {
      for (const section of document.querySelectorAll("section"))
        section.style.paddingTop = `${millimetres}mm`;
    }, way);
    moved.set(way, await printed("moved.pdf"));
  }
  const pictures = ["-gray", "-r", String(dotsAnInch), join(folder, `${name}.pdf`), join(folder, name)];
  execFileSync("pdftoppm", pictures);
  prints.set(name, { complaints, escapes, pages, moved, pairs });
}

afterAll(async () => {
  if (!hasChromium || !hasPoppler) return;
  await browser.close();
  rmSync(folder, { recursive: true });
});

interface Picture {
  readonly width: number;
  readonly height: number;
  readonly grey: Uint8Array;
}

/** Reads a portable greymap as pdftoppm writes it. */
function pictureOf(name: string, page: number, of: number): Picture {
  const number = String(page).padStart(String(of).length, "0");
  const bytes = readFileSync(join(folder, `${name}-${number}.pgm`));
  const [head = "", width, height] =
    /^P5\s+(\d+)\s+(\d+)\s+255\s/.exec(bytes.toString("latin1", 0, 40)) ?? [];
  return { width: Number(width), height: Number(height), grey: bytes.subarray(head.length) };
}

/** Counts the dark dots of a picture between columns and rows. */
function ink(
  { width, grey }: Picture,
  [left, right]: [number, number],
  [top, bottom]: [number, number],
): number {
  let dots = 0;
  for (let row = top; row < bottom; row++)
    for (let column = left; column < right; column++) if (grey[row * width + column] < 200) dots += 1;
  return dots;
}

describe.runIf(hasChromium && hasPoppler).each([
  ["note", "Design note, example", 8, 40],
  ["guideline", "Guideline, course", 2, 4],
] as const)("the printed %s", (name, foot, least, most) => {
  test("asks nothing of the network and complains of nothing", () => {
    expect(printOf(name).escapes).toEqual([]);
    expect(printOf(name).complaints).toEqual([]);
  });

  test("numbers its A4 pages and says at each foot what it is", () => {
    const { pages } = printOf(name);
    expect(pages.length).toBeGreaterThanOrEqual(least);
    expect(pages.length).toBeLessThanOrEqual(most);
    pages.forEach((text, at) => {
      expect(text).toContain(`Page ${at + 1} of ${pages.length}`);
      expect(text).toContain(foot);
    });
    const size = execFileSync("pdfinfo", [join(folder, `${name}.pdf`)], { encoding: "utf8" });
    const [, width, height] = /Page size:\s+([\d.]+) x ([\d.]+)/.exec(size) ?? [];
    expect(Number(width) / 72).toBeCloseTo(210 / 25.4, 1);
    expect(Number(height) / 72).toBeCloseTo(297 / 25.4, 1);
  });

  test.each(ways)("with its sections %i mm apart, cuts no table and leaves no heading alone", (way) => {
    const { moved, pairs } = printOf(name);
    const pages = moved.get(way) ?? [];
    const pageOf = (mark: string): number => pages.findIndex((text) => text.includes(mark));
    expect(pairs).toBeGreaterThan(10);
    const apart = Array.from({ length: pairs }, (_, at) => [
      at,
      pageOf(`Qa${at}q`),
      pageOf(`Qz${at}q`),
    ]).filter(([, first, last]) => first < 0 || first !== last);
    expect(apart).toEqual([]);
  });

  test("keeps every page's edges free and no page empty", () => {
    const count = printOf(name).pages.length;
    for (let page = 1; page <= count; page++) {
      const picture = pictureOf(name, page, count);
      const { width, height } = picture;
      const edge = pixels(10);
      expect(ink(picture, [0, edge], [0, height])).toBe(0);
      expect(ink(picture, [width - edge, width], [0, height])).toBe(0);
      expect(ink(picture, [0, width], [0, edge])).toBe(0);
      // Above the foot, which every page has.
      expect(ink(picture, [0, width], [0, height - pixels(20)])).toBeGreaterThan(100);
    }
  });

  test("fits a phone without scrolling sideways", async () => {
    const { page } = await watchedPage(await browser.newContext({ viewport: { width: 360, height: 740 } }));
    await page.goto(pathToFileURL(join(folder, `${name}.html`)).href);
    expect(
      await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth),
    ).toBeLessThanOrEqual(0);
  });
});
