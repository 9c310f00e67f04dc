import { noteUse } from "../formula/usage";
import type { Length } from "../quantity/dimension";
import { injuryShareByLength, injuryShareVonRaben } from "./injuryShare";
import { type InjuryShare, isRegression, type Regression, type Strike, type TurbineModel } from "./model";
import { type Passage, passageOf } from "./passage";
import { turbineSurvival } from "./survival";

/** Turbine survival as a function of total length alone: call it with a length, it returns a share 0..1. */
export interface TurbineSurvivalLaw {
  (totalLength: Length): number;
  readonly model: TurbineModel["model"];
  readonly title: string;
  /** Strike probability at a length; undefined for a regression, which gives mortality itself. */
  readonly strike: ((totalLength: Length) => number) | undefined;
  /** Whether every input lies in the range that its source tested, as far as that range is known. */
  readonly tested: (totalLength: Length) => boolean;
  /** What to keep in mind about the result at a length. */
  readonly cautions: (totalLength: Length) => readonly string[];
}

const shareLaws: Readonly<Record<Exclude<InjuryShare, number>, (totalLength: number) => number>> = {
  vonRaben: () => injuryShareVonRaben.evaluate({}),
  byLength: (totalLength) => injuryShareByLength.evaluate({ totalLength }),
};

const countedTwice =
  "turbine.survivalLaw: the correlation factor is already the share of strikes that harm; an injury share below 1 beside " +
  "it counts the same mercy twice and makes the turbine look harmless.";

const shareFormulas = { vonRaben: injuryShareVonRaben.id, byLength: injuryShareByLength.id } as const;

/**
 * Turbine survival by one model, as a law of length.
 *
 * Returns a function of total length that gives a share 0..1, with its title, cautions and tested range. Valid where
 * the model's formulas are; each says so in its cautions. A strike model with a correlation factor takes no injury share
 * on top: it is 1 where it is left out, and a share below 1 raises a caution. Throws a RangeError for a model that does
 * not fit the unit, for numbers that the model needs and the unit lacks, and for everything that the model's formulas
 * refuse.
 *
 * @example
 * turbine.survivalLaw({ model: "kaplanEel", unit: { type: "kaplan", discharge: u.m3ps(17), head: u.m(5.3),
 *   rotationalSpeed: u.rpm(187.5), blades: 4, efficiency: 0.9, runnerDiameter: u.m(1.95) } })(u.mm(700)) // => 0.5462
 */
export function survivalLaw(choice: TurbineModel): TurbineSurvivalLaw {
  const passage = passageOf(choice);
  passage.formulas.forEach(noteUse);
  return isRegression(choice) ? regressionLaw(choice, passage) : strikeLaw(choice, passage);
}

function regressionLaw(choice: Regression, passage: Passage): TurbineSurvivalLaw {
  const refused = ["injuryShare", "pressureMortality", "correlation", "radiusRatio"].filter(
    (name) => name in choice,
  );
  if (refused.length > 0) {
    throw new RangeError(
      `turbine.survivalLaw: ${refused.join(" and ")} does not belong to ${choice.model}; ` +
        "a regression already counts strike, injury and pressure.",
    );
  }
  return Object.assign((totalLength: Length) => 1 - passage.probability(totalLength), {
    model: choice.model,
    title: passage.title,
    strike: undefined,
    tested: passage.tested,
    cautions: passage.cautions,
  });
}

function strikeLaw(choice: Strike, passage: Passage): TurbineSurvivalLaw {
  const { pressureMortality = 0 } = choice;
  const isCorrelated = choice.model !== "waterLengthStrike";
  const injuryShare = isCorrelated ? (choice.injuryShare ?? 1) : choice.injuryShare;
  const share = shareOf(injuryShare);
  // One checked call refuses a wrong share or pressure mortality; the loops then run bare.
  turbineSurvival({
    strikeProbability: 0,
    injuryShare: typeof injuryShare === "number" ? injuryShare : 0,
    pressureMortality,
  });
  if (typeof injuryShare === "string") noteUse(shareFormulas[injuryShare]);
  const survival = (totalLength: Length): number =>
    turbineSurvival.evaluate({
      strikeProbability: passage.probability(totalLength),
      injuryShare: share(totalLength),
      pressureMortality,
    });
  return Object.assign(survival, {
    model: choice.model,
    title: strikeTitle(choice, passage),
    strike: passage.probability,
    tested: passage.tested,
    cautions: (totalLength: Length) => [
      ...passage.cautions(totalLength),
      ...(isCorrelated && share(totalLength) < 1 ? [countedTwice] : []),
      ...(pressureMortality === 0
        ? [
            "turbine.survivalLaw: no mortality from falling pressure is counted; state pressureMortality where it matters.",
          ]
        : []),
    ],
  });
}

function shareOf(injuryShare: InjuryShare): (totalLength: number) => number {
  if (typeof injuryShare === "number") return () => injuryShare;
  if (Object.hasOwn(shareLaws, injuryShare)) return shareLaws[injuryShare];
  throw new RangeError(
    `turbine.survivalLaw: injuryShare is "${String(injuryShare)}"; give "vonRaben", "byLength" or a share from 0 to 1.`,
  );
}

function strikeTitle(choice: Strike, passage: Passage): string {
  if (choice.model === "waterLengthStrike") return `${passage.title}, ${shareTitle(choice.injuryShare)}`;
  const { correlation, injuryShare = 1 } = choice;
  const title = `${passage.title}, correlation ${correlation}`;
  return injuryShare === 1 ? title : `${title}, ${shareTitle(injuryShare)}`;
}

const shareTitle = (injuryShare: InjuryShare): string =>
  typeof injuryShare === "number"
    ? `${injuryShare} of struck fish injured`
    : injuryShare === "vonRaben"
      ? "constant injured share"
      : "injured share by length";
