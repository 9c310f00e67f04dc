import { describe, expect, test } from "vitest";
import { differences } from "../../kernel-helpers/src/workshop/compare";
import { lines, type Output } from "../../kernel-helpers/src/workshop/outputs";

const printed = (text: string, name: "stdout" | "stderr" = "stdout"): Output => ({
  output_type: "stream",
  name,
  text: lines(text),
});
const displayed = (data: Record<string, unknown>, metadata = {}): Output => ({
  output_type: "display_data",
  data,
  metadata,
});
const picture = (svg: string): string =>
  `<img src="data:image/svg+xml;base64,${Buffer.from(svg).toString("base64")}" alt="a figure">`;

const figure = (x: number): Output => displayed({ "application/vnd.plotly.v1+json": { data: [x] } });
const svg = (x: string): Output => displayed({ "text/html": picture(`<svg><path d="M${x},2"/></svg>`) });
const result = (count: number): Output => ({
  output_type: "execute_result",
  execution_count: count,
  data: { "text/plain": "1" },
  metadata: {},
});

describe("outputs agree", () => {
  test("when they are the same, in lines or in one string", () => {
    expect(
      differences(
        [displayed({ "text/html": "<p>\n1</p>" })],
        [displayed({ "text/html": ["<p>\n", "1</p>"] })],
      ),
    ).toEqual([]);
  });

  test("when numbers differ only beyond the twelfth digit, in text, JSON and pictures", () => {
    expect(differences([printed("h = 0.0071812345678901 m")], [printed("h = 0.0071812345678902 m")])).toEqual(
      [],
    );
    expect(differences([figure(1.23456789012345)], [figure(1.23456789012346)])).toEqual([]);
    expect(differences([svg("1.23456789012345")], [svg("1.23456789012346")])).toEqual([]);
  });

  test("whatever the execution count of a result is", () => {
    expect(differences([result(1)], [result(7)])).toEqual([]);
  });

  test("when JSON has its keys in another order", () => {
    expect(
      differences(
        [displayed({ "application/json": { a: 1, b: 2 } })],
        [displayed({ "application/json": { b: 2, a: 1 } })],
      ),
    ).toEqual([]);
  });
});

describe("outputs differ, in a sentence,", () => {
  test("when a shown digit does", () => {
    expect(differences([printed("a\nh = 0.0072 m\n")], [printed("a\nh = 0.0073 m\n")])).toEqual([
      'output: text: line 2 was "h = 0.0072 m", is now "h = 0.0073 m".',
    ]);
  });

  test("when a number is shown with more or fewer digits", () => {
    expect(differences([printed("0.50")], [printed("0.5")])).toHaveLength(1);
  });

  test("when a number shown with twelve digits differs in the last", () => {
    expect(differences([printed("0.123456789012")], [printed("0.123456789013")])).toHaveLength(1);
  });

  test("when a word does, with the number of differing lines", () => {
    expect(differences([printed("eel\nide\n")], [printed("roach\nperch\n")])).toEqual([
      'output: text: line 1 was "eel", is now "roach" (2 lines differ in all).',
    ]);
  });

  test("when lines are gone", () => {
    expect(differences([printed("a\nb")], [printed("a")])).toEqual([
      'output: text: line 2 was "b", is now missing.',
    ]);
  });

  test("when the number of outputs does, and from where on", () => {
    expect(differences([], [printed("1")])).toEqual(["has no stored output, and now gives 1 output."]);
    expect(differences([printed("1")], [])).toEqual(["has 1 output stored, and now gives no output."]);
    expect(differences([printed("1")], [printed("1"), displayed({})])).toEqual([
      "has 1 output stored, and now gives 2 outputs; from output 2 on they differ (display_data).",
    ]);
  });

  test("when the kind of an output does", () => {
    expect(differences([printed("1")], [printed("1", "stderr")])).toEqual([
      "output: was stdout, is now stderr.",
    ]);
  });

  test("when a mime type is new, gone or changed, and when metadata changed", () => {
    expect(differences([displayed({ a: "1", c: "1" })], [displayed({ b: "1", c: "2" })])).toEqual([
      "output: a is missing now.",
      "output: b is new.",
      'output: c: line 1 was "1", is now "2".',
    ]);
    expect(differences([displayed({}, { alt: "a" })], [displayed({}, { alt: "b" })])).toEqual([
      'output: metadata: line 2 was " "alt": "a"", is now " "alt": "b"".',
    ]);
  });

  test("when a picture does, shown as its source near the difference", () => {
    const long = `<svg><path d="M${"1,2 ".repeat(60)}`;
    const [sentence] = differences(
      [displayed({ "text/html": picture(`${long}5"/></svg>`) })],
      [displayed({ "text/html": picture(`${long}6"/></svg>`) })],
    );
    expect(sentence).toMatch(/^output: text\/html: line 2 was "….*1,2 5"\/>", is now "….*1,2 6"\/>"\.$/);
  });
});
