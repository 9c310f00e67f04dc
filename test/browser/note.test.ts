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
let complaints: string[];
let escapes: string[];
/** The text of each page, the invisible marks among it. */
let pages: readonly string[];

const example = join(repositoryRoot, "notebooks", "projects", "example", "design-note.ipynb");
const dotsAnInch = 40;
const pixels = (millimetres: number): number => Math.round((millimetres / 25.4) * dotsAnInch);

/**
 * Puts a mark at both ends of what must stay on one page, too small to be seen and to move anything: the first and the
 * last row of each table, a figure with its words, a heading with what follows it. Returns how many pairs.
 */
function markPairs(page: Page): Promise<number> {
  return page.evaluate(() => {
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
    for (const heading of document.querySelectorAll("h2, h3, .output-heading")) {
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
  });
}

beforeAll(async () => {
  if (!hasChromium || !hasPoppler) return;
  folder = mkdtempSync(join(tmpdir(), "note-browser-"));
  const file = join(folder, "note.html");
  writeFileSync(file, notePage("example", readNotebook(example)));
  browser = await startChromium();
  const watched = await watchedPage(await browser.newContext());
  ({ complaints, escapes } = watched);
  await watched.page.goto(pathToFileURL(file).href);
  const print = (name: string) =>
    watched.page.pdf({ path: join(folder, name), preferCSSPageSize: true, printBackground: true });
  await print("note.pdf");
  pairs = await markPairs(watched.page);
  await print("marked.pdf");
  pages = execFileSync("pdftotext", ["-raw", join(folder, "marked.pdf"), "-"], { encoding: "utf8" })
    .split("\f")
    .slice(0, -1);
  execFileSync("pdftoppm", ["-gray", "-r", String(dotsAnInch), join(folder, "note.pdf"), join(folder, "p")]);
}, 120_000);

let pairs = 0;

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
function pictureOf(page: number, of: number): Picture {
  const number = String(page).padStart(String(of).length, "0");
  const bytes = readFileSync(join(folder, `p-${number}.pgm`));
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

const pageOf = (mark: string): number => pages.findIndex((text) => text.includes(mark));

describe.runIf(hasChromium && hasPoppler)("the printed note of the example", () => {
  test("asks nothing of the network and complains of nothing", () => {
    expect(escapes).toEqual([]);
    expect(complaints).toEqual([]);
  });

  test("numbers its A4 pages and names the note on each", () => {
    expect(pages.length).toBeGreaterThan(8);
    pages.forEach((text, at) => {
      expect(text).toContain(`Page ${at + 1} of ${pages.length}`);
      expect(text).toContain("Design note, example");
    });
    const size = execFileSync("pdfinfo", [join(folder, "note.pdf")], { encoding: "utf8" });
    const [, width, height] = /Page size:\s+([\d.]+) x ([\d.]+)/.exec(size) ?? [];
    expect(Number(width) / 72).toBeCloseTo(210 / 25.4, 1);
    expect(Number(height) / 72).toBeCloseTo(297 / 25.4, 1);
  });

  test("cuts no table, and leaves no heading without what it heads", () => {
    expect(pairs).toBeGreaterThan(30);
    const apart = Array.from({ length: pairs }, (_, at) => [pageOf(`Qa${at}q`), pageOf(`Qz${at}q`)]).filter(
      ([first, last]) => first < 0 || first !== last,
    );
    expect(apart).toEqual([]);
  });

  test("keeps every page's edges free and no page empty", () => {
    for (let page = 1; page <= pages.length; page++) {
      const picture = pictureOf(page, pages.length);
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
    await page.goto(pathToFileURL(join(folder, "note.html")).href);
    expect(
      await page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth),
    ).toBeLessThanOrEqual(0);
  });
});
