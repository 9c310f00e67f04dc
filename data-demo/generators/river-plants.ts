import { csvText } from "./csv";

/** One plant of the river, with the reach below it and the refit that is considered. Units stand in `riverPlantColumns`. */
export interface RiverPlant {
  readonly plant: string;
  readonly river: "Ostrane" | "Kelmar";
  /** Empty for the sea. */
  readonly next: string;
  readonly reachLength: number;
  readonly mortalityPerKilometre: number;
  readonly entering: number;
  readonly spillFlowShare: number;
  readonly spillEffectiveness: number;
  readonly spillSurvival: number;
  readonly clearSpacing: number;
  readonly protectedSurvival: number;
  readonly turbineSurvival: number;
  /** Absent where no refit is considered. */
  readonly refitSpacing?: number;
  readonly refitProtectedSurvival?: number;
  readonly refitCost?: number;
  readonly note: string;
}

type Facts = Omit<RiverPlant, "plant" | "river" | "next" | "spillEffectiveness" | "spillSurvival" | "note">;

// Eels keep to the bottom: fewer of them than of the water go over a weir.
const overWeir = { spillEffectiveness: 0.8, spillSurvival: 0.97 } as const;

const at = (
  plant: string,
  [river, next]: readonly [RiverPlant["river"], string],
  facts: Facts,
  note: string,
): RiverPlant => ({ plant, river, next, ...overWeir, ...facts, note });

const refit = (refitSpacing: number, refitCost: number) => ({
  refitSpacing,
  refitProtectedSurvival: 0.95,
  refitCost,
});

/** The plants of `river-plants.csv`, from the source to the sea. Nothing here is drawn at random. */
export const riverPlants: readonly RiverPlant[] = [
  at(
    "Orrowgate",
    ["Ostrane", "Tarvale"],
    {
      reachLength: 14,
      mortalityPerKilometre: 0.002,
      entering: 460,
      spillFlowShare: 0.3,
      clearSpacing: 40,
      protectedSurvival: 0.8,
      turbineSurvival: 0.62,
      ...refit(18, 1.1),
    },
    "the uppermost plant",
  ),
  at(
    "Tarvale",
    ["Ostrane", "Halvern Weir"],
    {
      reachLength: 9,
      mortalityPerKilometre: 0.002,
      entering: 340,
      spillFlowShare: 0.15,
      clearSpacing: 60,
      protectedSurvival: 0.75,
      turbineSurvival: 0.55,
      ...refit(18, 1.6),
    },
    "a coarse rack and no bypass",
  ),
  at(
    "Halvern Weir",
    ["Ostrane", "Pellock"],
    {
      reachLength: 12,
      mortalityPerKilometre: 0.003,
      entering: 340,
      spillFlowShare: 0.2,
      clearSpacing: 18,
      protectedSurvival: 0.95,
      turbineSurvival: 0.58,
    },
    "horizontal bar rack with bypass; nothing more is considered",
  ),
  at(
    "Kelmar Top",
    ["Kelmar", "Kelmar Mill"],
    {
      reachLength: 6,
      mortalityPerKilometre: 0.004,
      entering: 260,
      spillFlowShare: 0.25,
      clearSpacing: 30,
      protectedSurvival: 0.8,
      turbineSurvival: 0.35,
      ...refit(15, 0.5),
    },
    "on the tributary Kelmar",
  ),
  at(
    "Kelmar Mill",
    ["Kelmar", "Pellock"],
    {
      reachLength: 5,
      mortalityPerKilometre: 0.004,
      entering: 90,
      spillFlowShare: 0.2,
      clearSpacing: 25,
      protectedSurvival: 0.85,
      turbineSurvival: 0.1,
      ...refit(15, 0.6),
    },
    "a small Francis unit",
  ),
  at(
    "Pellock",
    ["Ostrane", "Sallowmere"],
    {
      reachLength: 21,
      mortalityPerKilometre: 0.003,
      entering: 150,
      spillFlowShare: 0.35,
      clearSpacing: 40,
      protectedSurvival: 0.75,
      turbineSurvival: 0.65,
      ...refit(18, 2.4),
    },
    "below the confluence",
  ),
  at(
    "Sallowmere",
    ["Ostrane", "Ostmouth"],
    {
      reachLength: 16,
      mortalityPerKilometre: 0.003,
      entering: 240,
      spillFlowShare: 0.1,
      clearSpacing: 100,
      protectedSurvival: 0.7,
      turbineSurvival: 0.72,
      ...refit(20, 3.8),
    },
    "the largest discharge and the coarsest rack",
  ),
  at(
    "Ostmouth",
    ["Ostrane", ""],
    {
      reachLength: 8,
      mortalityPerKilometre: 0.004,
      entering: 380,
      spillFlowShare: 0.4,
      clearSpacing: 60,
      protectedSurvival: 0.75,
      turbineSurvival: 0.8,
      ...refit(20, 4.2),
    },
    "the last plant before the sea",
  ),
];

/** The columns of `river-plants.csv` in order, each with its unit; null where the column has none. */
export const riverPlantColumns: readonly (readonly [key: keyof RiverPlant, unit: string | null])[] = [
  ["plant", null],
  ["river", null],
  ["next", null],
  ["reachLength", "km"],
  ["mortalityPerKilometre", null],
  ["entering", null],
  ["spillFlowShare", null],
  ["spillEffectiveness", null],
  ["spillSurvival", null],
  ["clearSpacing", "mm"],
  ["protectedSurvival", null],
  ["turbineSurvival", null],
  ["refitSpacing", "mm"],
  ["refitProtectedSurvival", null],
  ["refitCost", null],
  ["note", null],
];

/** Returns `river-plants.csv` as text, one row a plant. */
export function riverPlantsCsv(plants: readonly RiverPlant[] = riverPlants): string {
  const header = riverPlantColumns.map(([key, unit]) => (unit === null ? key : `${key} [${unit}]`));
  return csvText(
    header,
    plants.map((one) => riverPlantColumns.map(([key]) => String(one[key] ?? ""))),
  );
}
