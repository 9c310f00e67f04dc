import { mkdirSync, mkdtempSync, readdirSync, readFileSync, rmSync, writeFileSync } from "node:fs";
import { tmpdir } from "node:os";
import { join } from "node:path";
import { catalogue } from "kernel-helpers";
import { afterAll, beforeAll, describe, expect, test } from "vitest";
import { standingCaution } from "../../../kernel-helpers/src/notebook/cautions";
import { type CourseNotebook, writeCourse } from "../../../kernel-helpers/src/workshop/pages/course";
import { firstParagraph } from "../../../kernel-helpers/src/workshop/pages/indexPage";
import { code, courseNotebook, smallCourse, text } from "../fixtures/course";
import { pageOf, pagesOf } from "./tree";

let notebooks: CourseNotebook[];
let pages: Map<string, Document>;
const page = (file: string): Document => {
  const found = pages.get(file);
  if (found === undefined) throw new Error(`There is no page ${file}.`);
  return found;
};
const texts = (document: Document, selector: string): string[] =>
  [...document.querySelectorAll(selector)].map(({ textContent }) => textContent?.trim() ?? "");

const way = (file: string, relation: string): string | null =>
  page(file).querySelector(`nav.ways a[rel=${relation}]`)?.getAttribute("href") ?? null;

beforeAll(async () => {
  notebooks = await smallCourse();
  pages = pagesOf(notebooks);
});

describe("the pages of a course", () => {
  test("are an index, one page a notebook, and the formula sheet", () => {
    expect([...pages.keys()]).toEqual([
      "index.html",
      "00-start-here.html",
      "12-survival-by-size-class.html",
      "formula-sheet.html",
    ]);
  });

  test("each carry one first-level heading, a language, a title, the policy, the licences and the standing caution", () => {
    for (const [file, document] of pages) {
      expect(document.querySelectorAll("h1"), file).toHaveLength(1);
      expect(document.documentElement.lang, file).toBe("en");
      expect(document.title, file).toContain("Bar Rack Notebooks");
      expect(document.querySelector("meta[http-equiv]")?.getAttribute("content"), file).toContain(
        "default-src 'none'",
      );
      expect(document.querySelector("footer")?.textContent, file).toContain(standingCaution);
      expect(document.querySelector("footer")?.textContent, file).toMatch(/MIT.*CC BY 4\.0/s);
    }
  });

  test("lead from one to the next and back, in reading order", () => {
    expect(way("00-start-here.html", "prev")).toBe("index.html");
    expect(way("00-start-here.html", "next")).toBe("12-survival-by-size-class.html");
    expect(way("12-survival-by-size-class.html", "prev")).toBe("00-start-here.html");
    expect(way("12-survival-by-size-class.html", "next")).toBe("formula-sheet.html");
    expect(way("formula-sheet.html", "next")).toBeNull();
  });

  test("link to places that exist, on this page and on others", () => {
    const dead = [...pages].flatMap(([file, document]) =>
      [...document.querySelectorAll("a[href]")]
        .filter((link) => {
          const [to = "", place] = (link.getAttribute("href") ?? "").split("#");
          const target = to === "" ? document : pages.get(to);
          return target === undefined || (place !== undefined && target.getElementById(place) === null);
        })
        .map((link) => `${file}: ${link.outerHTML}`),
    );
    expect(dead).toEqual([]);
  });

  test("have headings that skip no level, each with an id of its own", () => {
    for (const [file, document] of pages) {
      const headings = [...document.querySelectorAll("h1, h2, h3, h4")];
      headings.forEach((heading, at) => {
        const above = at === 0 ? 0 : Number(headings[at - 1]?.tagName.slice(1));
        expect(Number(heading.tagName.slice(1)), `${file}: ${heading.textContent}`).toBeLessThanOrEqual(
          above + 1,
        );
      });
      const ids = [...document.querySelectorAll("[id]")].map(({ id }) => id);
      expect(new Set(ids).size, file).toBe(ids.length);
    }
  });
});

describe("the index", () => {
  test("gives each notebook's number, title and question, and the survival figure with its words", () => {
    const index = page("index.html");
    expect(texts(index, ".notebooks .number")).toEqual(["00", "12"]);
    expect(texts(index, ".notebooks .name")).toEqual(["Start here", "Survival by size class"]);
    expect(texts(index, ".notebooks p")[0]).toBe("What does a quantity with a unit do for a calculation?");
    expect(index.querySelector("figure img")?.getAttribute("alt")).toMatch(
      /^Total survival against total length/,
    );
    expect(texts(index, "main p").join(" ")).toContain("These pages are for reading.");
  });

  test("takes the job from the first paragraph of README, past its heading and picture", () => {
    expect(firstParagraph("# Title\n\n![picture](x.svg)\n\nThe job\nin a paragraph.\n\nMore.")).toBe(
      "The job\nin a paragraph.",
    );
  });

  test("says which notebook failed", () => {
    const failure = {
      notebook: "00-start-here.ipynb",
      cell: 1,
      kind: "error",
      message: "it broke.",
    } as const;
    const [first] = notebooks;
    if (first === undefined) throw new Error("The course is empty.");
    const index = pagesOf([{ ...first, failures: [failure] }]).get("index.html");
    expect(texts(index ?? page("index.html"), ".failed")).toEqual(["failed in the last run"]);
  });
});

describe("a notebook's page", () => {
  test("names the notebook once: its number apart, its title from the first heading", () => {
    const document = pageOf(text("# 07 Velocity field\n\nWhere is the water fast? Here."));
    expect(texts(document, "h1")).toEqual(["07 Velocity field"]);
    expect(document.title).toBe("07 Velocity field · Bar Rack Notebooks");
  });

  test("is named after the file where the notebook has no heading", () => {
    expect(texts(pageOf(code("1 + 1")), "h1")).toEqual(["07 A notebook"]);
  });

  test("lists its second and third-level headings, equations included", () => {
    const document = pageOf(text("# T\n\nQ?\n\n## The share $P$\n\n### `rack.length`\n\n## The share $P$"));
    expect(texts(document, "nav.beside a").map((words) => words.replace(/\s+/g, " "))).toHaveLength(3);
    expect([...document.querySelectorAll("nav.beside a")].map((link) => link.getAttribute("href"))).toEqual([
      "#the-share-p",
      "#rack-length",
      "#the-share-p-2",
    ]);
    expect(document.querySelector("nav.beside .katex")).not.toBeNull();
  });

  test("sets equations when it is built, as MathML too, and shows LaTeX that it cannot read", () => {
    const document = pageOf(text("$a^2$ and $$\\frac{1}{2}$$ and $\\frac{$"));
    expect(document.querySelectorAll("math").length).toBeGreaterThanOrEqual(2);
    expect(document.querySelector(".katex-error")?.textContent).toContain("\\frac{");
  });

  test("shows code with its tokens marked and every character kept", () => {
    const source = 'const spacing = u.mm(18); // 18 mm\n\nshow("x", spacing, "mm");';
    const document = pageOf(code(source));
    expect(document.querySelector("pre.code")?.textContent).toBe(source);
    expect(document.querySelector(".tok-keyword")?.textContent).toBe("const");
    expect(document.querySelector(".tok-comment")?.textContent).toBe("// 18 mm");
  });

  test("shows every kind of output", () => {
    const document = page("12-survival-by-size-class.html");
    expect(texts(document, ".rich caption")).toEqual(["Spacings considered"]);
    expect(document.querySelectorAll("figure.plot .still img")).toHaveLength(1);
    expect(document.querySelectorAll("figure.picture img")).toHaveLength(2);
    expect(texts(document, "pre.printed")).toEqual(["4"]);
    expect(texts(document, ".fault-title")).toEqual(["This cell complained", "This cell failed"]);
    expect(texts(document, ".caution")).toHaveLength(3);
    expect(document.title).not.toContain("a notebook script ran");
  });

  test("keeps the headings of outputs out of its own", () => {
    const output = { output_type: "display_data", data: { "text/markdown": "# Big" }, metadata: {} } as const;
    const document = pageOf(text("# T\n\nQ?"), code("x", output));
    expect(texts(document, "h1")).toEqual(["07 T"]);
    expect(texts(document, ".output-heading")).toEqual(["Big"]);
  });

  test("leads from a formula's name to its place on the formula sheet", () => {
    const [formula] = catalogue.list("rack");
    const built = {
      notebooks: [courseNotebook("01-x", text(`# T\n\nSee \`${formula?.id}\` and \`rack.nothing\`.`))],
      formulas: [formula],
    };
    const folder = mkdtempSync(join(tmpdir(), "course-test-"));
    try {
      writeCourse(folder, { notebooks: built.notebooks, formulas: catalogue.list(), readme: undefined });
      const html = readFileSync(join(folder, "01-x.html"), "utf8");
      expect(html).toContain(
        `<a class="formula" href="formula-sheet.html#${formula?.id}"><code>${formula?.id}</code></a>`,
      );
      expect(html).toContain("<code>rack.nothing</code>.");
      expect(readFileSync(join(folder, "formula-sheet.html"), "utf8")).toContain(`id="${formula?.id}"`);
    } finally {
      rmSync(folder, { recursive: true });
    }
  });

  test("shows what failed at its top and at the cell", () => {
    const failed: CourseNotebook = {
      ...courseNotebook("05-broken", text("# Broken\n\nWhy?"), code("a"), code("b")),
      failures: [{ notebook: "05-broken.ipynb", cell: 2, kind: "error", message: "the spacing is -5 mm." }],
    };
    const document = pagesOf([failed]).get("05-broken.html") ?? page("index.html");
    expect(texts(document, ".notice")[0]).toContain("The last run of this notebook failed.");
    expect(texts(document, ".cell:nth-of-type(n) .fault-title")).toEqual(["Cell 2"]);
    expect(texts(document, ".fault pre")[0]).toBe("cell 2: the spacing is -5 mm.");
  });
});

describe("writing the course", () => {
  let folder: string;
  beforeAll(() => {
    folder = mkdtempSync(join(tmpdir(), "course-test-"));
  });
  afterAll(() => rmSync(folder, { recursive: true }));

  test("leaves nothing of an earlier course and one copy of what the pages share", () => {
    mkdirSync(join(folder, "old"));
    writeFileSync(join(folder, "99-gone.html"), "old");
    writeCourse(folder, { notebooks, formulas: catalogue.list(), readme: undefined });
    expect(readdirSync(folder).toSorted()).toEqual([
      "00-start-here.html",
      "12-survival-by-size-class.html",
      "assets",
      "formula-sheet.html",
      "index.html",
    ]);
    expect(readdirSync(join(folder, "assets")).toSorted()).toEqual([
      "course.css",
      "figures.js",
      "fonts",
      "katex.css",
      "plotly.js",
    ]);
  });

  test("brings every font that the equations' style sheet names", () => {
    writeCourse(folder, { notebooks: [], formulas: [], readme: undefined });
    const css = readFileSync(join(folder, "assets", "katex.css"), "utf8");
    const named = [...css.matchAll(/url\(([^)]+)\)/g)].map(([, path]) => path);
    expect(named.length).toBeGreaterThan(10);
    for (const path of named)
      expect(readFileSync(join(folder, "assets", path ?? "")).byteLength).toBeGreaterThan(1000);
  });
});
