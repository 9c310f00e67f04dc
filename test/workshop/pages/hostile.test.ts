import { describe, expect, test } from "vitest";
import { longestText } from "../../../kernel-helpers/src/workshop/pages/output";
import { code, display, text } from "../fixtures/course";
import { pageOf } from "./tree";

/** Everything of a page that a browser would run or fetch, beside the page's own files. */
function foreign(page: Document): string[] {
  const found: string[] = [];
  for (const element of page.querySelectorAll("*")) {
    for (const { name, value } of element.attributes) {
      if (name.startsWith("on")) found.push(`${element.tagName} ${name}`);
      if (["href", "src", "action", "xlink:href", "srcset", "poster"].includes(name)) {
        const own = /^(?:assets\/|#|data:image\/|[\w-]+\.html(?:#|$))/.test(value);
        const outside = element.tagName === "A" && /^https?:/.test(value);
        if (!own && !outside) found.push(`${element.tagName} ${name}=${value}`);
      }
    }
    const type = element.getAttribute("type");
    const inert = element.tagName === "SCRIPT" && type === "application/json";
    if (element.tagName === "SCRIPT" && !inert && element.getAttribute("src") !== "assets/figures.js") {
      found.push(element.outerHTML);
    }
    if (/^(?:IFRAME|OBJECT|EMBED|FORM|BASE|STYLE)$/.test(element.tagName)) found.push(element.tagName);
  }
  return found;
}

const attack =
  '<script>alert(1)</script><img src=x onerror=alert(2)><a href="javascript:alert(3)">x</a><iframe src="https://example.org"></iframe>';

describe("hostile content of a notebook", () => {
  test("HTML in Markdown text is shown as text", () => {
    const page = pageOf(text(`# A ${attack}\n\n${attack}\n\n- ${attack}\n\n| a |\n|---|\n| ${attack} |`));
    expect(foreign(page)).toEqual([]);
    expect(page.querySelector("main")?.textContent).toContain("<script>alert(1)</script>");
  });

  test("links in Markdown lead to the web, to a page or to a place on this page, and nowhere else", () => {
    const page = pageOf(
      text(
        "[a](javascript:alert(1)) [b](data:text/html,x) [c](file:///etc/passwd) [d](../../secret.txt) [e](//example.org/x) [f](https://example.org) [g](#there) [h](08-none.ipynb)",
      ),
    );
    const links = [...page.querySelectorAll(".text a")].map((link) => link.getAttribute("href"));
    expect(links).toEqual(["https://example.org", "#there"]);
    expect(foreign(page)).toEqual([]);
  });

  test("pictures in Markdown come along as data or are told by their words", () => {
    const page = pageOf(
      text("![a fish](https://example.org/fish.png) ![a rack](data:image/png;base64,AAAA)"),
    );
    expect([...page.querySelectorAll(".text img")].map((image) => image.getAttribute("alt"))).toEqual([
      "a rack",
    ]);
    expect(page.querySelector(".absent")?.textContent).toBe("a fish");
  });

  test("equations can neither link, load, style nor run away", () => {
    const page = pageOf(
      text(
        "$\\href{javascript:alert(1)}{x}$ $\\includegraphics{https://example.org/x.png}$ $\\htmlStyle{position:fixed}{x}$\n\n$$\\def\\a{\\a\\a}\\a$$\n\n$<script>alert(1)</script>$",
      ),
    );
    expect(foreign(page)).toEqual([]);
    expect(page.querySelector('.text [style*="position"]')).toBeNull();
    expect(page.querySelector(".katex-error")?.getAttribute("title")).toContain("Too many expansions");
  });

  test("the code of a cell is shown as text", () => {
    const page = pageOf(code(`const a = "</code></pre>${attack}"; // ${attack}`));
    expect(foreign(page)).toEqual([]);
    expect(page.querySelector("pre.code")?.textContent).toBe(
      `const a = "</code></pre>${attack}"; // ${attack}`,
    );
  });

  test("HTML that a cell puts out keeps its table and loses scripts, handlers, links, frames and foreign pictures", () => {
    const page = pageOf(
      code(
        "table(rows)",
        display({
          "text/html": `<table onclick="alert(1)"><tr><td style="text-align: right; background: url(https://example.org)">1</td></tr></table>${attack}<style>*{display:none}</style><form action="https://example.org"><input></form><svg onload="alert(1)"></svg><math><mtext><img src=x onerror=alert(1)></mtext></math>`,
        }),
      ),
    );
    expect(foreign(page)).toEqual([]);
    expect(page.querySelector(".rich td")?.getAttribute("style")).toBe("text-align: right");
  });

  test("HTML that a cell puts out cannot take the place of the page's own parts", () => {
    const page = pageOf(
      code(
        "x",
        display({
          "text/html": '<div id="main" class="plot-specification" name="body">x</div></main></body>',
        }),
      ),
    );
    expect(page.querySelectorAll("#main")).toHaveLength(1);
    expect(page.querySelectorAll(".plot-specification")).toHaveLength(0);
    expect(page.querySelector("footer")?.closest("main")).toBeNull();
  });

  test("a figure's specification cannot end the element that holds it, and reads back as it was", () => {
    const specification = { data: [{ name: `</script>${attack}<!--\u2028\u2029&` }], layout: {} };
    const page = pageOf(code("x", display({ "application/vnd.plotly.v1+json": specification })));
    expect(foreign(page)).toEqual([]);
    const stored = page.querySelector("script.plot-specification");
    expect(JSON.parse(stored?.textContent ?? "")).toEqual(specification);
  });

  test("a figure's picture and words stay inside their attributes", () => {
    const page = pageOf(
      code(
        "x",
        display({
          "application/vnd.plotly.v1+json": { data: [], layout: {} },
          "text/html": `<figure><img src="data:image/svg+xml;base64,AAAA" alt="&quot; onerror=&quot;alert(1)"><figcaption>&lt;script&gt;alert(1)&lt;/script&gt;</figcaption></figure>`,
        }),
      ),
    );
    expect(foreign(page)).toEqual([]);
    expect(page.querySelector(".still img")?.getAttribute("alt")).toBe('" onerror="alert(1)');
    expect(page.querySelector("figcaption")?.textContent).toBe("<script>alert(1)</script>");
  });

  test("an SVG output becomes an image, in which no script runs, and a PNG that is none is said to be so", () => {
    const page = pageOf(
      code("x", display({ "image/svg+xml": `<svg xmlns="http://www.w3.org/2000/svg">${attack}</svg>` })),
      code("y", display({ "image/png": '"><script>alert(1)</script>' })),
    );
    expect(foreign(page)).toEqual([]);
    expect(page.querySelector(".picture img")?.getAttribute("src")).toMatch(/^data:image\/svg\+xml;base64,/);
    expect(page.querySelector(".fault-title")?.textContent).toBe("This picture cannot be shown");
  });

  test("text without end is cut, and the page says by how much", () => {
    const page = pageOf(
      code("x", { output_type: "stream", name: "stdout", text: ["z".repeat(longestText + 5000)] }),
    );
    const shown = page.querySelector("pre.printed")?.textContent ?? "";
    expect(shown.length).toBeLessThan(longestText + 100);
    expect(shown).toContain("5000 more characters are not shown here.");
  });

  test("printed text and errors are shown as text, without the codes that colour a terminal", () => {
    const page = pageOf(
      code(
        "x",
        { output_type: "stream", name: "stderr", text: [`\u001b[31m${attack}\u001b[0m\n`] },
        { output_type: "error", ename: attack, evalue: attack, traceback: [attack] },
      ),
    );
    expect(foreign(page)).toEqual([]);
    expect([...page.querySelectorAll(".fault pre")].map((box) => box.textContent)).toEqual([
      attack,
      `${attack}: ${attack}`,
    ]);
  });
});
