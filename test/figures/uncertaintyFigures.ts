import * as figures from "../../kernel-helpers/src/figures";

const steps = (scale: number, rate: number): figures.RunningEstimate[] =>
  Array.from({ length: 7 }, (_, at) => {
    const draws = 256 * 2 ** at;
    const standardError = scale * (256 / draws) ** rate;
    return { draws, value: 0.951 + 1.2 * standardError * Math.sin(3 * at), standardError };
  });

/** Swings and running estimates, with long names. */
export const uncertaintyFigures: Readonly<Record<string, figures.FigureSpec>> = {
  tornado: figures.tornado({
    title: "Total survival of a fish of 120 mm, one input at a time",
    x: { title: "Total survival", unit: "%" },
    middle: 0.952,
    between: [0.05, 0.95],
    names: { protectedSurvival: "survival of protected fish, bypassed and refused" },
    swings: [
      { input: "protectedSurvival", atLower: 0.925, atUpper: 0.967 },
      { input: "turbine mortality", atLower: 0.964, atUpper: 0.938 },
      { input: "protection curve", atLower: 0.947, atUpper: 0.958 },
      { input: "body ratio", atLower: 0.949, atUpper: 0.954 },
      { input: "clear spacing", atLower: 0.953, atUpper: 0.951 },
    ],
  }),
  convergence: figures.convergence({
    title: "Mean survival: random numbers and Sobol's sequence",
    y: { title: "Mean total survival", unit: "%" },
    series: [
      { name: "random numbers", steps: steps(0.002, 0.5) },
      { name: "Sobol's sequence", steps: steps(0.0006, 0.95) },
    ],
    truth: 0.951,
  }),
};
