import { rampLines, type SurvivalColumns, type SurvivalRow } from "./survivalLoop";

/*
 * The loop of survivalLoop.ts as a WebAssembly module that works on two draws at once. The module is put together below as
 * one expression; each function returns the bytes of an instruction with what it works on before it.
 */

type Code = readonly number[];

/** What of WebAssembly is used; the compiler's libraries for Node don't name it. */
interface Assembly {
  readonly validate: (bytes: Uint8Array) => boolean;
  readonly Module: new (bytes: Uint8Array) => object;
  readonly Memory: new (size: { readonly initial: number }) => { readonly buffer: ArrayBuffer };
  readonly Instance: new (
    module: object,
    imports: { readonly host: { readonly memory: object } },
  ) => { readonly exports: { readonly fill: (bytes: number, length: number, mortality: number) => void } };
}

/** A whole number in groups of seven bits, the last one without a mark; `signed` keeps the sign readable. */
function grouped(value: number, signed = false): Code {
  const bytes: number[] = [];
  for (let rest = value; ;) {
    const low = rest & 127;
    rest >>= 7;
    const isLast = signed ? (rest === 0 && low < 64) || (rest === -1 && low >= 64) : rest === 0;
    bytes.push(isLast ? low : low | 128);
    if (isLast) return bytes;
  }
}

const bits = (value: number): Code => [...new Uint8Array(Float64Array.of(value).buffer)];
const whole = (value: bigint): Code => [...new Uint8Array(BigInt64Array.of(value).buffer)];

// Scalars and control.
const get = (local: number): Code => [0x20, ...grouped(local)];
const set = (local: number, value: Code): Code => [...value, 0x21, ...grouped(local)];
const i32 = (value: number): Code => [0x41, ...grouped(value, true)];
const plus = (one: Code, other: Code): Code => [...one, ...other, 0x6a];
const times = (one: Code, other: Code): Code => [...one, ...other, 0x6c];
const isBelow = (one: Code, other: Code): Code => [...one, ...other, 0x49];
const either = (condition: Code, yes: Code, no: Code): Code => [
  ...condition,
  0x04,
  0x40,
  ...yes,
  0x05,
  ...no,
  0x0b,
];
// prettier-ignore
const during = (condition: Code, repeated: Code): Code => [
  0x02, 0x40, 0x03, 0x40, ...condition, 0x45, 0x0d, 1, ...repeated, 0x0c, 0, 0x0b, 0x0b,
];

// Vectors of two numbers.
const vector = (code: number, ...inputs: readonly Code[]): Code => [...inputs.flat(), 0xfd, ...grouped(code)];
const load = (address: Code): Code => [...vector(0x00, address), 3, 0];
const store = (address: Code, value: Code): Code => [...vector(0x0b, address, value), 3, 0];
const both = (value: number): Code => [...vector(0x0c), ...bits(value), ...bits(value)];
const bothWhole = (value: bigint): Code => [...vector(0x0c), ...whole(value), ...whole(value)];
const splat = (value: Code): Code => vector(0x14, value);
const and = (one: Code, other: Code): Code => vector(0x4e, one, other);
const isAbove = (one: Code, other: Code): Code => vector(0x4a, one, other);
const isAtLeast = (one: Code, other: Code): Code => vector(0x4c, one, other);
const nearest = (value: Code): Code => vector(0x94, value);
const allTrue = (mask: Code): Code => vector(0xc3, mask);
const shiftLeft = (value: Code, by: number): Code => vector(0xcb, value, i32(by));
const shiftRight = (value: Code, by: number): Code => vector(0xcd, value, i32(by));
const addWhole = (one: Code, other: Code): Code => vector(0xce, one, other);
const subtractWhole = (one: Code, other: Code): Code => vector(0xd1, one, other);
const add = (one: Code, other: Code): Code => vector(0xf0, one, other);
const subtract = (one: Code, other: Code): Code => vector(0xf1, one, other);
const multiply = (one: Code, other: Code): Code => vector(0xf2, one, other);
const divide = (one: Code, other: Code): Code => vector(0xf3, one, other);
// The forms that leave out the rules for what is no number are one machine instruction each.
const least = (one: Code, other: Code): Code => vector(0xf6, one, other);
const most = (one: Code, other: Code): Code => vector(0xf7, one, other);

// Parameters and locals by number.
const [bytes, fishLength, mortality, at, ramp, through, exponentPart, part, square, second, fourth, share] = [
  0, 1, 2, 3, 4, 5, 6, 7, 8, 9, 10, 11,
];
const column = (place: number): Code => plus(get(at), times(get(bytes), i32(place)));

/**
 * A polynomial, the constant coefficient first, in four parts of every fourth power: the processor works on them side by
 * side, where Horner's rule alone would wait for each step.
 */
function polynomial(coefficients: readonly number[], value: Code): Code {
  const from = (first: number): Code => {
    const own = coefficients.filter((_, power) => power % 4 === first);
    return own
      .slice(0, -1)
      .reduceRight((sum, one) => add(multiply(sum, get(fourth)), both(one)), both(own.at(-1) ?? 0));
  };
  return [
    ...set(second, multiply(value, value)),
    ...set(fourth, multiply(get(second), get(second))),
    ...add(
      add(from(0), multiply(get(second), from(2))),
      multiply(value, add(from(1), multiply(get(second), from(3)))),
    ),
  ];
}

/** 1.5 × 2⁵²: beside it a whole number stands in the last bits of a floating one, and turns from one kind to the other. */
const turning = 6_755_399_441_055_744;
const turningBits = 0x4338_0000_0000_0000n;
const rootOfHalf = 0x3fe6_a09e_667f_3bcdn;

/** The exponent is read with so much added to it, since a shift to the right with its sign takes many instructions. */
const lifted = 1024;
const liftedBits = BigInt(lifted) << 52n;

/** ln x for x from 1e-300 to 1: x = m·2ᵉ with m between √½ and √2, ln m = 2·artanh((m − 1)/(m + 1)) as a series. */
const logarithm = (value: Code): Code => [
  ...set(part, value),
  ...set(exponentPart, shiftRight(addWhole(get(part), bothWhole(liftedBits - rootOfHalf)), 52)),
  ...set(part, addWhole(subtractWhole(get(part), shiftLeft(get(exponentPart), 52)), bothWhole(liftedBits))),
  ...set(part, divide(subtract(get(part), both(1)), add(get(part), both(1)))),
  ...set(square, multiply(get(part), get(part))),
  ...add(
    multiply(
      subtract(addWhole(get(exponentPart), bothWhole(turningBits)), both(turning + lifted)),
      both(Math.LN2),
    ),
    multiply(
      get(part),
      polynomial(
        Array.from({ length: 10 }, (_, power) => 2 / (2 * power + 1)),
        get(square),
      ),
    ),
  ),
];

const factorial = (n: number): number => (n < 2 ? 1 : n * factorial(n - 1));
/** ln 2 in two parts: a whole number times the first is exact. */
const [ln2First, ln2Rest] = [0.693_147_180_369_123_8, 1.908_214_929_270_587_7e-10];

/** eˣ for x from −700 to 0: x = k·ln 2 + r with k whole, eʳ as a series, 2ᵏ by its bits. */
const exponential = (value: Code): Code => [
  ...set(part, most(value, both(-700))),
  ...set(exponentPart, nearest(multiply(get(part), both(Math.LOG2E)))),
  ...set(
    part,
    subtract(
      subtract(get(part), multiply(get(exponentPart), both(ln2First))),
      multiply(get(exponentPart), both(ln2Rest)),
    ),
  ),
  ...multiply(
    polynomial(
      Array.from({ length: 13 }, (_, power) => 1 / factorial(power)),
      get(part),
    ),
    shiftLeft(
      addWhole(addWhole(add(get(exponentPart), both(turning)), bothWhole(-turningBits)), bothWhole(1023n)),
      52,
    ),
  ),
];

/** From x up the ramp to the share protected: 0 up to the threshold, 1 from the barrier length on. */
const sharesOfRamp = (): Code =>
  either(allTrue(isAtLeast(get(ramp), both(1))), set(share, both(1)), [
    // The logarithm takes nothing at or below 0; what it gives there is put to 0 by the mask.
    ...set(share, logarithm(most(least(get(ramp), both(1)), both(1e-300)))),
    ...set(share, exponential(multiply(load(column(2)), get(share)))),
    ...set(share, and(get(share), isAbove(get(ramp), both(0)))),
  ]);

const body = (): Code =>
  during(isBelow(get(at), get(bytes)), [
    ...set(ramp, subtract(multiply(load(column(0)), splat(get(fishLength))), load(column(1)))),
    ...sharesOfRamp(),
    ...set(through, subtract(both(1), multiply(load(column(3)), splat(get(mortality))))),
    ...set(through, most(get(through), both(0))),
    ...store(column(5), add(get(through), multiply(get(share), subtract(load(column(4)), get(through))))),
    ...set(at, plus(get(at), i32(16))),
  ]);

const [typeI32, typeF64, typeVector] = [0x7f, 0x7c, 0x7b];
const sized = (content: Code): Code => [...grouped(content.length), ...content];
const section = (id: number, content: Code): Code => [id, ...sized(content)];
const name = (text: string): Code => sized([...new TextEncoder().encode(text)]);

/** What every module begins with: its kind and version. */
const magic = [0x00, 0x61, 0x73, 0x6d, 1, 0, 0, 0];

const moduleBytes = (): Uint8Array =>
  Uint8Array.from([
    ...magic,
    ...section(1, [1, 0x60, 3, typeI32, typeF64, typeF64, 0]),
    ...section(2, [1, ...name("host"), ...name("memory"), 0x02, 0, 1]),
    ...section(3, [1, 0]),
    ...section(7, [1, ...name("fill"), 0, 0]),
    ...section(10, [1, ...sized([2, 1, typeI32, 8, typeVector, ...body(), 0x0b])]),
  ]);

let compiled: object | undefined;

/**
 * The vectorised loop for these draws; undefined where the machine has no WebAssembly with vectors, and `survivalLoop` does
 * the same more slowly. Results agree with it to about 1e-14.
 */
export function survivalKernel(columns: SurvivalColumns): SurvivalRow | undefined {
  // A boundary: a global of every engine that the compiler's libraries leave out.
  const assembly = (globalThis as unknown as { readonly WebAssembly?: Assembly }).WebAssembly;
  if (assembly === undefined) return undefined;
  if (compiled === undefined) {
    const code = moduleBytes();
    if (!assembly.validate(code)) return undefined;
    compiled = new assembly.Module(code);
  }
  const draws = columns.clearSpacing.length;
  const stride = 8 * (draws + (draws % 2));
  const memory = new assembly.Memory({ initial: Math.ceil((6 * stride) / 65_536) });
  const { slope, start } = rampLines(columns);
  [slope, start, columns.exponent, columns.mortalityFactor, columns.protectedSurvival].forEach(
    (values, place) => new Float64Array(memory.buffer, place * stride, draws).set(values),
  );
  const { fill } = new assembly.Instance(compiled, { host: { memory } }).exports;
  const row = new Float64Array(memory.buffer, 5 * stride, draws);
  return (length, mortalityOfLength) => {
    fill(stride, length, mortalityOfLength);
    return row;
  };
}
