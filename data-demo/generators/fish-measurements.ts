import { csvText } from "./csv";
import { sampleLength } from "./fish-lengths";
import { type Draws, seededDraws } from "./random";
import { type DemoSpecies, demoSpecies, lengthSummary } from "./species";

/** What the measurements are made from, beside the bodies of the species. */
export interface FishMeasurementsTruth {
  readonly seed: number;
  /** Correlation of the scatters of width, height and weight: a well-fed fish is wider, higher and heavier at once. */
  readonly girthCorrelation: number;
}

/** How the body of one species departs from its ratios in `species.csv`. */
export interface BodyTruth {
  readonly species: string;
  readonly count: number;
  /** The ratio is that of `species.csv` times (length / median length)^allometry. */
  readonly widthAllometry: number;
  readonly heightAllometry: number;
  /** Standard deviations of ln(width) and ln(height) about that. */
  readonly widthSpread: number;
  readonly heightSpread: number;
}

/** The true parameters of `fish-measurements.csv` that belong to no species. */
export const fishMeasurementsTruth: FishMeasurementsTruth = { seed: 5301, girthCorrelation: 0.5 };

/** The true bodies, in the order of the seeds. */
export const bodyTruths: readonly BodyTruth[] = [
  body("roach", 60, [0.06, 0.05], [0.06, 0.04]),
  body("grayling", 45, [0.04, 0.03], [0.06, 0.05]),
  body("ide", 40, [0.05, 0.02], [0.07, 0.05]),
  body("perch", 50, [0.08, 0.07], [0.07, 0.05]),
  body("bleak", 45, [0.03, 0.04], [0.06, 0.05]),
  body("burbot", 25, [0.05, 0.03], [0.09, 0.08]),
  body("silver eel", 40, [0.1, 0.08], [0.08, 0.07]),
];

/** One measured fish: lengths in mm, weight in g. */
export interface MeasuredFish {
  readonly species: string;
  readonly totalLength: number;
  readonly width: number;
  readonly height: number;
  readonly weight: number;
}

/**
 * Fish measured with calipers, species after species.
 *
 * Returns one entry a fish; the length in whole mm, width and height in mm and the weight in g unrounded.
 */
export function measuredFish(
  truth: FishMeasurementsTruth = fishMeasurementsTruth,
  bodies: readonly BodyTruth[] = bodyTruths,
): MeasuredFish[] {
  return bodies.flatMap((ofSpecies, index) => {
    const draws = seededDraws(truth.seed + index);
    const species = speciesNamed(ofSpecies.species);
    return Array.from({ length: ofSpecies.count }, () => measureOne(truth, ofSpecies, species, draws));
  });
}

/** Returns `fish-measurements.csv` as text, one row a fish. */
export function fishMeasurementsCsv(
  truth: FishMeasurementsTruth = fishMeasurementsTruth,
  bodies: readonly BodyTruth[] = bodyTruths,
): string {
  const rows = measuredFish(truth, bodies).map((fish, index) => [
    `M${String(index + 1).padStart(3, "0")}`,
    fish.species,
    String(fish.totalLength),
    fish.width.toFixed(1),
    fish.height.toFixed(1),
    fish.weight.toFixed(1),
  ]);
  return csvText(["fishId", "species", "totalLength [mm]", "width [mm]", "height [mm]", "weight [g]"], rows);
}

/** The species of that name. Throws where there is none. */
export function speciesNamed(name: string): DemoSpecies {
  const found = demoSpecies.find(({ species }) => species === name);
  if (found === undefined) throw new Error(`there is no species "${name}" in species.csv.`);
  return found;
}

function measureOne(
  truth: FishMeasurementsTruth,
  ofSpecies: BodyTruth,
  species: DemoSpecies,
  draws: Draws,
): MeasuredFish {
  const totalLength = sampleLength(species, draws);
  const relative = totalLength / lengthSummary(species.ageClasses).medianLength;
  const shared = draws.normal(0, Math.sqrt(truth.girthCorrelation));
  const scatter = (spread: number) =>
    Math.exp(spread * (shared + draws.normal(0, Math.sqrt(1 - truth.girthCorrelation))));
  return {
    species: species.species,
    totalLength,
    width:
      species.widthRatio *
      totalLength *
      relative ** ofSpecies.widthAllometry *
      scatter(ofSpecies.widthSpread),
    height:
      species.heightRatio *
      totalLength *
      relative ** ofSpecies.heightAllometry *
      scatter(ofSpecies.heightSpread),
    weight:
      species.weightCoefficient *
      (totalLength / 10) ** species.weightExponent *
      scatter(species.weightSpread),
  };
}

function body(
  species: string,
  count: number,
  [widthAllometry, heightAllometry]: readonly [number, number],
  [widthSpread, heightSpread]: readonly [number, number],
): BodyTruth {
  return { species, count, widthAllometry, heightAllometry, widthSpread, heightSpread };
}
