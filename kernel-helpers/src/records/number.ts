import { quote } from "./offence";

const strictNumber = /^[+-]?(?:\d+\.?\d*|\.\d+)(?:[eE][+-]?\d+)?$/;

/** The number that an entry spells with a decimal point, or NaN; spaces around it do not count. */
export function parseNumber(entry: string): number {
  const text = entry.trim();
  if (!strictNumber.test(text)) return NaN;
  const number = Number(text);
  return Number.isFinite(number) ? number : NaN;
}

/** Why an entry is no number, and the remedy. */
export function numberFault(entry: string): string {
  const text = entry.trim();
  const value = quote(entry);
  if (/^[+-]?[1-9]\d{0,2},\d{3}$/.test(text)) {
    return `${value} has a comma; write ${text.replace(",", "")} if it parts thousands and ${text.replace(",", ".")} if it parts decimals.`;
  }
  if (/^[+-]?\d*,\d+(?:[eE][+-]?\d+)?$/.test(text)) {
    return `${value} has a decimal comma; write ${text.replace(",", ".")}, or read the file with decimalComma: true.`;
  }
  if (/^[+-]?\d{1,3}(?:[.,'’\s\u2009\u202f]\d{3})+(?:[.,]\d*)?$/.test(text)) {
    return `${value} has marks between thousands; write the digits without them and decimals with a point.`;
  }
  if (/^[-+]?(?:nan|n\/?a|null|none|nil|inf|infinity|missing|unknown|[-–—.?x*]+)$/i.test(text)) {
    return `${value} is no number; leave the cell empty where the entry is missing, if the schema allows it.`;
  }
  if (text.startsWith("#")) return `${value} is a formula's error; mend the formula or write its value.`;
  if (text.startsWith("=")) return `${value} is a formula; write its value.`;
  if (strictNumber.test(text)) return `${value} is too large for a number.`;
  if (/^[−–]/.test(text) && strictNumber.test(text.slice(1))) {
    return `${value} has a long minus sign; write -${text.slice(1)}.`;
  }
  if (/^[+-]?0[xob]/i.test(text)) return `${value} is no decimal number.`;
  const behind = /^([+-]?(?:\d+\.?\d*|\.\d+))\s*(\D.*)$/s.exec(text);
  if (behind !== null) {
    return `${value} has ${quote(behind[2])} behind the number; write ${behind[1]}: a unit belongs in the head, a remark in a column of its own.`;
  }
  return `${value} is no number.`;
}
