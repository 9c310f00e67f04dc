import { printValue } from "../../formula/input";
import { spellingsOf, unitSpelled } from "../../quantity/spelling";
import { u } from "../../quantity/u";
import { type UnitName, units } from "../../quantity/unit";
import type {
  Answer,
  AnswerState,
  ChoiceQuestion,
  QuantityQuestion,
  Question,
  WholeQuestion,
} from "./question";

/** An answer as it was understood: its value and what was changed, or why it is set aside. */
export interface Reading {
  readonly state: AnswerState;
  readonly value: Answer;
  /** What was changed on the way from the text to the value. */
  readonly changes: readonly string[];
  /** Why it is set aside. */
  readonly fault?: string;
}

/** Other answers of the same plant that an answer may refer to. */
export type OtherAnswers = (question: string) => Answer;

const quote = (text: string): string => JSON.stringify(text);
const setAside = (fault: string): Reading => ({ state: "set aside", value: undefined, changes: [], fault });
const plainText = (text: string): string =>
  text.normalize("NFKC").trim().replaceAll(/\s+/g, " ").toLowerCase();

/** Texts that say that there is no answer. */
const noAnswer = ["?", "-", "–", "n/a", "na", "unknown", "not known", "no answer"];

/** Reads one answer. An empty one is missing, never 0. */
export function readAnswer(question: Question, written: string, others: OtherAnswers): Reading {
  if (written.trim() === "") return { state: "missing", value: undefined, changes: [] };
  if (noAnswer.includes(plainText(written))) {
    return { state: "missing", value: undefined, changes: ["no answer"] };
  }
  switch (question.kind) {
    case "quantity":
      return readQuantity(question, written.trim(), others);
    case "whole":
      return readWhole(question, written.trim());
    case "choice":
      return readChoice(question, written);
    case "text":
      return { state: "answered", value: written, changes: [] };
  }
}

/** Words before a number that say it is not exact. */
const aboutBefore = /^(?:about|approximately|approx\.?|around|roughly|circa|ca\.?|~|≈)\s*/i;
const rangeOfNumbers = /^[+-]?[\d.,]+\s*\S*\s*(?:-|–|to|or|…|\.\.)\s*[\d.,]+/i;
const numberAndRest = /^([+\-−–]?(?:\d+(?:[.,]\d+)?|[.,]\d+))\s*(.*)$/s;

interface NumberRead {
  readonly number: number;
  readonly rest: string;
  readonly changes: readonly string[];
}

/** Reads the number that begins an answer; a text says why there is none. */
function readNumber(written: string): NumberRead | string {
  const changes: string[] = [];
  const text = written.replace(aboutBefore, "");
  if (text !== written) changes.push(`"${written.slice(0, written.length - text.length).trim()}" dropped`);
  if (rangeOfNumbers.test(text)) return "two numbers; state which one to take.";
  if (/^[+-]?\d{1,3}(?:[,'’ ]\d{3})+(?!\d)/.test(text)) {
    return "the mark in the number may stand between thousands or before decimals; state the number.";
  }
  const [, digits, rest] = numberAndRest.exec(text) ?? [];
  if (digits === undefined) return "no number.";
  if (digits.includes(",")) changes.push("decimal comma read as a point");
  return { number: Number(digits.replace(",", ".").replace(/^[−–]/, "-")), rest: rest.trim(), changes };
}

const unitWords: Readonly<Record<string, UnitName>> = {
  metre: "m",
  metres: "m",
  meter: "m",
  meters: "m",
  millimetres: "mm",
  millimeters: "mm",
  centimetres: "cm",
  centimeters: "cm",
  degree: "deg",
  degrees: "deg",
  "cbm/s": "m3ps",
  "m3/sec": "m3ps",
  cumecs: "m3ps",
  "litres/s": "Lps",
  "liters/s": "Lps",
};

/** The unit behind a number, as people write it by hand. */
function unitWritten(rest: string, asked: UnitName): UnitName | undefined {
  const { dimension } = units[asked];
  const lower = plainText(rest);
  const word = Object.hasOwn(unitWords, lower) ? unitWords[lower] : undefined;
  if (word !== undefined && units[word].dimension === dimension) return word;
  return unitSpelled(rest, dimension) ?? unitSpelled(lower, dimension);
}

function readQuantity(question: QuantityQuestion, written: string, others: OtherAnswers): Reading {
  const { unit, noneIsZero, inWords = [], orToNormal, orShareOf } = question;
  const lower = plainText(written);
  if (inWords.some((words) => plainText(words) === lower)) {
    return { state: "in words", value: undefined, changes: ["an answer in words, without a number"] };
  }
  if (noneIsZero === true && ["none", "no"].includes(lower)) {
    return { state: "answered", value: 0, changes: [`${quote(written)} taken as 0`] };
  }
  const read = readNumber(written);
  if (typeof read === "string") return setAside(read);
  const { number, rest, changes } = read;
  const take = (value: number, more: readonly string[]): Reading =>
    checkPlausible(question, { state: "answered", value, changes: [...changes, ...more] });
  // A unit's constructor takes any number; which dimension it is of, the question says.
  const inSI = (name: UnitName): number => u[name](number);
  const { symbol, dimension } = units[unit];
  if (rest === "") return take(inSI(unit), [`no unit: ${symbol} assumed, as asked for`]);
  const share = /^%\s*(?:of\b.*)?$/i.exec(rest);
  if (share !== null && orShareOf !== undefined) {
    const whole = others(orShareOf);
    return typeof whole === "number"
      ? take((number / 100) * whole, [`per cent of the plant's ${orShareOf}`])
      : setAside(`per cent of ${orShareOf}, which is not known; state the value.`);
  }
  const normal = /^(.*?)\s*(?:to|from|against) the normal$/i.exec(rest);
  if (normal !== null && orToNormal === true && unitWritten(normal[1] || "deg", unit) === "deg") {
    return take(u.deg(90 - number), ["given to the normal: 90° less it"]);
  }
  const found = unitWritten(rest, unit);
  if (found === undefined) {
    return setAside(
      `${quote(rest)} behind the number is no unit of ${dimension}: ${spellingsOf(dimension)}.`,
    );
  }
  return take(inSI(found), found === unit ? [] : [`${units[found].symbol} turned into ${symbol}`]);
}

function readWhole(question: WholeQuestion, written: string): Reading {
  const read = readNumber(written);
  if (typeof read === "string") return setAside(read);
  if (read.rest !== "") return setAside(`${quote(read.rest)} stands behind the number.`);
  if (!Number.isInteger(read.number)) return setAside("not a whole number.");
  return checkPlausible(question, { state: "answered", value: read.number, changes: read.changes });
}

function checkPlausible(question: QuantityQuestion | WholeQuestion, reading: Reading): Reading {
  const value = Number(reading.value);
  const [least, most] = question.plausible;
  // A slack of one part in a billion: 100 % of the limit in another unit must not miss it by a last digit.
  const slack = 1e-9 * Math.max(Math.abs(least), Math.abs(most));
  if (value >= least - slack && value <= most + slack) return reading;
  const range = `${printAnswer(question, least)} to ${printAnswer(question, most)}`;
  return {
    ...reading,
    state: "set aside",
    fault: `${printAnswer(question, value)} lies outside the plausible range, ${range}.`,
  };
}

function readChoice({ choices, anywhere = false }: ChoiceQuestion, written: string): Reading {
  const text = plainText(written);
  const found = Object.entries(choices)
    .filter(([category, spellings]) =>
      [category, ...spellings].some((one) =>
        anywhere ? hasWords(text, plainText(one)) : text === plainText(one),
      ),
    )
    .map(([category]) => category);
  const categories = Object.keys(choices).join(", ");
  if (found.length === 0) return setAside(`the words fit none of ${categories}; state one.`);
  if (found.length > 1) return setAside(`the words fit ${found.join(" and ")}; state one.`);
  const [category = ""] = found;
  return {
    state: "answered",
    value: category,
    changes: category === written ? [] : [`words taken as ${quote(category)}`],
  };
}

const hasWords = (text: string, words: string): boolean =>
  ` ${text.replaceAll(/[^\p{L}\p{N}-]+/gu, " ")} `.includes(` ${words} `);

/** Prints an answer in the unit that was asked for. */
export function printAnswer(question: Question, value: Answer): string {
  if (typeof value !== "number") return value ?? "missing";
  return question.kind === "quantity"
    ? printValue(value, units[question.unit].dimension, question.unit, 4)
    : String(value);
}
