import type { Draws } from "./random";

/** What decides the fate of one trial fish, beside the run it swam in. */
export interface TrialLaw {
  /** Protection is ((w − threshold) / (1 − threshold))^exponent of the relative width w, 0 below, 1 from w = 1. */
  readonly threshold: number;
  readonly exponent: number;
  /** Moves of the protection on the logit. */
  readonly lightEffect: number;
  readonly bubblesEffect: number;
  /** A m/s of approach velocity above the reference. */
  readonly velocityEffect: number;
  readonly referenceVelocity: number;
  /** The species that lies off the curve: its move on the logit. */
  readonly silverEelEffect: number;
  readonly runSpread: number;
  readonly batchSpread: number;
  /** Inactive fish: logit at 12 °C, its change a degree, its spread from run to run. */
  readonly inactiveLogit: number;
  readonly inactivePerDegree: number;
  readonly inactiveRunSpread: number;
  /** Impinged fish among those that do not go through the rack. */
  readonly impingedLogit: number;
  readonly impingedPerVelocity: number;
  /** Times in minutes. */
  readonly meanDelay: number;
  readonly rackMedianTime: number;
  readonly rackTimeSpread: number;
  readonly bypassMeanTime: number;
  readonly bestEntranceRatio: number;
  readonly entranceRatioCurvature: number;
  /** Share of the fish kept off the rack that never look for a way on. */
  readonly neverLooking: number;
}

/** The conditions of a run, and its own departures from the law. */
export interface RunConditions {
  readonly temperature: number;
  readonly approachVelocity: number;
  readonly entranceVelocityRatio: number;
  readonly cue: "none" | "light" | "bubbles";
  readonly runDuration: number;
  readonly runEffect: number;
  readonly inactiveEffect: number;
}

export type Outcome = "bypassed" | "rackPassed" | "refused" | "impinged" | "inactive";

/** Returns the law's protection at the reference velocity, without cue and without effects. */
export function trialRamp(law: TrialLaw, relativeWidth: number): number {
  if (relativeWidth >= 1) return 1;
  if (relativeWidth <= law.threshold) return 0;
  return ((relativeWidth - law.threshold) / (1 - law.threshold)) ** law.exponent;
}

/** Returns the share of such fish that do not go through the rack; a blocked fish never does. */
export function protectionInRun(
  law: TrialLaw,
  run: RunConditions,
  species: string,
  relativeWidth: number,
): number {
  const ramp = trialRamp(law, relativeWidth);
  if (ramp === 0 || ramp === 1) return ramp;
  const cue = { none: 0, light: law.lightEffect, bubbles: law.bubblesEffect }[run.cue];
  const move =
    cue +
    law.velocityEffect * (run.approachVelocity - law.referenceVelocity) +
    (species === "silver eel" ? law.silverEelEffect : 0) +
    run.runEffect;
  return logistic(Math.log(ramp / (1 - ramp)) + move);
}

/**
 * Draws the fate of one fish: first whether it moves, then whether the rack holds it, then when.
 *
 * Returns the outcome and its time in minutes, absent for fish that took no route. A time beyond the end of the run
 * makes the fish refused, whichever way it would have gone.
 */
export function drawFate(
  law: TrialLaw,
  run: RunConditions,
  protection: number,
  draws: Draws,
): { outcome: Outcome; outcomeTime?: number } {
  const inactive = logistic(
    law.inactiveLogit + law.inactivePerDegree * (run.temperature - 12) + run.inactiveEffect,
  );
  if (draws.uniform() < inactive) return { outcome: "inactive" };

  const delay = exponential(draws, law.meanDelay);
  const within = (outcome: Outcome, time: number) =>
    time < run.runDuration ? { outcome, outcomeTime: time } : ({ outcome: "refused" } as const);

  if (draws.uniform() >= protection) {
    return within("rackPassed", delay + draws.lognormal(law.rackMedianTime, law.rackTimeSpread));
  }
  const velocityAbove = run.approachVelocity - law.referenceVelocity;
  if (draws.uniform() < logistic(law.impingedLogit + law.impingedPerVelocity * velocityAbove)) {
    return within("impinged", delay + exponential(draws, run.runDuration / 3));
  }
  if (draws.uniform() < law.neverLooking) return { outcome: "refused" };
  const offBest = run.entranceVelocityRatio - law.bestEntranceRatio;
  const meanTime = law.bypassMeanTime * Math.exp(law.entranceRatioCurvature * offBest ** 2);
  return within("bypassed", delay + exponential(draws, meanTime));
}

export function logistic(x: number): number {
  return 1 / (1 + Math.exp(-x));
}

function exponential(draws: Draws, mean: number): number {
  return -mean * Math.log(1 - draws.uniform());
}
