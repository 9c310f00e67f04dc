import * as figures from "../../kernel-helpers/src/figures";

const blockage = Array.from({ length: 40 }, (_, i) => 0.2 + (0.25 * i) / 39);
const loss = (scale: number, at: number): number => scale * (at / (1 - at)) ** 1.5;
const wobble = (i: number): number => Math.sin(7 * i);
const shapes = [
  { name: "rectangular", scale: 2.6 },
  { name: "rounded", scale: 2.05 },
  { name: "foil", scale: 1.4 },
];

/** A fitted loss law with its runs, and what is left of them. */
export const lawFigures: Readonly<Record<string, figures.FigureSpec>> = {
  residuals: figures.residuals({
    title: "What the law of the rack losses leaves",
    x: { title: "Loss coefficient by the law", unit: "" },
    limit: 2,
    groups: shapes.map(({ name, scale }, group) => ({
      name,
      x: Array.from({ length: 40 }, (_, i) => loss(scale, blockage[i])),
      residuals: Array.from({ length: 40 }, (_, i) => 2.2 * wobble(i + 100 * group)),
    })),
  }),
  fittedCurves: figures.fittedCurves({
    title: "Loss coefficient by shape",
    x: { title: "Blockage", unit: "%", values: blockage },
    y: { title: "Loss coefficient", unit: "" },
    note: "band: where 95 % of further runs lie",
    curves: shapes.map(({ name, scale }, group) => ({
      name,
      values: blockage.map((at) => loss(scale, at)),
      band: [blockage.map((at) => 0.95 * loss(scale, at)), blockage.map((at) => 1.05 * loss(scale, at))],
      measured: {
        x: [0.22, 0.3, 0.34, 0.43],
        y: [0.22, 0.3, 0.34, 0.43].map((at, i) => loss(scale, at) * (1 + 0.03 * wobble(i + group))),
        errors: [0.02, 0.02, 0.02, 0.02],
      },
    })),
  }),
};
