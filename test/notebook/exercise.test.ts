import { describe, expect, test } from "vitest";
import { exercise } from "../../kernel-helpers/src/notebook/exercise";
import { u } from "../../kernel-helpers/src/quantity";
import { rackLength } from "../../kernel-helpers/src/rack/geometry";
import { collectOutputs } from "./emitted";

describe("exercise", () => {
  const outputs = collectOutputs();
  const inputs = { channelWidth: u.m(17), rackAngle: u.deg(38) };

  test("says how to answer, with the unit, before there is an answer", () => {
    exercise("03.1", inputs, undefined);
    expect(outputs.last("text/plain")).toBe(
      "Exercise 03.1: replace `undefined` with your answer, with its unit: `u.m(…)`.",
    );
  });

  test("accepts the right answer", () => {
    exercise("03.1", inputs, rackLength(inputs));
    expect(outputs.last("text/plain")).toBe("✓ Exercise 03.1: right, 27.61 m.");
  });

  test("accepts an answer within the tolerance and refuses one just outside", () => {
    exercise("03.1", inputs, u.m(27.613 * 1.009));
    expect(outputs.last("text/plain")).toContain("right");
    exercise("03.1", inputs, u.m(27.613 * 1.011));
    expect(outputs.last("text/plain")).toContain("not yet");
  });

  test("gives a hint after a wrong answer, and not the solution", () => {
    exercise("03.1", inputs, u.m(13));
    expect(outputs.last("text/plain")).toMatch(/^✗ Exercise 03\.1: not yet\. Your answer is 13 m\. Hint: /);
    expect(outputs.last("text/plain")).not.toMatch(/27[.,]?6?/);
  });

  test("recognises the right number in a wrong unit", () => {
    exercise("03.1", inputs, u.mm(27.613));
    expect(outputs.last("text/plain")).toContain("1/1000 times the right one: look at its unit");
  });

  test("recognises per cent where a share is asked for", () => {
    const layout = { barThickness: u.mm(8), clearSpacing: u.mm(12) };
    exercise("00.2", layout, 40);
    expect(outputs.last("text/plain")).toBe(
      "✗ Exercise 00.2: not yet. Your number is 100 times the right one: a share is a ratio from 0 to 1, not per cent.",
    );
  });

  test("a quantity for a plain number does not compile, and its slip is not blamed on a unit it can't have", () => {
    const layout = { barThickness: u.mm(8), clearSpacing: u.mm(12) };
    // @ts-expect-error a share is asked for, a length given
    exercise("00.2", layout, u.mm(0.4));
    expect(outputs.last("text/plain")).toContain("look at the units of what it was worked out from");
  });

  test("gives the exact value beside an answer that is right within the tolerance", () => {
    exercise("03.1", inputs, u.m(27.7));
    expect(outputs.last("text/plain")).toBe("✓ Exercise 03.1: right, 27.7 m (worked out: 27.61 m).");
  });

  test("an answer of another dimension does not compile", () => {
    // @ts-expect-error a length is asked for, an angle given
    exercise("03.1", inputs, u.deg(27.613));
    expect(outputs.last("text/plain")).toContain("not yet");
  });

  test("follows the reader's edit of an input: the old answer is wrong then, the new one right", () => {
    const edited = { ...inputs, rackAngle: u.deg(30) };
    exercise("03.1", edited, u.m(27.613));
    expect(outputs.last("text/plain")).toContain("not yet");
    exercise("03.1", edited, u.m(34));
    expect(outputs.last("text/plain")).toContain("right, 34 m");
  });

  test("says so when the answer is not a number", () => {
    const notANumber = Number.NaN as ReturnType<typeof u.m>; // what a slip of arithmetic gives at run time
    exercise("03.1", inputs, notANumber);
    expect(outputs.last("text/plain")).toBe(
      "✗ Exercise 03.1: your answer is NaN; give a number with its unit: `u.m(…)`.",
    );
  });

  test("names the exercises there are when asked for another", () => {
    const other = "99.9" as "03.1"; // what an untyped cell could ask for
    expect(() => exercise(other, inputs, undefined)).toThrow(/no exercise "99\.9"; there are 0/);
  });
});
