import { describe, expect, test } from "vitest";
import { notePage } from "../../../kernel-helpers/src/workshop/note/notePage";
import { cssText } from "../../../kernel-helpers/src/workshop/note/styles";
import { htmlTree } from "../../../kernel-helpers/src/workshop/pages/cleanHtml";
import { code, display, notebook, text } from "../fixtures/course";

const table = (word: string) =>
  display({ "text/html": `<table><caption>${word}</caption><tbody><tr><td>1 m</td></tr></tbody></table>` });
const svg = (inside: string) =>
  Buffer.from(`<svg xmlns="http://www.w3.org/2000/svg">${inside}</svg>`).toString("base64");
const figure = display({
  "text/html": `<figure><img alt="a curve that falls" src="data:image/svg+xml;base64,${svg("<rect/>")}"></figure>`,
  "application/vnd.plotly.v1+json": { data: [{ name: "</script><script>alert(1)</script>" }], layout: {} },
});

const sample = notebook(
  text(
    "# 17 Design note\n\nWhat is proposed?\n\n> **Fill in.** Replace the values\n> and run.\n\nIt follows the water.",
  ),
  text("## Inputs\n\n> **Fill in.** Each once.\n\nThe inputs:"),
  code("const width = 1; // <b>", table("inputs")),
  text("## Figures"),
  code("await figure()", figure),
  text("## Result"),
  code("result", table("result")),
  text("The end of a section."),
  text("## Your turn\n\n**17.1** Count."),
  code("exercise()", table("exercise")),
  text("## Sources\n\n> A quotation that stays."),
);

const tree = (html: string): Document => {
  const holder = htmlTree("<div></div>").ownerDocument.implementation.createHTMLDocument("");
  holder.documentElement.innerHTML = html;
  return holder;
};
const headings = (html: string): string[] =>
  [...tree(html).querySelectorAll("h1, h2")].map(({ textContent }) => textContent);

describe("the page of a note", () => {
  const html = notePage("my-plant", sample);
  const page = tree(html);

  test("begins with the result and ends with the calculation", () => {
    expect(headings(html)).toEqual([
      "Design note",
      "Result",
      "Inputs",
      "Figures",
      "Sources",
      "The calculation, cell by cell",
    ]);
  });

  test("leaves out what speaks to whoever fills it in, and nothing else that is quoted", () => {
    expect(page.body.textContent).not.toContain("Fill in");
    expect(page.body.textContent).not.toContain("and run.");
    expect(page.body.textContent).toContain("It follows the water.");
    expect(page.body.textContent).toContain("A quotation that stays.");
  });

  test("leaves out the course's exercises, text and code", () => {
    expect(page.body.textContent).not.toContain("17.1");
    expect(page.body.textContent).not.toContain("exercise");
  });

  test("shows code in the appendix alone, where every result finds its cell by number", () => {
    expect(page.querySelectorAll(".body pre.code")).toHaveLength(0);
    const named = [...page.querySelectorAll(".body .cell-number")].map((one) => one.textContent);
    expect(named).toEqual(["cell 3", "cell 1", "cell 2"]);
    const listed = [...page.querySelectorAll(".appendix .cell")].map((one) => one.textContent);
    expect(listed).toEqual(["cell 1const width = 1; // <b>", "cell 2await figure()", "cell 3result"]);
  });

  test("keeps the words before a result with it, and not the last words of a section with the next", () => {
    const led = [...page.querySelectorAll(".lead-in")].map((one) => one.textContent);
    expect(led).toEqual(["Result", "The inputs:", "Figures"]);
  });

  test("shows a figure as its still picture, without what would draw it", () => {
    expect(page.querySelector("figure img")?.getAttribute("alt")).toBe("a curve that falls");
    expect(page.querySelectorAll("script")).toHaveLength(0);
    expect(html).not.toContain("alert(1)");
  });

  test("loads nothing: every address is data", () => {
    const addresses = [...page.querySelectorAll("[src], [href]")].map(
      (one) => one.getAttribute("src") ?? one.getAttribute("href") ?? "",
    );
    expect(addresses.filter((one) => !one.startsWith("data:"))).toEqual([]);
    const inStyles = [...html.matchAll(/url\(([^)]{0,40})/g)].map(([, address]) => address);
    expect(inStyles.length).toBeGreaterThan(0);
    expect(inStyles.filter((one) => !one.startsWith("data:font/woff2;base64,"))).toEqual([]);
    expect(html).not.toContain("@import");
    expect(html).toContain("default-src 'none'");
  });
});

describe("a note with hostile text", () => {
  const evil = `x"</style><script>document.title="run"</script>`;
  const html = notePage(
    evil,
    notebook(
      text(`# ${evil}\n\n<img src=x onerror="document.title='run'">`),
      code(
        "</code><script>1</script>",
        display({ "text/html": '<table><tr><td onclick="x()">cell</td></tr></table><script>2</script>' }),
        { output_type: "stream", name: "stdout", text: ["<script>3</script>"] },
      ),
    ),
  );
  const page = tree(html);

  test("runs none of it and shows it as text", () => {
    expect(page.querySelectorAll("script, [onclick], [onerror], img")).toHaveLength(0);
    expect(page.querySelector("h1")?.textContent).toContain("<script>");
    expect(page.querySelector("pre.printed")?.textContent).toBe("<script>3</script>");
    expect(page.querySelectorAll("style")).toHaveLength(1);
  });

  test("keeps a style's text inside its string", () => {
    expect(cssText('a"b</style>\\\n')).toBe('"a\\22 b\\3c \\2f style\\3e \\5c \\a "');
  });
});
