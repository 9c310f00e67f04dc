import { csvText } from "./csv";

/** Fish of about the same age: their share of the species, the median length, the spread of ln(length). */
export interface AgeClass {
  readonly share: number;
  /** mm */
  readonly medianLength: number;
  readonly spread: number;
}

/** What one species is in the demo: its body, and the population that the samples are drawn from. */
export interface DemoSpecies {
  readonly species: string;
  readonly widthRatio: number;
  readonly heightRatio: number;
  readonly bodyShape: "fusiform" | "deep-bodied" | "elongate" | "eel-like";
  readonly turnsOnSide: boolean;
  /** Weight in g is coefficient · (length in cm)^exponent. */
  readonly weightCoefficient: number;
  readonly weightExponent: number;
  /** Standard deviation of ln(weight) about that relation. */
  readonly weightSpread: number;
  /** Fish in the sample. */
  readonly count: number;
  /** Lengths outside are drawn again, mm. */
  readonly shortest: number;
  readonly longest: number;
  readonly seasons: readonly ("spring" | "autumn")[];
  readonly ageClasses: readonly AgeClass[];
}

/** The true parameters of `species.csv` and `fish-lengths.csv`: invented, of common-practice magnitude. */
export const demoSpecies: readonly DemoSpecies[] = [
  {
    species: "roach",
    widthRatio: 0.11,
    heightRatio: 0.26,
    bodyShape: "deep-bodied",
    turnsOnSide: true,
    weightCoefficient: 0.01,
    weightExponent: 3.1,
    weightSpread: 0.08,
    count: 210,
    shortest: 60,
    longest: 300,
    seasons: ["spring", "autumn"],
    ageClasses: [
      { share: 0.4, medianLength: 95, spread: 0.1 },
      { share: 0.35, medianLength: 145, spread: 0.09 },
      { share: 0.25, medianLength: 200, spread: 0.1 },
    ],
  },
  {
    species: "grayling",
    widthRatio: 0.1,
    heightRatio: 0.2,
    bodyShape: "fusiform",
    turnsOnSide: true,
    weightCoefficient: 0.0085,
    weightExponent: 3.05,
    weightSpread: 0.07,
    count: 90,
    shortest: 90,
    longest: 450,
    seasons: ["spring"],
    ageClasses: [
      { share: 0.45, medianLength: 130, spread: 0.09 },
      { share: 0.35, medianLength: 235, spread: 0.08 },
      { share: 0.2, medianLength: 330, spread: 0.07 },
    ],
  },
  {
    species: "ide",
    widthRatio: 0.11,
    heightRatio: 0.25,
    bodyShape: "deep-bodied",
    turnsOnSide: true,
    weightCoefficient: 0.011,
    weightExponent: 3.06,
    weightSpread: 0.08,
    count: 80,
    shortest: 80,
    longest: 480,
    seasons: ["spring"],
    ageClasses: [
      { share: 0.4, medianLength: 120, spread: 0.1 },
      { share: 0.3, medianLength: 220, spread: 0.09 },
      { share: 0.3, medianLength: 340, spread: 0.09 },
    ],
  },
  {
    species: "perch",
    widthRatio: 0.12,
    heightRatio: 0.25,
    bodyShape: "deep-bodied",
    turnsOnSide: false,
    weightCoefficient: 0.011,
    weightExponent: 3.1,
    weightSpread: 0.09,
    count: 120,
    shortest: 55,
    longest: 360,
    seasons: ["spring", "autumn"],
    ageClasses: [
      { share: 0.45, medianLength: 90, spread: 0.1 },
      { share: 0.35, medianLength: 150, spread: 0.1 },
      { share: 0.2, medianLength: 225, spread: 0.12 },
    ],
  },
  {
    species: "bleak",
    widthRatio: 0.09,
    heightRatio: 0.19,
    bodyShape: "fusiform",
    turnsOnSide: true,
    weightCoefficient: 0.008,
    weightExponent: 3.03,
    weightSpread: 0.08,
    count: 180,
    shortest: 50,
    longest: 180,
    seasons: ["spring", "autumn"],
    ageClasses: [
      { share: 0.55, medianLength: 75, spread: 0.1 },
      { share: 0.45, medianLength: 120, spread: 0.08 },
    ],
  },
  {
    species: "burbot",
    widthRatio: 0.11,
    heightRatio: 0.13,
    bodyShape: "elongate",
    turnsOnSide: false,
    weightCoefficient: 0.006,
    weightExponent: 3.02,
    weightSpread: 0.1,
    count: 60,
    shortest: 110,
    longest: 600,
    seasons: ["autumn"],
    ageClasses: [
      { share: 0.3, medianLength: 170, spread: 0.11 },
      { share: 0.4, medianLength: 280, spread: 0.1 },
      { share: 0.3, medianLength: 400, spread: 0.1 },
    ],
  },
  {
    species: "silver eel",
    widthRatio: 0.03,
    heightRatio: 0.06,
    bodyShape: "eel-like",
    turnsOnSide: true,
    weightCoefficient: 0.001,
    weightExponent: 3.15,
    weightSpread: 0.1,
    count: 100,
    shortest: 450,
    longest: 950,
    seasons: ["autumn"],
    ageClasses: [
      { share: 0.35, medianLength: 570, spread: 0.07 },
      { share: 0.65, medianLength: 730, spread: 0.09 },
    ],
  },
];

/**
 * The one lognormal that has the mean and the standard deviation of ln(length) of all age classes together.
 *
 * Returns its median in mm and its spread (standard deviation of ln(length)).
 */
export function lengthSummary(ageClasses: readonly AgeClass[]): {
  medianLength: number;
  lengthSpread: number;
} {
  const mean = ageClasses.reduce((sum, age) => sum + age.share * Math.log(age.medianLength), 0);
  const variance = ageClasses.reduce(
    (sum, age) => sum + age.share * (age.spread ** 2 + (Math.log(age.medianLength) - mean) ** 2),
    0,
  );
  return { medianLength: Math.exp(mean), lengthSpread: Math.sqrt(variance) };
}

const PROVENANCE = "invented; common-practice magnitude";

/** Returns `species.csv` as text, one row a species. */
export function speciesCsv(list: readonly DemoSpecies[] = demoSpecies): string {
  const header = [
    "species",
    "widthRatio",
    "heightRatio",
    "bodyShape",
    "turnsOnSide",
    "weightCoefficient",
    "weightExponent",
    "medianLength [mm]",
    "lengthSpread",
    "note",
  ];
  const rows = list.map((fish) => {
    const { medianLength, lengthSpread } = lengthSummary(fish.ageClasses);
    return [
      fish.species,
      String(fish.widthRatio),
      String(fish.heightRatio),
      fish.bodyShape,
      fish.turnsOnSide ? "yes" : "no",
      String(fish.weightCoefficient),
      String(fish.weightExponent),
      medianLength.toFixed(0),
      lengthSpread.toFixed(2),
      fish.turnsOnSide ? PROVENANCE : `${PROVENANCE}; meets a horizontal gap with its height`,
    ];
  });
  return csvText(header, rows);
}
