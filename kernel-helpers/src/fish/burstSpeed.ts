import { defineFormula } from "../formula/formula";
import { length, printValue, temperature } from "../formula/input";
import { memory } from "../formula/source";
import { usualSizes } from "../formula/usualSizes";

/** Both formulas know a fish by its length alone. */
const slowSwimmers = (): readonly string[] => [
  "from length alone: eel-like fish and burbot swim slower than it says (common practice).",
];

/**
 * Speed that a fish can reach for a few seconds, from its length.
 *
 * Returns the speed in metres per second. Valid as an average over species; the water's temperature is left out.
 *
 * @example
 * fish.burstSpeed({ totalLength: u.mm(200) }) // => 1.88 m/s
 */
export const burstSpeed = defineFormula({
  id: "fish.burstSpeed",
  title: "Burst speed",
  symbol: "u_b",
  result: "velocity",
  inputs: { totalLength: length("L", { above: 0, unit: "mm", usual: usualSizes.totalLength }) },
  tex: (q) => `0.4\\,\\mathrm{m/s} + 7.4\\,\\mathrm{s^{-1}} \\cdot ${q.totalLength}`,
  source: memory("Videler 1993, Fish Swimming"),
  validity: "an average over species; temperature left out",
  caution: slowSwimmers,
  evaluate: ({ totalLength }) => 0.4 + 7.4 * totalLength,
});

/** Twitch time of the swimming muscle in seconds: the shortest time for half a beat of the tail. */
const contractionTime = (totalLength: number, celsius: number): number => {
  const scale = totalLength ** 0.4288;
  return 0.17 * scale + 0.0028 * Math.log(celsius) - 0.0425 * scale * Math.log(celsius) - 0.0077;
};

/**
 * Speed that a fish can reach for a few seconds, from its length and the water's temperature.
 *
 * Returns the speed in metres per second: a stride of 0.7 body lengths in two contractions of the muscle. Valid above
 * 0 °C; refused where the fitted contraction time is no longer positive.
 *
 * @example
 * fish.burstSpeedAtTemperature({ totalLength: u.mm(200), temperature: u.degC(10) }) // => 2.0042 m/s
 */
export const burstSpeedAtTemperature = defineFormula({
  id: "fish.burstSpeedAtTemperature",
  title: "Burst speed at a water temperature",
  symbol: "u_b",
  result: "velocity",
  inputs: {
    totalLength: length("L", { above: 0, unit: "mm", usual: usualSizes.totalLength }),
    temperature: temperature("T", { above: 0 }),
  },
  steps: {
    contractionTime: {
      title: "Contraction time of the muscle",
      symbol: "t_m",
      result: "time",
      tex: (q) =>
        `\\left[0.1700\\left(\\tfrac{${q.totalLength}}{1\\,\\mathrm{m}}\\right)^{0.4288} + ` +
        `0.0028 \\ln\\tfrac{${q.temperature}}{1\\,^\\circ\\mathrm{C}} - ` +
        `0.0425\\left(\\tfrac{${q.totalLength}}{1\\,\\mathrm{m}}\\right)^{0.4288} ` +
        `\\ln\\tfrac{${q.temperature}}{1\\,^\\circ\\mathrm{C}} - 0.0077\\right]\\mathrm{s}`,
      evaluate: ({ totalLength, temperature: celsius }) => contractionTime(totalLength, celsius),
    },
  },
  tex: (q, steps) => `\\frac{0.7 \\cdot ${q.totalLength}}{2 \\cdot ${steps.contractionTime}}`,
  source: memory("Wardle 1975, Nature 255:725; Zhou 1982; Beach 1984, Fish. Res. Tech. Rep. 78"),
  validity: "above 0 °C, where the fitted contraction time is positive",
  refuse: ({ totalLength, temperature: celsius }) =>
    contractionTime(totalLength, celsius) > 0
      ? undefined
      : `the fitted contraction time is not positive for ${printValue(totalLength, "length")} at ` +
        `${printValue(celsius, "temperature")}; the fit does not reach fish so small or water so warm.`,
  caution: slowSwimmers,
  evaluate: ({ totalLength, temperature: celsius }) =>
    (0.7 * totalLength) / (2 * contractionTime(totalLength, celsius)),
});
