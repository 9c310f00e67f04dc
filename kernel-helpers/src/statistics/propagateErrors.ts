import { checkNumber, refuse } from "./checks";

const where = "statistics.propagateErrors";

/** One input's part in the error of a result. */
export interface ErrorPart {
  readonly name: string;
  /** Derivative of the result for this input. */
  readonly sensitivity: number;
  readonly standardError: number;
  /** Sensitivity times standard error, with its sign: what the result moves when the input moves by its error. */
  readonly moves: number;
}

/** A result with the error that its inputs' errors give it. */
export interface PropagatedError {
  readonly method: string;
  readonly value: number;
  readonly standardError: number;
  readonly parts: readonly ErrorPart[];
}

/** A correlation of two inputs' errors. */
export type Correlation<N extends string> = readonly [one: N, other: N, correlation: number];

/** Third root of the smallest relative step between numbers: central differences lose least with it. */
const relativeStep = Math.cbrt(Number.EPSILON);

/**
 * Carries the standard errors of inputs into a result, by the law of propagation (first order).
 *
 * Returns the result, its standard error and each input's part. Derivatives are central differences. Errors are independent
 * but for the pairs in `correlations`. Valid where the result is nearly straight within the errors. Throws a RangeError
 * for errors below 0, correlations outside −1..1 or that can't hold together, and where the result is no number.
 *
 * @example
 * statistics.propagateErrors({
 *   of: ({ voltage, current }) => voltage / current,
 *   at: { voltage: 5, current: 0.02 },
 *   standardErrors: { voltage: 0.003, current: 0.00001 },
 * }).standardError // => 0.19526
 */
export function propagateErrors<const N extends string>({
  of,
  at,
  standardErrors,
  correlations = [],
}: {
  readonly of: (inputs: Readonly<Record<N, number>>) => number;
  readonly at: Readonly<Record<N, number>>;
  readonly standardErrors: Readonly<Record<N, number>>;
  readonly correlations?: readonly Correlation<N>[];
}): PropagatedError {
  // A boundary: the keys of a record typed by N are its names.
  const names = Object.keys(at) as N[];
  for (const name of names) {
    checkNumber(where, `at.${name}`, at[name]);
    checkNumber(where, `standardErrors.${name}`, standardErrors[name], { atLeast: 0 });
  }
  const value = of(at);
  const parts = names.map((name): ErrorPart & { readonly name: N } => {
    const standardError = standardErrors[name];
    // The error itself is no longer than the stretch over which the result should be straight.
    const step = at[name] === 0 ? standardError || 1e-8 : relativeStep * Math.abs(at[name]);
    const [up, down] = [at[name] + step, at[name] - step];
    const sensitivity = (of({ ...at, [name]: up }) - of({ ...at, [name]: down })) / (up - down);
    if (!Number.isFinite(value) || !Number.isFinite(sensitivity)) {
      refuse(
        where,
        `the result is ${value} and its derivative for ${name} ${sensitivity}; both must be numbers`,
      );
    }
    return { name, sensitivity, standardError, moves: sensitivity * standardError };
  });
  const movesOf = (name: N): number => {
    const part = parts.find((one) => one.name === name);
    return part === undefined
      ? refuse(where, `correlations names ${name}, which is not among the inputs`)
      : part.moves;
  };
  const independent = parts.reduce((sum, { moves }) => sum + moves ** 2, 0);
  const together = correlations.reduce((sum, [one, other, correlation]) => {
    checkNumber(where, `the correlation of ${one} and ${other}`, correlation, { atLeast: -1, atMost: 1 });
    return sum + 2 * correlation * movesOf(one) * movesOf(other);
  }, 0);
  const variance = independent + together;
  if (variance < -1e-12 * independent) {
    refuse(where, "the correlations can't hold together: they give a variance below 0; check their signs");
  }
  return {
    method: "law of propagation of errors, first order",
    value,
    standardError: Math.sqrt(Math.max(variance, 0)),
    parts,
  };
}
