import type { MeasuredFactor } from "./reduceTrials";

const positive = (value: unknown): boolean =>
  typeof value === "number" && Number.isFinite(value) && value > 0;

/** Throws the sentences of all trials that a law can't be fitted to. */
export function checkFactors(caller: string, trials: readonly MeasuredFactor[]): void {
  const faults = trials.flatMap((trial, at) => {
    const name = trial.trialId === undefined ? `trial ${at + 1}` : `trial ${trial.trialId}`;
    const { debrisMass, rackArea, clearSpacing, lossFactor, relativeError } = trial;
    const needed = [
      ["debrisMass", debrisMass, "above 0 kg: the factor of a clean rack is 1 by definition"],
      ["rackArea", rackArea, "above 0 m²"],
      ["clearSpacing", clearSpacing, "above 0 mm"],
      ["lossFactor", lossFactor, "above 0: clogged over clean head loss"],
    ] as const;
    return [
      ...needed.flatMap(([input, value, allowed]) =>
        positive(value) ? [] : [`${name}: ${input} is ${String(value)}; it must be ${allowed}.`],
      ),
      ...(relativeError === undefined || positive(relativeError)
        ? []
        : [
            `${name}: relativeError is ${String(relativeError)}; it must be above 0, or be left out for every trial.`,
          ]),
    ];
  });
  const stated = trials.filter(({ relativeError }) => relativeError !== undefined).length;
  if (stated > 0 && stated < trials.length) {
    faults.push(
      `${stated} of ${trials.length} trials have a relativeError; give it for all of them or for none.`,
    );
  }
  if (trials.length === 0) faults.push("there are no trials to fit a law to.");
  if (faults.length > 0) throw new RangeError(faults.map((fault) => `${caller}: ${fault}`).join("\n"));
}
