import { uncertainty } from "kernel-helpers";
import { describe, expect, test } from "vitest";

const { fixed, jointlyNormal, measureNext, normal, sobolIndices, tornado, uniform, valueOfKnowing } =
  uncertainty;
const standard = (standardDeviation: number) => normal({ mean: 0, standardDeviation });

const changed = (change: object) => () =>
  sobolIndices({ inputs: { a: standard(1) }, output: ({ a }) => a, seed: 1, ...change });

const turningBack = ({ a, b }: { readonly a: number; readonly b: number }): number => a ** 2 + b;

describe("uncertainty.sobolIndices", () => {
  test("a sum's indices are the shares of the variances, first order and total alike", () => {
    const { indices } = sobolIndices({
      inputs: { a: standard(3), b: standard(4), known: fixed(2) },
      output: ({ a, b, known }) => a + b + known,
      seed: 1,
    });
    expect(indices.map(({ input }) => input)).toEqual(["b", "a"]);
    expect(indices[0].first.value).toBeCloseTo(0.64, 2);
    expect(indices[0].total.value).toBeCloseTo(0.64, 2);
    expect(indices[1].first.value).toBeCloseTo(0.36, 2);
  });

  test("a product of two about 0 is all interaction: first order 0, total 1", () => {
    const { indices } = sobolIndices({
      inputs: { a: standard(1), b: standard(1) },
      output: ({ a, b }) => a * b,
      seed: 1,
      base: 2 ** 12,
    });
    for (const { first, total } of indices) {
      expect(Math.abs(first.value)).toBeLessThan(0.02);
      expect(Math.abs(total.value - 1)).toBeLessThan(0.02);
    }
  });

  test("parameters of one fit count as one input", () => {
    const curve = jointlyNormal({
      estimates: { p: 0, q: 0 },
      covariance: [
        [1, -0.9],
        [-0.9, 1],
      ],
    });
    const { indices } = sobolIndices({
      inputs: { curve, other: standard(1) },
      output: ({ curve: { p, q }, other }) => p + q + other,
      seed: 1,
    });
    // The two nearly cancel: variance 1 + 1 − 1.8 against 1.
    expect(indices.find(({ input }) => input === "curve")?.first.value).toBeCloseTo(0.2 / 1.2, 2);
  });

  test("the intervals are honest: over 100 seeds they hold a known index in 90 to 99 %", () => {
    const held = Array.from({ length: 100 }, (_, seed) => {
      const { indices } = sobolIndices({
        inputs: { a: uniform({ from: 0, to: 1 }), b: uniform({ from: 0, to: 2 }) },
        output: ({ a, b }) => a + b,
        seed,
        base: 128,
        sequence: "random",
      });
      const a = indices.find(({ input }) => input === "a");
      return a !== undefined && a.first.lower < 0.2 && 0.2 < a.first.upper;
    });
    const share = held.filter(Boolean).length / held.length;
    expect(share).toBeGreaterThanOrEqual(0.9);
    expect(share).toBeLessThanOrEqual(0.99);
  });

  test("its running estimates end in the estimates", () => {
    const { convergence, indices } = sobolIndices({
      inputs: { a: standard(3), b: standard(4) },
      output: ({ a, b }) => a + b,
      seed: 1,
      base: 256,
    });
    expect(convergence.map(({ base }) => base)).toEqual([64, 128, 256]);
    expect(convergence.at(-1)?.indices).toEqual(indices);
  });

  test("a base that is no power of 2, and an output that doesn't vary, are refused", () => {
    expect(changed({ base: 1000 })).toThrow("base is 1000; it must be a power of 2, such as 1024");
    expect(changed({ shifts: 2 })).toThrow("shifts is 2");
    expect(changed({ output: () => 3 })).toThrow("the output doesn't vary: it is 3 for every draw");
  });
});

describe("uncertainty.tornado", () => {
  test("swings between the quantiles, the widest first, with their direction", () => {
    const { swings, middle } = tornado({
      inputs: { up: uniform({ from: 0, to: 1 }), down: uniform({ from: 0, to: 4 }), known: 5 },
      output: ({ up, down, known }) => up - down + known,
      between: [0.1, 0.9],
    });
    expect(middle).toBeCloseTo(3.5, 12);
    expect(swings.map(({ input }) => input)).toEqual(["down", "up"]);
    expect(swings[0].atLower - swings[0].atUpper).toBeCloseTo(3.2, 12);
    expect(swings[1].swing).toBeCloseTo(0.8, 12);
  });

  test("a fitted curve swings as a whole", () => {
    const curve = jointlyNormal({
      estimates: { p: 1, q: 1 },
      covariance: [
        [1, 0],
        [0, 1],
      ],
    });
    const [{ swing, from }] = tornado({ inputs: { curve }, output: ({ curve: { p, q } }) => p + q }).swings;
    expect(swing).toBeCloseTo(2 * 1.644854 * Math.SQRT2, 1);
    expect(from).toBeUndefined();
  });

  test("misses what turns back between the quantiles, which the indices see", () => {
    const inputs = { a: standard(1), b: standard(0.1) };
    expect(tornado({ inputs, output: turningBack }).swings[0].input).toBe("b");
    expect(sobolIndices({ inputs, output: turningBack, seed: 1 }).indices[0].input).toBe("a");
  });

  test("quantiles that don't rise are refused", () => {
    expect(() => tornado({ inputs: { a: standard(1) }, output: ({ a }) => a, between: [0.9, 0.1] })).toThrow(
      "between[1] is 0.1",
    );
  });
});

describe("what to measure next", () => {
  test("knowing one of two leaves the error of the other", () => {
    const next = measureNext(
      sobolIndices({ inputs: { a: standard(3), b: standard(4) }, output: ({ a, b }) => a + b, seed: 1 }),
    );
    expect(next.now).toBeCloseTo(5, 2);
    expect(next.inputs.map(({ input }) => input)).toEqual(["b", "a"]);
    expect(next.inputs[0].left).toBeCloseTo(3, 1);
    expect(next.inputs[0].reduction).toBeCloseTo(2, 1);
    expect(next.clearFirst).toBe("b");
  });

  test("names no first where two inputs count the same", () => {
    const next = measureNext(
      sobolIndices({
        inputs: { a: standard(1), b: standard(1) },
        output: ({ a, b }) => a + b,
        seed: 1,
        sequence: "random",
      }),
    );
    expect(next.clearFirst).toBeUndefined();
  });

  test("in money: a gamble about nothing is worth s/√(2π) to the one who knows (by hand)", () => {
    const { inputs, everything, best } = valueOfKnowing({
      inputs: { gain: standard(100), noise: standard(1) },
      options: { build: ({ gain, noise }) => gain + noise, leave: () => -1 },
      seed: 1,
    });
    // E max(x, −1) for x of error √(100² + 1), less the better mean.
    expect(best).toBe("build");
    expect(everything.value).toBeCloseTo(39.4, 0);
    expect(Math.abs(inputs[0].value - 39.4)).toBeLessThan(1.5);
    expect(inputs[0].input).toBe("gain");
  });

  test("an input that never changes the choice is worth exactly nothing, however uncertain it is", () => {
    const { inputs } = valueOfKnowing({
      inputs: { shared: standard(1000), cost: uniform({ from: 1, to: 2 }) },
      options: { dear: ({ shared, cost }) => shared - cost, cheap: ({ shared }) => shared },
      seed: 1,
    });
    for (const { value } of inputs) expect(Math.abs(value)).toBeLessThan(1e-9);
  });

  test("one option is no choice", () => {
    expect(() =>
      valueOfKnowing({ inputs: { a: standard(1) }, options: { only: ({ a }) => a }, seed: 1 }),
    ).toThrow("the number of options is 1");
  });
});
