/** The numbers in a text: finding them, comparing them, and listing which changed. */

/** A number as people and programs write it: 12, -0.5, 1,250.75 is read as 1 and 250.75, 3.1e-7. */
const numberPattern = /(?<![A-Za-z_\d.])[-−+]?\d+(?:\.\d+)?(?:[eE][-+]?\d+)?/g;

/** Machines may round the last digits of a double differently; a text with fewer digits is compared as it is. */
const digitsEverywhereTheSame = 12;

/** Returns the numbers of a text, as written, and the text between them. */
export function splitNumbers(text: string): { numbers: string[]; between: string[] } {
  return { numbers: text.match(numberPattern) ?? [], between: text.split(numberPattern) };
}

/** Returns whether two texts agree: their words exactly, their numbers to the digits shown. */
export function sameText(a: string, b: string): boolean {
  if (a === b) return true;
  const left = splitNumbers(a);
  const right = splitNumbers(b);
  if (left.between.length !== right.between.length) return false;
  return (
    left.between.every((text, index) => text === right.between[index]) &&
    left.numbers.every((number, index) => sameNumber(number, right.numbers[index] ?? ""))
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

function significantDigits(number: string): number {
  return number
    .replace(/[eE].*$/, "")
    .replace(/\D/g, "")
    .replace(/^0+/, "").length;
}

function valueOf(number: string): number {
  return Number(number.replace("−", "-"));
}
