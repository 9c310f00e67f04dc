import { protectedSurvival } from "./total";

/** One way to read "protected", and the survival of protected fish that follows from it. */
export interface Reading {
  readonly reading: "allProtectedSurvive" | "onlyGuidedSurvive" | "refusalsHaveTheirOwnFate";
  /** The assumption in words, to show beside every number that rests on it. */
  readonly assumption: string;
  readonly protectedSurvival: number;
}

/**
 * Three readings of protected fish: all survive; only guided fish do; guided and refused fish each have their fate.
 *
 * Returns the three with their protected survival 0..1, to pass on as `protectedSurvival`. Throws a RangeError for
 * shares outside 0..1.
 *
 * @example
 * survival.readings({ refusedShare: 0.2, guidedSurvival: 0.98, refusedSurvival: 0.7 })[1].protectedSurvival // => 0.784
 */
export function readings(fates: {
  /** Share of the protected fish that refused. */
  readonly refusedShare: number;
  readonly guidedSurvival: number;
  readonly refusedSurvival: number;
}): readonly [Reading, Reading, Reading] {
  const { refusedShare, guidedSurvival } = fates;
  return [
    {
      reading: "allProtectedSurvive",
      assumption: "every protected fish survives, guided or refused",
      protectedSurvival: protectedSurvival({ refusedShare, guidedSurvival: 1, refusedSurvival: 1 }),
    },
    {
      reading: "onlyGuidedSurvive",
      assumption: "guided fish survive at their rate; every fish that refused is lost",
      protectedSurvival: protectedSurvival({ refusedShare, guidedSurvival, refusedSurvival: 0 }),
    },
    {
      reading: "refusalsHaveTheirOwnFate",
      assumption: "guided fish and fish that refused survive each at their own rate",
      protectedSurvival: protectedSurvival(fates),
    },
  ];
}
