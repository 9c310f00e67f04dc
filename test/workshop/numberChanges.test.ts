import { expect, test } from "vitest";
import { numberChanges } from "../../kernel-helpers/src/workshop/numberChanges";
import type { Output } from "../../kernel-helpers/src/workshop/outputs";

const printed = (text: string): Output => ({ output_type: "stream", name: "stdout", text: [text] });
const html = (text: string): Output => ({
  output_type: "display_data",
  data: { "text/html": text },
  metadata: {},
});

const table = (eel: string): Output =>
  html(
    `<style>td { width: 30px }</style><table><tr><th>roach</th><td>0.9</td><td>0.8</td></tr><tr><th>silver eel</th><td>0.7</td><td>${eel}</td></tr></table>`,
  );
const figure = (x: number): Output =>
  html(
    `<img src="data:image/svg+xml;base64,${x}" width="${x}"><script>draw(${x})</script><svg><path d="M${x}"/></svg>`,
  );

test("each number that changed is listed with the words before it", () => {
  expect(
    numberChanges(
      [printed("head loss 0.12 m, velocity 0.8 m/s\n")],
      [printed("head loss 0.13 m, velocity 0.8 m/s\n")],
    ),
  ).toEqual({
    numbers: [{ label: "head loss", stored: "0.12", fresh: "0.13" }],
    linesGone: [],
    linesNew: [],
  });
});

test("a row of a table keeps its name beside each of its numbers", () => {
  expect(numberChanges([table("0.61")], [table("0.625")]).numbers).toEqual([
    { label: "silver eel", stored: "0.61", fresh: "0.625" },
  ]);
});

const boxed = (eel: string): Output =>
  html(`<table><tr><td><div align="left">silver eel</div></td><td>${eel}</td></tr></table>`);

test("a cell whose words stand in a box of their own stays on its row's line", () => {
  expect(numberChanges([boxed("0.61")], [boxed("0.625")]).numbers).toEqual([
    { label: "silver eel", stored: "0.61", fresh: "0.625" },
  ]);
});

test("a number that grows by a digit and moves the padding is a change of the number only", () => {
  expect(numberChanges([printed("n |  9 |")], [printed("n | 10 |")])).toEqual({
    numbers: [{ label: "n", stored: "9", fresh: "10" }],
    linesGone: [],
    linesNew: [],
  });
});

test("lines whose words changed are listed apart, and do not disturb the pairing of the others", () => {
  expect(numberChanges([printed("old words 1\nlength 2 m")], [printed("length 3 m\nnew words 1")])).toEqual({
    numbers: [{ label: "length", stored: "2", fresh: "3" }],
    linesGone: ["old words 1"],
    linesNew: ["new words 1"],
  });
});

test("numbers inside pictures, scripts and styles are not listed", () => {
  expect(numberChanges([figure(1)], [figure(2)])).toEqual({ numbers: [], linesGone: [], linesNew: [] });
});
