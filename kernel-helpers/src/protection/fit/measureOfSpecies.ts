import { checkNumber, refuse } from "../../statistics/checks";
import { type FamilyName, type Values } from "./family";
import { familyNamed } from "./families";
import { checkFits } from "./checks";
import { fitRows } from "./protectionFit";
import { byWidth, countedFish, type CountedFish } from "./trialFish";

/** A fish of a trial with both of the measures that it may have met the gap with. */
export interface FishOfTwoMeasures {
  readonly species: string;
  /** Body width over clear spacing. */
  readonly relativeWidth: number;
  /** Body height over clear spacing. */
  readonly relativeHeight: number;
  readonly held: boolean;
}

export type BodyMeasure = "width" | "height";

/** Which measure explains the fish of one species. */
export interface SpeciesMeasure {
  readonly species: string;
  readonly fish: number;
  readonly better: BodyMeasure;
  /** Log-likelihood of the curve through all species, this one meeting the gap with its width. */
  readonly withWidth: number;
  /** The same with its height; both are −∞ where a ramp takes what was seen for impossible. */
  readonly withHeight: number;
  /** Akaike's criterion with the height less that with the width: below 0 the height explains more. */
  readonly aicDifference: number;
  /** Fish that passed though as high as the gap or higher: an upright body can't. */
  readonly passedThoughHigher: number;
}

/** The measure of every species, and the curve's values with them. */
export interface SpeciesMeasures {
  readonly family: FamilyName;
  readonly species: readonly SpeciesMeasure[];
  readonly values: Values;
  readonly rounds: number;
}

/**
 * Which species meet the gap with their width and which with their height.
 *
 * Returns, by species, the log-likelihood of one curve through all species with this one met by width and by height, and
 * the difference of Akaike's criterion. One species alone can't tell: its height is its width times a number, and a curve
 * of its own would fit either equally well; the curve of the others does. All species start with their width, and the
 * one with most to gain changes until none gains. Fish of one run are not independent: take a difference of a few units
 * for chance. The logistic family is taken unless another is named. Throws a RangeError for fewer than three species and
 * where no finite curve fits.
 *
 * @example
 * protection.measureOfSpecies({ fish: ["eel", "ide", "perch"].flatMap((species) =>
 *   Array.from({ length: 40 }, (_, at) => { const w = (at + 1) / 40; const h = 1.5 * w; const m = species === "perch" ? h : w;
 *     return { species, relativeWidth: w, relativeHeight: h, held: (7 * at) % 10 < 10 * m }; })) }).species[2].better
 * // => "height"
 */
export function measureOfSpecies({
  fish,
  family: name = "logistic",
}: {
  readonly fish: readonly FishOfTwoMeasures[];
  readonly family?: FamilyName;
}): SpeciesMeasures {
  const where = "protection.measureOfSpecies";
  fish.forEach(({ relativeHeight }, row) =>
    checkNumber(where, `fish[${row}].relativeHeight`, relativeHeight, { atLeast: 0 }),
  );
  const byWidths = countedFish(where, fish);
  const species = [...new Set(fish.map((one) => one.species))];
  if (species.length < 3)
    refuse(where, `there are ${species.length} species; one is judged by the curve of at least 2 others`);
  const family = familyNamed(name);
  const lapses = { heldAnyway: false, passedAnyway: false };

  const rowsWith = (upright: ReadonlySet<string>): readonly CountedFish[] =>
    byWidths.map((row, at) =>
      upright.has(fish[at].species) ? { ...row, relativeWidth: fish[at].relativeHeight } : row,
    );
  const bestWith = (upright: ReadonlySet<string>) => fitRows(family, rowsWith(upright), lapses)?.best;
  checkFits(where, "logistic", byWidth(byWidths), lapses);
  const likelihoodWith = (upright: ReadonlySet<string>): number =>
    possible(name, rowsWith(upright)) ? (bestWith(upright)?.logLikelihood ?? -Infinity) : -Infinity;

  let upright: ReadonlySet<string> = new Set<string>();
  let now = likelihoodWith(upright);
  let rounds = 0;
  while (rounds < 2 * species.length) {
    rounds += 1;
    const changes = species.map((one) => {
      const changed = toggled(upright, one);
      return { changed, likelihood: likelihoodWith(changed) };
    });
    const most = changes.reduce((best, one) => (one.likelihood > best.likelihood ? one : best));
    if (!(most.likelihood > now)) break;
    upright = most.changed;
    now = most.likelihood;
  }
  const best = bestWith(upright);
  if (best === undefined || now === -Infinity)
    refuse(where, `no finite ${name} curve fits the fish, whichever measure each species has`);

  return {
    family: name,
    values: best.values,
    rounds,
    species: species.map((one) => {
      const changed = likelihoodWith(toggled(upright, one));
      const [withWidth, withHeight] = upright.has(one) ? [changed, now] : [now, changed];
      const own = fish.filter((other) => other.species === one);
      return {
        species: one,
        fish: own.length,
        better: upright.has(one) ? "height" : "width",
        withWidth,
        withHeight,
        aicDifference: 2 * (withWidth - withHeight),
        passedThoughHigher: own.filter((other) => !other.held && other.relativeHeight >= 1).length,
      };
    }),
  };
}

/** Whether a curve of the family can explain the rows at all. */
const possible = (name: FamilyName, rows: readonly CountedFish[]): boolean =>
  name === "logistic" || !rows.some(({ relativeWidth, held, fish }) => relativeWidth >= 1 && held < fish);

function toggled(set: ReadonlySet<string>, one: string): ReadonlySet<string> {
  const changed = new Set(set);
  if (!changed.delete(one)) changed.add(one);
  return changed;
}
