import { seededDraws } from "../../data-demo/generators/random";
import type { TrialFish } from "../../kernel-helpers/src/protection";

/** A made-up trial: fish of even relative widths, in runs that may have an effect of their own on the logit. */
export interface MadeUpTrial {
  readonly share: (relativeWidth: number) => number;
  readonly runs?: number;
  readonly fishPerRun?: number;
  readonly runSpread?: number;
}

/** Relative widths of made-up trials, all equally likely. */
export const trialWidths = Array.from({ length: 46 }, (_, at) => (at + 2) / 40);

/** The share with an effect on the logit; certainties stay certain. */
export function moved(share: number, effect: number): number {
  if (share === 0 || share === 1) return share;
  return 1 / (1 + ((1 - share) / share) * Math.exp(-effect));
}

/** Draws the fish of a made-up trial; every fish names its run. */
export function madeUpTrial(seed: number, trial: MadeUpTrial): (TrialFish & { readonly cluster: string })[] {
  const { share, runs = 80, fishPerRun = 4, runSpread = 0 } = trial;
  const draws = seededDraws(seed);
  return Array.from({ length: runs }, (_, run) => {
    const effect = runSpread === 0 ? 0 : draws.normal(0, runSpread);
    return Array.from({ length: fishPerRun }, () => {
      const relativeWidth = trialWidths[draws.integer(0, trialWidths.length - 1)];
      return {
        relativeWidth,
        held: draws.uniform() < moved(share(relativeWidth), effect),
        cluster: `run ${run}`,
      };
    });
  }).flat();
}

/** What endless fish would show: the share averaged over the runs' effects, as counts. */
export function endlessTrial({ share, runSpread = 0 }: MadeUpTrial): TrialFish[] {
  const fish = 1_000_000;
  const effects = Array.from({ length: 121 }, (_, at) => (at - 60) / 10);
  const weights = effects.map((z) => Math.exp((-z * z) / 2));
  const all = weights.reduce((sum, one) => sum + one, 0);
  return trialWidths.map((relativeWidth) => {
    const mean = effects.reduce(
      (sum, z, at) => sum + (weights[at] / all) * moved(share(relativeWidth), runSpread * z),
      0,
    );
    return { relativeWidth, held: Math.round(fish * mean), fish };
  });
}

export const withoutRuns = (fish: readonly TrialFish[]): TrialFish[] =>
  fish.map(({ relativeWidth, held }) => ({ relativeWidth, held }));
