import { checkLevel, checkNumber, checkWhole, refuse } from "../../statistics/checks";
import { normalQuantile } from "../../statistics/distributions";
import { cumulative, clusterDraws } from "../../statistics/planning/clusterLaw";
import { checkSeed, uniforms } from "../../statistics/random";

/** What is known, or assumed, of a release experiment beforehand. */
export interface PlannedReleases {
  /** Survival of the passage alone that is expected: treated over control. */
  readonly relativeSurvival: number;
  /** Share of the control fish expected to be seen again, alive: survival of handling and way times the chance to be seen. */
  readonly controlSeen: number;
  /** Half the width of the interval that is wanted. */
  readonly halfWidth: number;
  /** 0.95 unless told otherwise. */
  readonly level?: number;
  /** Control fish for each treated one; the best ratio where it is not given. */
  readonly controlsPerTreated?: number;
  /** Fish of one lot, set free together, and how alike two of them are; single fish unless told otherwise. */
  readonly fishPerLot?: number;
  readonly intraclassCorrelation?: number;
  readonly seed: number;
  /** Simulated experiments, 2000 unless told otherwise. */
  readonly simulations?: number;
}

/** Fish to release, and what simulated releases of as many gave. */
export interface FishToRelease {
  readonly method: string;
  readonly level: number;
  /** Fish of each group, in whole lots. */
  readonly treated: number;
  readonly control: number;
  readonly controlsPerTreated: number;
  /** Standard error of the relative survival by the delta method, for these numbers. */
  readonly standardError: number;
  readonly halfWidth: number;
  readonly designEffect: number;
  /** Standard deviation of the estimates over the simulated experiments, and the error that the simulation leaves on it. */
  readonly simulatedError: number;
  readonly simulatedErrorError: number;
  /** Simulated experiments in which no fish of a group was seen again. */
  readonly withoutEstimate: number;
  /** How often an interval that takes the fish to be independent holds the truth. */
  readonly coverage: number;
  readonly coverageError: number;
  readonly seed: number;
  readonly simulations: number;
  readonly cautions: readonly string[];
}

const where = "monitoring.fishToRelease";

/** Variance of the logarithm of the share seen, for one fish: (1 − P)/P. */
const oneFish = (seen: number): number => (1 - seen) / seen;

/**
 * How many treated and control fish to release for a wanted precision of the survival of a passage.
 *
 * Returns whole lots of both groups, the standard error of the ratio of the shares seen by the delta method,
 * τ² [(1 − P)/(R P) + (1 − P′)/(R′ P′)] (first-capture form, Burnham et al. 1987, Am. Fish. Soc. Monograph 5), and the
 * spread of the estimates over simulated releases. Where `controlsPerTreated` is not given, the ratio with the fewest fish
 * in all is taken. Fish of one lot that fare alike widen the variance by 1 + (m − 1)ρ. Valid where both groups are seen
 * with the same chance. Throws a RangeError for shares outside 0..1 and where treated fish would be seen more often than
 * all of them.
 *
 * @example
 * monitoring.fishToRelease({ relativeSurvival: 0.9, controlSeen: 0.8, halfWidth: 0.05, seed: 1 }).treated // => 873
 */
export function fishToRelease(options: PlannedReleases): FishToRelease {
  check(options);
  const { relativeSurvival, controlSeen, level = 0.95, seed, simulations = 2000 } = options;
  const { fishPerLot = 1, intraclassCorrelation = 0 } = options;
  const treatedSeen = relativeSurvival * controlSeen;
  const [treatedVariance, controlVariance] = [oneFish(treatedSeen), oneFish(controlSeen)];
  const ratio = options.controlsPerTreated ?? Math.sqrt(controlVariance / treatedVariance);
  const designEffect = 1 + (fishPerLot - 1) * intraclassCorrelation;
  const z = normalQuantile((1 + level) / 2);
  const wantedError = options.halfWidth / z;
  const perTreated = relativeSurvival ** 2 * designEffect * (treatedVariance + controlVariance / ratio);
  const lots = (fish: number): number => fishPerLot * Math.max(2, Math.ceil(fish / fishPerLot - 1e-9));
  const treated = lots(perTreated / wantedError ** 2);
  const control = lots((ratio * perTreated) / wantedError ** 2);
  if (treated + control > 1_000_000)
    refuse(
      where,
      `halfWidth is ${options.halfWidth}; that would need more than a million fish: ask for less`,
    );
  const standardError =
    relativeSurvival * Math.sqrt(designEffect * (treatedVariance / treated + controlVariance / control));
  const simulated = simulate(options, { treated, control, z, simulations });
  return {
    method: "ratio of the shares seen, delta method; beside it simulated releases",
    level,
    treated,
    control,
    controlsPerTreated: ratio,
    standardError,
    halfWidth: z * standardError,
    designEffect,
    ...simulated,
    seed,
    simulations,
    cautions: cautionsOf(options, simulated, { treated, control, level }),
  };
}

function check(options: PlannedReleases): void {
  const { relativeSurvival, controlSeen, halfWidth, level = 0.95, controlsPerTreated, seed } = options;
  checkNumber(where, "relativeSurvival", relativeSurvival, { above: 0, atMost: 1 });
  checkNumber(where, "controlSeen", controlSeen, { above: 0, below: 1 });
  checkNumber(where, "halfWidth", halfWidth, { above: 0, below: 1 });
  checkLevel(where, level);
  if (controlsPerTreated !== undefined)
    checkNumber(where, "controlsPerTreated", controlsPerTreated, { above: 0, atMost: 100 });
  checkWhole(where, "fishPerLot", options.fishPerLot ?? 1, 1, 10_000);
  checkNumber(where, "intraclassCorrelation", options.intraclassCorrelation ?? 0, { atLeast: 0, below: 1 });
  checkSeed(where, seed);
  checkWhole(where, "simulations", options.simulations ?? 2000, 100, 100_000);
}

interface Numbers {
  readonly treated: number;
  readonly control: number;
  readonly z: number;
  readonly simulations: number;
}

/** Draws the numbers seen lot by lot, and looks at each experiment as one that takes its fish to be independent. */
function simulate(options: PlannedReleases, { treated, control, z, simulations }: Numbers) {
  const { relativeSurvival, controlSeen, seed } = options;
  const uniform = uniforms(seed);
  const drawTreated = seenOf(options, relativeSurvival * controlSeen, uniform);
  const drawControl = seenOf(options, controlSeen, uniform);
  const estimates: number[] = [];
  let held = 0;
  for (let done = 0; done < simulations; done++) {
    const [seen, seenControl] = [drawTreated(treated), drawControl(control)];
    // Where nobody of a group is seen again there is no estimate, and no interval that could hold the truth.
    if (seen === 0 || seenControl === 0) continue;
    const estimate = seen / treated / (seenControl / control);
    const error = Math.sqrt(1 / seen - 1 / treated + 1 / seenControl - 1 / control);
    if (Math.abs(Math.log(estimate / relativeSurvival)) <= z * error) held += 1;
    estimates.push(estimate);
  }
  const mean = estimates.reduce((sum, one) => sum + one, 0) / estimates.length;
  const squares = estimates.reduce((sum, one) => sum + (one - mean) ** 2, 0);
  const spread = Math.sqrt(squares / (estimates.length - 1));
  const coverage = held / simulations;
  return {
    withoutEstimate: simulations - estimates.length,
    simulatedError: spread,
    simulatedErrorError: spread / Math.sqrt(2 * (estimates.length - 1)),
    coverage,
    coverageError: Math.sqrt((coverage * (1 - coverage)) / simulations),
  };
}

/** Numbers seen of so many fish: at once where fish are independent, lot by lot where they are alike. */
function seenOf(
  { fishPerLot = 1, intraclassCorrelation = 0 }: PlannedReleases,
  share: number,
  uniform: () => number,
): (fish: number) => number {
  const lot = { trials: 0, successes: 0 };
  if (intraclassCorrelation > 0 && fishPerLot > 1) {
    const draw = clusterDraws({ clusterSize: fishPerLot, intraclassCorrelation }, share);
    return (fish) => {
      let seen = 0;
      for (let done = 0; done < fish; done += fishPerLot) {
        draw(uniform, lot);
        seen += lot.successes;
      }
      return seen;
    };
  }
  const tables = new Map<number, Float64Array>();
  return (fish) => {
    const steps = tables.get(fish) ?? cumulative(fish, share, 0);
    tables.set(fish, steps);
    const at = uniform();
    return steps.findIndex((step) => step > at);
  };
}

function cautionsOf(
  options: PlannedReleases,
  { coverage, coverageError }: { readonly coverage: number; readonly coverageError: number },
  { treated, control, level }: { readonly treated: number; readonly control: number; readonly level: number },
): readonly string[] {
  const { fishPerLot = 1, intraclassCorrelation = 0 } = options;
  return [
    "Released fish are live animals: permits and local law decide whether, how many and how.",
    ...(fishPerLot > 1 && intraclassCorrelation === 0
      ? ["Fish of one lot are taken to fare independently; few do: put in a correlation."]
      : []),
    ...(coverage + 2 * coverageError < level - 0.02
      ? [
          `An interval that takes the ${treated + control} fish to be independent holds the truth in ` +
            `${(100 * coverage).toFixed(1)} % of the simulated experiments only: analyse lots, not fish.`,
        ]
      : []),
  ];
}
