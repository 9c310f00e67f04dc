// NIST Statistical Reference Datasets, nonlinear regression: data, starts, certified values and standard deviations as
// printed in the files of the collection (public domain).
import { describe, expect, test } from "vitest";
import { statistics } from "kernel-helpers";

interface Reference {
  readonly name: string;
  readonly difficulty: "lower" | "average" | "higher";
  /** x and y by turns. */
  readonly data: readonly number[];
  readonly model: (b: Readonly<Record<string, number>>, x: number) => number;
  readonly starts: readonly (readonly number[])[];
  readonly certified: readonly (readonly [value: number, standardDeviation: number])[];
  readonly residualStandardDeviation: number;
  readonly residualSumOfSquares: number;
}

/** Pressure and volume of the four Misra sets, which differ in their models. */
const misra = [
  77.6, 10.07, 114.9, 14.73, 141.1, 17.94, 190.8, 23.93, 239.9, 29.61, 289.0, 35.18, 332.8, 40.02, 378.4,
  44.82, 434.8, 50.76, 477.3, 55.05, 536.8, 61.01, 593.1, 66.4, 689.1, 75.47, 760.0, 81.78,
];

const references: readonly Reference[] = [
  {
    name: "Misra1a",
    difficulty: "lower",
    data: misra,
    model: ({ b1, b2 }, x) => b1 * (1 - Math.exp(-b2 * x)),
    starts: [
      [500, 0.0001],
      [250, 0.0005],
    ],
    certified: [
      [2.3894212918e2, 2.7070075241],
      [5.5015643181e-4, 7.2668688436e-6],
    ],
    residualStandardDeviation: 1.018787633e-1,
    residualSumOfSquares: 1.2455138894e-1,
  },
  {
    name: "Chwirut2",
    difficulty: "lower",
    data: [
      0.5, 92.9, 1.0, 57.1, 1.75, 31.05, 3.75, 11.5875, 5.75, 8.025, 0.875, 63.6, 2.25, 21.4, 3.25, 14.25,
      5.25, 8.475, 0.75, 63.8, 1.75, 26.8, 2.75, 16.4625, 4.75, 7.125, 0.625, 67.3, 1.25, 41.0, 2.25, 21.15,
      4.25, 8.175, 0.5, 81.5, 3.0, 13.12, 0.75, 59.9, 3.0, 14.62, 1.5, 32.9, 6.0, 5.44, 3.0, 12.56, 6.0, 5.44,
      1.5, 32.0, 3.0, 13.95, 0.5, 75.8, 2.0, 20.0, 4.0, 10.42, 0.75, 59.5, 2.0, 21.67, 5.0, 8.55, 0.75, 62.0,
      2.25, 20.2, 3.75, 7.76, 5.75, 3.75, 3.0, 11.81, 0.75, 54.7, 2.5, 23.7, 4.0, 11.55, 0.75, 61.3, 2.5,
      17.7, 4.0, 8.74, 0.75, 59.2, 2.5, 16.3, 4.0, 8.62, 0.5, 81.0, 6.0, 4.87, 3.0, 14.62, 0.5, 81.7, 2.75,
      17.17, 0.5, 81.3, 1.75, 28.9,
    ],
    model: ({ b1, b2, b3 }, x) => Math.exp(-b1 * x) / (b2 + b3 * x),
    starts: [
      [0.1, 0.01, 0.02],
      [0.15, 0.008, 0.01],
    ],
    certified: [
      [1.6657666537e-1, 3.830328681e-2],
      [5.1653291286e-3, 6.6621605126e-4],
      [1.2150007096e-2, 1.5304234767e-3],
    ],
    residualStandardDeviation: 3.171713304,
    residualSumOfSquares: 5.1304802941e2,
  },
  {
    name: "DanWood",
    difficulty: "lower",
    data: [1.309, 2.138, 1.471, 3.421, 1.49, 3.597, 1.565, 4.34, 1.611, 4.882, 1.68, 5.66],
    model: ({ b1, b2 }, x) => b1 * x ** b2,
    starts: [
      [1, 5],
      [0.7, 4],
    ],
    certified: [
      [7.6886226176e-1, 1.828197386e-2],
      [3.8604055871, 5.1726610913e-2],
    ],
    residualStandardDeviation: 3.2853114039e-2,
    residualSumOfSquares: 4.3173084083e-3,
  },
  {
    name: "Misra1c",
    difficulty: "average",
    data: misra,
    model: ({ b1, b2 }, x) => b1 * (1 - (1 + 2 * b2 * x) ** -0.5),
    starts: [
      [500, 0.0001],
      [600, 0.0002],
    ],
    certified: [
      [6.3642725809e2, 4.6638326572],
      [2.0813627256e-4, 1.7728423155e-6],
    ],
    residualStandardDeviation: 5.8428615257e-2,
    residualSumOfSquares: 4.0966836971e-2,
  },
  {
    name: "Misra1d",
    difficulty: "average",
    data: misra,
    model: ({ b1, b2 }, x) => (b1 * b2 * x) / (1 + b2 * x),
    starts: [
      [500, 0.0001],
      [450, 0.0003],
    ],
    certified: [
      [4.3736970754e2, 3.6489174345],
      [3.0227324449e-4, 2.9334354479e-6],
    ],
    residualStandardDeviation: 6.8568272111e-2,
    residualSumOfSquares: 5.6419295283e-2,
  },
  {
    name: "MGH09",
    difficulty: "higher",
    data: [
      4, 0.1957, 2, 0.1947, 1, 0.1735, 0.5, 0.16, 0.25, 0.0844, 0.167, 0.0627, 0.125, 0.0456, 0.1, 0.0342,
      0.0833, 0.0323, 0.0714, 0.0235, 0.0625, 0.0246,
    ],
    model: ({ b1, b2, b3, b4 }, x) => (b1 * (x ** 2 + x * b2)) / (x ** 2 + x * b3 + b4),
    starts: [
      [25, 39, 41.5, 39],
      [0.25, 0.39, 0.415, 0.39],
    ],
    certified: [
      [1.9280693458e-1, 1.1435312227e-2],
      [1.9128232873e-1, 1.9633220911e-1],
      [1.2305650693e-1, 8.0842031232e-2],
      [1.3606233068e-1, 9.0025542308e-2],
    ],
    residualStandardDeviation: 6.6279236551e-3,
    residualSumOfSquares: 3.0750560385e-4,
  },
  {
    name: "Thurber",
    difficulty: "higher",
    data: [
      -3.067, 80.574, -2.981, 84.248, -2.921, 87.264, -2.912, 87.195, -2.84, 89.076, -2.797, 89.608, -2.702,
      89.868, -2.699, 90.101, -2.633, 92.405, -2.481, 95.854, -2.363, 100.696, -2.322, 101.06, -1.501,
      401.672, -1.46, 390.724, -1.274, 567.534, -1.212, 635.316, -1.1, 733.054, -1.046, 759.087, -0.915,
      894.206, -0.714, 990.785, -0.566, 1090.109, -0.545, 1080.914, -0.4, 1122.643, -0.309, 1178.351, -0.109,
      1260.531, -0.103, 1273.514, 0.01, 1288.339, 0.119, 1327.543, 0.377, 1353.863, 0.79, 1414.509, 0.963,
      1425.208, 1.006, 1421.384, 1.115, 1442.962, 1.572, 1464.35, 1.841, 1468.705, 2.047, 1447.894, 2.2,
      1457.628,
    ],
    model: ({ b1, b2, b3, b4, b5, b6, b7 }, x) =>
      (b1 + b2 * x + b3 * x ** 2 + b4 * x ** 3) / (1 + b5 * x + b6 * x ** 2 + b7 * x ** 3),
    starts: [
      [1000, 1000, 400, 40, 0.7, 0.3, 0.03],
      [1300, 1500, 500, 75, 1, 0.4, 0.05],
    ],
    certified: [
      [1.28813968e3, 4.6647963344],
      [1.4910792535e3, 3.9571156086e1],
      [5.8323836877e2, 2.8698696102e1],
      [7.5416644291e1, 5.567537027],
      [9.6629502864e-1, 3.1333340687e-2],
      [3.9797285797e-1, 1.4984928198e-2],
      [4.9727297349e-2, 6.5842344623e-3],
    ],
    residualStandardDeviation: 1.3714600784e1,
    residualSumOfSquares: 5.6427082397e3,
  },
  {
    name: "Rat43",
    difficulty: "higher",
    data: [
      1, 16.08, 2, 33.83, 3, 65.8, 4, 97.2, 5, 191.55, 6, 326.2, 7, 386.87, 8, 520.53, 9, 590.03, 10, 651.92,
      11, 724.93, 12, 699.56, 13, 689.96, 14, 637.56, 15, 717.41,
    ],
    model: ({ b1, b2, b3, b4 }, x) => b1 / (1 + Math.exp(b2 - b3 * x)) ** (1 / b4),
    starts: [
      [100, 10, 1, 1],
      [700, 5, 0.75, 1.3],
    ],
    certified: [
      [6.996415127e2, 1.6302297817e1],
      [5.2771253025, 2.0828735829],
      [7.5962938329e-1, 1.9566123451e-1],
      [1.2792483859, 6.8761936385e-1],
    ],
    residualStandardDeviation: 2.8262414662e1,
    residualSumOfSquares: 8.786404908e3,
  },
];

/** Number of digits that agree with a certified value. */
const digits = (value: number, certified: number): number =>
  -Math.log10(Math.abs(value / certified - 1) + 1e-12);

const cases = references.flatMap((reference) =>
  reference.starts.map(
    (start, at) => [reference.name, reference.difficulty, at + 1, reference, start] as const,
  ),
);

describe("nonlinear least squares against certified values", () => {
  test.each(cases)("%s (%s difficulty), start %d", (_name, _difficulty, _start, reference, start) => {
    const { data, model, certified, residualSumOfSquares, residualStandardDeviation } = reference;
    const fit = statistics.fitLeastSquares({
      x: data.filter((_, at) => at % 2 === 0),
      y: data.filter((_, at) => at % 2 === 1),
      model,
      start: Object.fromEntries(start.map((value, at) => [`b${at + 1}`, value])),
    });
    certified.forEach(([value, standardDeviation], at) => {
      const { estimate, standardError } = fit.parameters[at];
      expect(digits(estimate, value)).toBeGreaterThanOrEqual(7);
      expect(digits(standardError, standardDeviation)).toBeGreaterThanOrEqual(6);
    });
    expect(digits(fit.residualSumOfSquares, residualSumOfSquares)).toBeGreaterThanOrEqual(9);
    expect(digits(fit.residualStandardError, residualStandardDeviation)).toBeGreaterThanOrEqual(9);
    expect(fit.degreesOfFreedom).toBe(data.length / 2 - certified.length);
  });
});
