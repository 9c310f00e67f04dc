import { normalQuantile } from "../../kernel-helpers/src/statistics";
import { uniforms } from "../../kernel-helpers/src/statistics/random";
import type { ProbeSample } from "../../kernel-helpers/src/velocity";

/** Normal numbers with mean 0 and standard deviation 1 that depend on the seed alone. */
export function normals(seed: number): () => number {
  const uniform = uniforms(seed);
  return () => normalQuantile(Math.min(1 - 1e-12, Math.max(1e-12, uniform())));
}

/** A steady series with mean 0, standard deviation 1 and a correlation r, r², r³ … */
export function persistent(normal: () => number, count: number, persistence: number): number[] {
  const keep = Math.sqrt(1 - persistence ** 2);
  let value = normal();
  return Array.from({ length: count }, () => {
    const now = value;
    value = persistence * value + keep * normal();
    return now;
  });
}

/** A probe's record without faults: means 0.5, 0.05 and 0 m/s, standard deviations 0.05, 0.035 and 0.025 m/s, 25 samples a second. */
export function cleanSamples(seed: number, count = 1500, persistence = 0.9): ProbeSample[] {
  const normal = normals(seed);
  const [x, y, z] = [0.05, 0.035, 0.025].map((deviation) =>
    persistent(normal, count, persistence).map((value) => deviation * value),
  );
  return x.map((_, at) => ({
    time: at / 25,
    velocityX: 0.5 + x[at],
    velocityY: 0.05 + y[at],
    velocityZ: z[at],
    correlation: 90,
  }));
}

/** The same record with some samples changed. */
export function changed(
  samples: readonly ProbeSample[],
  at: readonly number[],
  change: (sample: ProbeSample) => Partial<ProbeSample>,
): ProbeSample[] {
  return samples.map((sample, index) => (at.includes(index) ? { ...sample, ...change(sample) } : sample));
}
