import { mkdtempSync, readFileSync, rmSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { pathToFileURL } from "node:url";
import { catalogue } from "kernel-helpers";
import type { Browser, Page } from "playwright-core";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { writeCourse } from "../../kernel-helpers/src/workshop/pages/course";
import { serveFolder, type Serving } from "../../kernel-helpers/src/workshop/serve";
import { code, courseNotebook, display, smallCourse, specification, text } from "../workshop/fixtures/course";
import { hasChromium, startChromium, watchedPage } from "./chromium";

let folder: string;
let browser: Browser;
let serving: Serving;
let files: readonly string[];

const phone = { width: 360, height: 740 };
const desk = { width: 1280, height: 900 };
const survival = "12-survival-by-size-class.html";

const hostile = courseNotebook(
  "13-hostile",
  text(
    '# Hostile <img src=x onerror="document.title=\'run\'">\n\nQ? <script>document.title="run"</script> ![x](https://example.org/x.png)',
  ),
  code(
    "x",
    display({
      "text/html":
        '<table><tr><td onmouseover="document.title=\'run\'">cell</td></tr></table><script>document.title="run"</script><img src="https://example.org/y.png" onerror="document.title=\'run\'">',
    }),
  ),
  code(
    "y",
    display({
      "text/html": `<figure><img alt="two points" src="data:image/svg+xml;base64,${Buffer.from('<svg xmlns="http://www.w3.org/2000/svg" width="760" height="430"><script>document.title="run"</script><rect width="9" height="9"/></svg>').toString("base64")}"></figure>`,
      "application/vnd.plotly.v1+json": {
        data: [{ x: [1, 2], y: [1, 2], name: '</script><script>document.title="run"</script>' }],
        layout: {
          title: {
            text: "<a href=\"javascript:document.title='run'\">x</a><img src=x onerror=\"document.title='run'\">",
          },
          images: [{ source: "https://example.org/z.png", x: 0, y: 1, sizex: 1, sizey: 1 }],
        },
      },
    }),
  ),
  code("z", { output_type: "stream", name: "stdout", text: ["long ".repeat(100_000)] }),
);

beforeAll(async () => {
  if (!hasChromium) return;
  folder = mkdtempSync(join(tmpdir(), "course-browser-"));
  const notebooks = [...(await smallCourse()), hostile];
  files = writeCourse(folder, { notebooks, formulas: catalogue.list(), readme: "The job in a paragraph." });
  serving = await serveFolder(folder, 0);
  browser = await startChromium();
});

afterAll(async () => {
  if (!hasChromium) return;
  await browser.close();
  await serving.close();
  rmSync(folder, { recursive: true });
});

const fromDisk = (file: string): string => pathToFileURL(join(folder, file)).href;
const fromServer = (file: string): string => serving.address + file;

const scrolledSideways = (page: Page): Promise<number> =>
  page.evaluate(() => document.documentElement.scrollWidth - window.innerWidth);

const brokenPictures = (page: Page): Promise<string[]> =>
  page.evaluate(() =>
    [...document.images]
      .filter(({ complete, naturalWidth }) => !complete || naturalWidth === 0)
      .map(({ alt }) => alt),
  );

/** The first figure that can turn interactive. */
const figureOf = (page: Page) => page.locator("figure.plot:has(.plot-bar)").first();

async function readAValue(page: Page): Promise<string[]> {
  const figure = figureOf(page);
  await figure.locator(".live .main-svg").first().waitFor();
  const plot = await figure.locator(".live .nsewdrag").first().boundingBox();
  if (plot === null) throw new Error("The interactive figure has no place on the page.");
  await page.mouse.move(plot.x + plot.width * 0.4, plot.y + plot.height * 0.4);
  await page.mouse.move(plot.x + plot.width * 0.42, plot.y + plot.height * 0.42);
  const label = figure.locator(".live .hoverlayer .hovertext");
  await label.first().waitFor();
  return label.allTextContents();
}

describe.skipIf(!hasChromium)("the course in a browser", () => {
  for (const [way, address] of [
    ["from disk", fromDisk],
    ["from the server", fromServer],
  ] as const) {
    test(`opens every page ${way} without a complaint, a request to elsewhere or a picture missing`, async () => {
      const context = await browser.newContext({ viewport: desk });
      for (const file of files) {
        const { page, complaints, escapes } = await watchedPage(context);
        await page.goto(address(file));
        await page.evaluate(() => document.fonts.ready);
        expect({ file, complaints, escapes, broken: await brokenPictures(page) }).toEqual({
          file,
          complaints: [],
          escapes: [],
          broken: [],
        });
        await page.close();
      }
      await context.close();
    });

    test(`turns a figure interactive ${way}, and it answers to the pointer`, async () => {
      const context = await browser.newContext({ viewport: desk });
      const { page, complaints, escapes } = await watchedPage(context);
      await page.goto(address(survival));
      await figureOf(page).getByRole("button", { name: "Read values" }).click();
      const [label = ""] = await readAValue(page);
      expect(specification.data.some(({ name }) => label.includes(name))).toBe(true);
      expect(label).toMatch(/\d/);
      expect([complaints, escapes]).toEqual([[], []]);
      await context.close();
    });
  }

  test("sets equations in the fonts that come along", async () => {
    const context = await browser.newContext({ viewport: desk });
    const { page } = await watchedPage(context);
    await page.goto(fromDisk(survival));
    const loaded = await page.evaluate(async () => {
      await document.fonts.ready;
      return [...document.fonts].filter(({ status }) => status === "loaded").map(({ family }) => family);
    });
    expect(loaded).toContain("KaTeX_Math");
    await context.close();
  });

  test.each([360, 390])(
    "fits a telephone of %i px: nothing scrolls sideways but in a box of its own",
    async (width) => {
      const context = await browser.newContext({ viewport: { ...phone, width } });
      for (const file of files) {
        const { page } = await watchedPage(context);
        await page.goto(fromDisk(file));
        await page.evaluate(() => document.fonts.ready);
        expect([file, await scrolledSideways(page)]).toEqual([file, 0]);
        await page.close();
      }
      const { page } = await watchedPage(context);
      await page.goto(fromDisk(survival));
      const scrolling = await page.evaluate(() =>
        [...document.querySelectorAll<HTMLElement>('[tabindex="0"]')].map(
          (box) => box.className.split(" ")[0],
        ),
      );
      expect(new Set(scrolling)).toEqual(new Set(["equation", "code", "scroll"]));
      // The whole still picture stands in the column: nothing of it is cut off.
      const cut = await page.evaluate(
        () =>
          [...document.querySelectorAll(".still img")].filter(
            (image) => image.getBoundingClientRect().right > window.innerWidth,
          ).length,
      );
      expect(cut).toBe(0);
      await figureOf(page).getByRole("button", { name: "Read values" }).click();
      await figureOf(page).locator(".live .main-svg").first().waitFor();
      expect(await scrolledSideways(page)).toBe(0);
      await context.close();
    },
  );

  test("keeps a figure's picture until a reader asks, and gives it back", async () => {
    const context = await browser.newContext({ viewport: desk });
    const { page } = await watchedPage(context);
    const asked: string[] = [];
    page.on("request", (request) => asked.push(request.url()));
    await page.goto(fromDisk(survival));
    expect(asked.some((url) => url.endsWith("plotly.js"))).toBe(false);
    const figure = figureOf(page);
    await expect.poll(() => figure.locator(".still img").isVisible()).toBe(true);
    await figure.locator(".still").hover();
    await figure.locator(".live .main-svg").first().waitFor();
    expect(await figure.locator(".still").isVisible()).toBe(false);
    expect(await figure.locator(".live").getAttribute("aria-label")).toContain(
      "Total survival against total length",
    );
    await figure.getByRole("button", { name: "Still picture" }).click();
    expect(await figure.locator(".still img").isVisible()).toBe(true);
    expect(await figure.locator(".live").isVisible()).toBe(false);
    // The reader's choice stands: passing over the picture again leaves it still.
    await page.mouse.move(0, 0);
    await figure.locator(".still").hover();
    await page.waitForTimeout(300);
    expect(await figure.locator(".still img").isVisible()).toBe(true);
    await context.close();
  });

  test("says why a figure stays still where plotly.js is missing", async () => {
    const context = await browser.newContext({ viewport: desk });
    const page = await context.newPage();
    await page.route("**/plotly.js", (route) => route.abort());
    await page.goto(fromDisk(survival));
    await figureOf(page).getByRole("button", { name: "Read values" }).click();
    await expect
      .poll(() => figureOf(page).getByRole("status").textContent())
      .toBe("The figure stays still: assets/plotly.js could not be read.");
    expect(await figureOf(page).locator(".still img").isVisible()).toBe(true);
    await context.close();
  });

  test("can be read and worked with the keyboard alone", async () => {
    const context = await browser.newContext({ viewport: desk });
    const { page } = await watchedPage(context);
    await page.goto(fromDisk(survival));
    const focused = () =>
      page.evaluate(() => {
        const element = document.activeElement;
        const outline = element === null ? "" : getComputedStyle(element).outlineStyle;
        return { words: element?.textContent?.trim() ?? "", seen: outline !== "none" };
      });
    await page.keyboard.press("Tab");
    expect(await focused()).toEqual({ words: "Skip to the text", seen: true });
    await page.keyboard.press("Enter");
    expect(await page.evaluate(() => document.activeElement?.id)).toBe("main");
    const reached: string[] = [];
    for (let step = 0; step < 60 && !reached.includes("Read values"); step++) {
      await page.keyboard.press("Tab");
      const { words, seen } = await focused();
      expect([words, seen]).toEqual([words, true]);
      reached.push(words);
    }
    expect(reached).toContain("Read values");
    await page.keyboard.press("Enter");
    await figureOf(page).locator(".live .main-svg").first().waitFor();
    expect((await focused()).words).toBe("Still picture");
    await context.close();
  });

  test("runs nothing that a hostile notebook brings, and still shows its harmless parts", async () => {
    const context = await browser.newContext({ viewport: desk });
    const { page, complaints, escapes } = await watchedPage(context);
    await page.goto(fromDisk("13-hostile.html"));
    await page.locator("td").hover();
    await figureOf(page).getByRole("button", { name: "Read values" }).click();
    await figureOf(page).locator(".live .main-svg").first().waitFor();
    expect(await page.title()).toContain("Hostile");
    expect(escapes).toEqual([]);
    // Only the policy may have spoken: it stopped the picture that the specification asks for.
    expect(complaints.filter((complaint) => !complaint.includes("example.org/z.png"))).toEqual([]);
    expect(await page.locator("td").textContent()).toBe("cell");
    expect(await scrolledSideways(page)).toBe(0);
    await context.close();
  });

  test("prints: pictures in place of interactive figures, no ways on, every page of paper with its text", async () => {
    const context = await browser.newContext({ viewport: desk });
    const { page } = await watchedPage(context);
    await page.goto(fromDisk(survival));
    await figureOf(page).getByRole("button", { name: "Read values" }).click();
    await figureOf(page).locator(".live .main-svg").first().waitFor();
    await page.emulateMedia({ media: "print" });
    expect(await figureOf(page).locator(".still img").isVisible()).toBe(true);
    for (const gone of [".live", ".plot-bar", "nav.ways", "nav.contents", ".top nav", ".skip"]) {
      expect([gone, await page.locator(gone).first().isVisible()]).toEqual([gone, false]);
    }
    expect(await page.locator(".standing").isVisible()).toBe(true);
    const file = join(folder, "survival.pdf");
    await page.pdf({ path: file, format: "A4" });
    const pdf = readFileSync(file).toString("latin1");
    expect(pdf.startsWith("%PDF-")).toBe(true);
    const sheets = pdf.match(/\/Type \/Page\b/g)?.length ?? 0;
    expect(sheets).toBeGreaterThanOrEqual(2);
    expect(sheets).toBeLessThanOrEqual(5);
    await context.close();
  });

  test("is there to be read within a second", async () => {
    const context = await browser.newContext({ viewport: desk });
    const { page } = await watchedPage(context);
    await page.goto(fromDisk(survival));
    const painted = await page.evaluate(
      () =>
        new Promise<number>((resolve) => {
          new PerformanceObserver((list) => {
            const [entry] = list.getEntriesByName("first-contentful-paint");
            if (entry !== undefined) resolve(entry.startTime);
          }).observe({ type: "paint", buffered: true });
        }),
    );
    expect(painted).toBeLessThan(1000);
    await context.close();
  });
});
