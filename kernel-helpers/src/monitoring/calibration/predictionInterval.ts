import { checkLevel, checkNumber, checkWhole, refuse } from "../../statistics/checks";
import { checkSeed, uniforms } from "../../statistics/random";
import type { GearEfficiencies } from "../gearEfficiency";
import { expit, gearMove, logit, perfectNets } from "../guidance";

/** Where an observed share should lie if a prediction holds. */
export interface PredictionInterval {
  readonly method: "simulated campaigns: curve, nights, counts and nets; percentiles";
  readonly predicted: number;
  readonly lower: number;
  readonly upper: number;
  readonly level: number;
  readonly simulations: number;
  readonly seed: number;
  readonly caution: string | undefined;
}

/**
 * Interval in which the observed share of a class should lie if the prediction holds, from simulated campaigns.
 *
 * Returns the percentiles of the share over campaigns with as many fish in each night as were caught. Each campaign draws
 * the error of the curve once, the effect of each night (both normal on the logit), the way of each fish, and the error of
 * the nets. A prediction of 0 or 1 leaves no room for chance: its interval has no width, and `caution` says so. Valid as far
 * as the two errors are: they are inputs. `resampled` takes the shares that resamples of the curve predict, in place of
 * `curveError`. Throws a RangeError for shares outside 0..1, errors below 0, nights without fish and a seed that is not whole.
 *
 * @example
 * monitoring.predictionInterval({ predicted: 0.5, trials: [10, 10, 10], curveError: 0, nightSpread: 0, seed: 1 }).predicted
 * // => 0.5
 */
export function predictionInterval({
  predicted,
  trials,
  curveError = 0,
  resampled,
  nightSpread,
  gear = perfectNets,
  seed,
  simulations = 1000,
  level = 0.95,
}: {
  readonly predicted: number;
  /** Fish caught in both nets, night by night. */
  readonly trials: readonly number[];
  /** Standard error of the curve on the logit; none unless told. */
  readonly curveError?: number;
  /** What resampled curves predict for this class, from which each campaign takes one. */
  readonly resampled?: readonly number[];
  /** Standard deviation of a night's effect on the logit. */
  readonly nightSpread: number;
  readonly gear?: GearEfficiencies;
  readonly seed: number;
  readonly simulations?: number;
  readonly level?: number;
}): PredictionInterval {
  const where = "monitoring.predictionInterval";
  checkNumber(where, "predicted", predicted, { atLeast: 0, atMost: 1 });
  checkNumber(where, "curveError", curveError, { atLeast: 0 });
  if (resampled !== undefined) checkResampled(where, resampled, curveError);
  checkNumber(where, "nightSpread", nightSpread, { atLeast: 0 });
  trials.forEach((fish, night) => checkWhole(where, `trials[${night}]`, fish, 0, 1_000_000));
  const fish = trials.reduce((sum, count) => sum + count, 0);
  if (fish === 0) refuse(where, "no night has fish; there is nothing to predict");
  checkSeed(where, seed);
  checkWhole(where, "simulations", simulations, 100, 1_000_000);
  checkLevel(where, level);
  const { move, error } = gearMove(where, gear);
  const about = {
    method: "simulated campaigns: curve, nights, counts and nets; percentiles",
    predicted,
    level,
    simulations,
    seed,
  } as const;
  if ((resampled ?? []).concat(predicted).every((share) => share === 0 || share === 1)) {
    const caution = `The prediction is ${predicted}: it leaves no room for chance, and one fish the other way contradicts it.`;
    return { ...about, lower: predicted, upper: predicted, caution };
  }

  const uniform = uniforms(seed);
  // One of the two normal numbers of Box and Muller (1958); 1 − u is never 0.
  const normal = (): number => Math.sqrt(-2 * Math.log(1 - uniform())) * Math.cos(2 * Math.PI * uniform());
  const shares = Array.from({ length: simulations }, () => {
    const drawn = resampled === undefined ? predicted : resampled[Math.floor(uniform() * resampled.length)];
    const curve = logit(drawn) + curveError * normal();
    let bypassed = 0;
    for (const count of trials) {
      const share = expit(curve + nightSpread * normal() + move);
      for (let one = 0; one < count; one++) if (uniform() < share) bypassed++;
    }
    // The observed share is corrected with efficiencies that have their own error.
    return expit(logit(bypassed / fish) - move + error * normal());
  }).toSorted((a, b) => a - b);
  const at = (share: number): number => shares[Math.round(share * (simulations - 1))];
  return {
    ...about,
    lower: at((1 - level) / 2),
    upper: at((1 + level) / 2),
    caution: fish < 10 ? `Only ${fish} fish: the interval is wide whatever the prediction.` : undefined,
  };
}

function checkResampled(where: string, resampled: readonly number[], curveError: number): void {
  if (curveError > 0)
    refuse(where, "both resampled and curveError are given; the error of the curve would count twice");
  if (resampled.length < 20)
    refuse(where, `resampled has ${resampled.length} shares; percentiles need at least 20`);
  resampled.forEach((share, at) => checkNumber(where, `resampled[${at}]`, share, { atLeast: 0, atMost: 1 }));
}
