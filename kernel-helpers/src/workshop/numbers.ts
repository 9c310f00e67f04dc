/** The numbers in a text: finding them and comparing them. */

const number = String.raw`[-−+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?`;
/** The digits of a name such as x2 are no number to a reader. */
const readNumber = new RegExp(String.raw`(?<![A-Za-z_\d.])${number}`, "g");
/** In the path of a picture a number stands right after a letter. */
const anyNumber = new RegExp(number, "g");

/** Machines may round the last digits of a double differently; a text with fewer digits is compared as it is. */
const digitsEverywhereTheSame = 12;

interface NumberedText {
  /** The numbers of the text, as written. */
  readonly numbers: readonly string[];
  /** The text before, between and after them: one piece more. */
  readonly between: readonly string[];
}

/** Returns the numbers that a reader sees in a text, and the text between them. */
export function splitNumbers(text: string): NumberedText {
  return splitBy(readNumber, text);
}

function splitBy(pattern: RegExp, text: string): NumberedText {
  return { numbers: text.match(pattern) ?? [], between: text.split(pattern) };
}

/** Returns whether two texts agree: their words exactly, their numbers to the digits shown. */
export function sameText(a: string, b: string): boolean {
  if (a === b) return true;
  const left = splitBy(anyNumber, a);
  const right = splitBy(anyNumber, b);
  if (left.between.length !== right.between.length) return false;
  return (
    left.between.every((text, index) => text === right.between[index]) &&
    left.numbers.every((value, index) => sameNumber(value, right.numbers[index] ?? ""))
  );
}

function sameNumber(a: string, b: string): boolean {
  if (a === b) return true;
  if (significantDigits(a) <= digitsEverywhereTheSame || significantDigits(b) <= digitsEverywhereTheSame)
    return false;
  const difference = Math.abs(valueOf(a) - valueOf(b));
  const size = Math.max(Math.abs(valueOf(a)), Math.abs(valueOf(b)));
  return difference <= size * 10 ** (1 - digitsEverywhereTheSame);
}

function significantDigits(written: string): number {
  return written
    .replace(/[eE].*$/, "")
    .replace(/\D/g, "")
    .replace(/^0+/, "").length;
}

function valueOf(written: string): number {
  return Number(written.replace("−", "-"));
}
