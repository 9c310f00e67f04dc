/** Throws the sentence `<where>: <text>.` as a RangeError. */
export function refuse(where: string, text: string): never {
  throw new RangeError(`${where}: ${text}.`);
}

/** Refuses a number that is not finite or lies outside the limits. */
export function checkNumber(
  where: string,
  name: string,
  value: number,
  limits: {
    readonly above?: number;
    readonly atLeast?: number;
    readonly below?: number;
    readonly atMost?: number;
  } = {},
): void {
  const { above, atLeast, below, atMost } = limits;
  const inside =
    Number.isFinite(value) &&
    (above === undefined || value > above) &&
    (atLeast === undefined || value >= atLeast) &&
    (below === undefined || value < below) &&
    (atMost === undefined || value <= atMost);
  if (inside) return;
  const allowed = [
    ...(above === undefined ? [] : [`above ${above}`]),
    ...(atLeast === undefined ? [] : [`at least ${atLeast}`]),
    ...(below === undefined ? [] : [`below ${below}`]),
    ...(atMost === undefined ? [] : [`at most ${atMost}`]),
  ];
  refuse(where, `${name} is ${String(value)}; it must be ${allowed.join(" and ") || "a finite number"}`);
}

/** Refuses what is no whole number from `atLeast` to `atMost`. */
export function checkWhole(
  where: string,
  name: string,
  value: number,
  atLeast: number,
  atMost?: number,
): void {
  if (Number.isSafeInteger(value) && value >= atLeast && (atMost === undefined || value <= atMost)) return;
  const allowed = atMost === undefined ? `of at least ${atLeast}` : `from ${atLeast} to ${atMost}`;
  refuse(where, `${name} is ${String(value)}; it must be a whole number ${allowed}`);
}

/** Refuses a confidence level that is not between 0 and 1. */
export function checkLevel(where: string, level: number): void {
  if (level > 0 && level < 1) return;
  refuse(where, `level is ${String(level)}; it must lie between 0 and 1, as 0.95 for a 95 % interval`);
}
