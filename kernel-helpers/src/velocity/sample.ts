import { refuse } from "../statistics/checks";

/** One sample of a probe: time in s, components in m/s, correlation of the signal in per cent. */
export interface ProbeSample {
  readonly time: number;
  readonly velocityX: number;
  readonly velocityY: number;
  readonly velocityZ: number;
  readonly correlation: number;
}

/** A component of the velocity: along the flow, across it, upwards. */
export type Component = "velocityX" | "velocityY" | "velocityZ";

export const components: readonly Component[] = ["velocityX", "velocityY", "velocityZ"];

/** Fewer samples give neither a threshold nor an error that means anything. */
export const fewestSamples = 100;

/** Refuses a record that is too short, holds no numbers, or whose samples are not evenly spaced in time; returns the median step in s. */
export function checkSamples(where: string, samples: readonly ProbeSample[]): number {
  if (samples.length < fewestSamples) {
    refuse(where, `the record has ${samples.length} samples; it must have at least ${fewestSamples}`);
  }
  samples.forEach((sample, at) => {
    for (const name of ["time", ...components] as const) {
      if (typeof sample[name] !== "number" || !Number.isFinite(sample[name])) {
        refuse(where, `${name} of sample ${at + 1} is ${String(sample[name])}; it must be a finite number`);
      }
    }
    if (!(sample.correlation >= 0 && sample.correlation <= 100)) {
      refuse(
        where,
        `correlation of sample ${at + 1} is ${String(sample.correlation)}; it must lie from 0 to 100, in per cent`,
      );
    }
  });
  const steps = samples.slice(1).map(({ time }, at) => time - samples[at].time);
  const step = steps.toSorted((a, b) => a - b)[Math.floor(steps.length / 2)];
  steps.forEach((one, at) => {
    if (one <= 0) {
      refuse(
        where,
        `sample ${at + 2} is at ${samples[at + 1].time} s, not after the one before it at ${samples[at].time} s; sort the record by time and keep each sample once`,
      );
    }
    // Times written with two decimals differ by up to one of them.
    if (one > 1.5 * step || one < 0.5 * step) {
      refuse(
        where,
        `from ${samples[at].time} s to ${samples[at + 1].time} s the step is ${one.toPrecision(3)} s, elsewhere ${step.toPrecision(3)} s; samples must be evenly spaced: cut the record there, or enter the missing samples with correlation 0`,
      );
    }
  });
  return step;
}
