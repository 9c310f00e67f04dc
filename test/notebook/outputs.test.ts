import { describe, expect, test } from "vitest";
import { cautions, standingCaution } from "../../kernel-helpers/src/notebook/cautions";
import { crossCheck } from "../../kernel-helpers/src/notebook/crossCheck";
import { show } from "../../kernel-helpers/src/notebook/show";
import { sources } from "../../kernel-helpers/src/notebook/sources";
import { table } from "../../kernel-helpers/src/notebook/table";
import { worked } from "../../kernel-helpers/src/notebook/worked";
import { u } from "../../kernel-helpers/src/quantity";
import { blockage, rackLength } from "../../kernel-helpers/src/rack/geometry";
import { collectOutputs } from "./emitted";

const outputs = collectOutputs();

describe("show", () => {
  test("prints a quantity in the unit asked for", () => {
    show("Clear spacing", u.m(0.018), "mm");
    expect(outputs.last("text/markdown")).toBe("Clear spacing: **18 mm**");
  });

  test("prints a ratio in per cent and a plain number as it is", () => {
    show("Blockage", 0.30769, "%");
    expect(outputs.last("text/plain")).toBe("Blockage: 30.8 %");
    show("Days", 187);
    expect(outputs.last("text/plain")).toBe("Days: 187");
  });

  test("shows a label with signs of Markdown and HTML as it is written", () => {
    show("<b>*x*", 1);
    expect(outputs.last("text/markdown")).toBe("&lt;b&gt;\\*x\\*: **1**");
    show("the river's #1", 1);
    expect(outputs.last("text/markdown")).toBe("the river&#39;s \\#1: **1**");
  });
});

describe("worked", () => {
  test("returns the quantity and shows equation, numbers, result and source", () => {
    const length = worked(rackLength, { channelWidth: u.m(17), rackAngle: u.deg(38) });
    expect(u.to.m(length)).toBeCloseTo(27.6126, 3);
    const markdown = outputs.last("text/markdown");
    expect(markdown).toContain("\\frac{B}{\\sin \\alpha}");
    expect(markdown).toContain("\\frac{17\\,\\mathrm{m}}{\\sin 38^\\circ}");
    expect(markdown).toContain("27.61\\,\\mathrm{m}");
    expect(markdown).toContain("(derived)");
  });

  test("refuses what the formula refuses, and shows nothing then", () => {
    expect(() => worked(rackLength, { channelWidth: u.m(-1), rackAngle: u.deg(38) })).toThrow(
      "rack.length: channelWidth is -1 m; it must be above 0 m.",
    );
    expect(outputs.all).toEqual([]);
  });
});

describe("crossCheck", () => {
  test("shows both numbers and the route where they agree", () => {
    crossCheck("Rack length", 27.6126, { by: "by hand", gives: 27.6127, within: 1e-4 });
    expect(outputs.last("text/plain")).toBe("✓ Rack length: 27.6126 against 27.6127, by hand.");
  });

  test("shows both numbers in a unit", () => {
    crossCheck("Rack length", u.m(27.6126), { by: "by hand", gives: 27.6127, within: 1e-4, unit: "m" });
    expect(outputs.last("text/plain")).toBe("✓ Rack length: 27.6126 m against 27.6127 m, by hand.");
  });

  test("throws where they do not agree, so that a run can't go on", () => {
    expect(() => crossCheck("Rack length", 27.6, { by: "by hand", gives: 28 })).toThrow(
      /Rack length does not agree: 27\.6 against 28 \(by hand\)/,
    );
  });

  test("writes the tolerance in full, not as a power of ten", () => {
    expect(() => crossCheck("x", 1, { by: "hand", gives: 2 })).toThrow("they may lie 0.0001 % apart");
    expect(() => crossCheck("x", 1, { by: "hand", gives: 2, within: 0.015 })).toThrow("1.5 % apart");
  });

  test("never agrees with what is not a number", () => {
    expect(() => crossCheck("x", Number.NaN, { by: "hand", gives: 1, within: 10 })).toThrow(/does not agree/);
    expect(() => crossCheck("x", 1, { by: "hand", gives: Number.NaN, within: 10 })).toThrow(/does not agree/);
  });
});

describe("table", () => {
  const rows = [
    { name: "clean <rack>", loss: 0.0123, share: 0.4, kept: true },
    { name: "clogged", loss: 0.15, share: Number.NaN, kept: false },
  ];

  test("puts units in the head, right-aligns numbers with one number of decimals, and escapes text", () => {
    table(rows, {
      caption: "Loss & share",
      columns: { name: "Rack", loss: { title: "Loss", unit: "mm" }, share: { title: "Share", unit: "%" } },
    });
    const html = outputs.last("text/html");
    expect(html).toContain("<caption>Loss &amp; share</caption>");
    expect(html).toContain('<th scope="col" style="text-align:right">Loss [mm]</th>');
    expect(html).toContain('<td style="text-align:left"><div align="left">clean &lt;rack&gt;</div></td>');
    expect(html).toContain('<td style="text-align:right">12</td>');
    expect(html).toContain('<td style="text-align:right">–</td>');
    expect(outputs.last("text/plain")).toContain("150");
  });

  test("shows truth values as yes and no", () => {
    table(rows, { caption: "Kept", columns: { kept: "Kept" } });
    expect(outputs.last("text/html")).toContain(">yes<");
  });

  test("names the columns there are when asked for another", () => {
    const wrong = { lost: "Loss" } as unknown as { loss: string }; // a slip in an untyped cell
    expect(() => table(rows, { caption: "x", columns: wrong })).toThrow(
      'table: no row has a column "lost"; the rows have name, loss, share, kept.',
    );
  });
});

describe("cautions and sources", () => {
  test("cautions always end with the deference to local codes, permits and licensed practice", () => {
    cautions("The flow record ends in 2023.");
    expect(outputs.last("text/plain")).toMatch(/The flow record ends in 2023\.\n- .*local codes, permits/);
    expect(outputs.last("text/plain").endsWith(standingCaution)).toBe(true);
  });

  test("sources lists what was used, each with its provenance mark", () => {
    blockage({ barThickness: u.mm(8), clearSpacing: u.mm(18) });
    sources();
    expect(outputs.last("text/plain")).toMatch(/open area of bars.*\(derived\): rack\.blockage/);
  });
});
