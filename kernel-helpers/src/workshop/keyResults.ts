/** The plant's key results as a short table for the terminal, computed from the demo records. */
import { join } from "node:path";
import { species } from "../fish";
import { standingCaution } from "../notebook/cautions";
import { rampLaw } from "../protection";
import { format, percent } from "../quantity/format";
import { u } from "../quantity/u";
import { checkPractice, length, normalVelocity, sweepTime } from "../rack";
import { compareLosses } from "../rack/loss";
import { approachVelocity } from "../river";
import { localMinima, type LocalMinimum } from "../survival";
import { survivalLaw } from "../turbine";
import { repositoryRoot } from "./notebookNames";
import { readDemoPlant } from "./plantFiles";

/** One line of the table. */
export interface KeyResult {
  readonly what: string;
  readonly value: string;
  /** What the number rests on, where it is not the plant's geometry alone. */
  readonly basis: string;
}

/** The results with everything to keep in mind about them. */
export interface KeyResults {
  readonly plant: string;
  readonly results: readonly KeyResult[];
  readonly cautions: readonly string[];
}

const clearSpacing = u.mm(18);
const shortest = u.mm(30);
const longest = u.mm(450);
const protectedSurvival = 0.98;

/**
 * Computes the demo plant's key results at a clear spacing of 18 mm and design discharge.
 *
 * The survival rests on assumptions that the table states: grayling, the ramp with its illustrative defaults, a survival
 * of protected fish, and two models of the turbine that lie apart. The first is that of notebook 12.
 */
export async function keyResults(dataFolder = join(repositoryRoot, "data-demo")): Promise<KeyResults> {
  const plant = await readDemoPlant(dataFolder);
  const { channelWidth, rackAngle, barThickness, supportShare } = plant;
  const approach = { discharge: plant.designDischarge, width: channelWidth, depth: plant.channelDepth };
  const velocity = approachVelocity(approach);
  const sweep = { channelWidth, rackAngle, approachVelocity: velocity };

  const losses = (["hydrodynamic", "rectangular"] as const)
    .flatMap((barProfile) =>
      compareLosses({
        barThickness,
        clearSpacing,
        supportShare,
        rackAngle,
        approachVelocity: velocity,
        barProfile,
      }),
    )
    .filter(({ forHorizontalBars }) => forHorizontalBars);
  const answers = losses.flatMap(({ headLoss }) => headLoss ?? []);

  const grayling = species("grayling");
  const protection = rampLaw();
  const turbine = plant.turbine;
  const laws = [
    survivalLaw({
      model: "waterLengthStrike",
      unit: turbine,
      inflowAngle: plant.inflowAngle,
      injuryShare: "vonRaben",
    }),
    survivalLaw({ model: "kaplanSalmonid", unit: turbine }),
  ];
  const lowest = laws.map((turbineSurvival) => {
    const { minima, reason } = localMinima({
      clearSpacing,
      shortest,
      longest,
      bodyRatio: grayling.widthRatio,
      protection,
      turbineSurvival,
      protectedSurvival,
    });
    return { turbineSurvival, reason, minimum: deepest(minima) };
  });

  const assumed = `grayling; illustrative ramp; ${percent(protectedSurvival)} of protected fish taken to survive`;
  const unmet = checkPractice({ ...sweep, clearSpacing }).filter(({ met }) => !met);
  return {
    plant: plant.name,
    results: [
      {
        what: "Approach velocity",
        value: format(velocity, "mps"),
        basis: `design discharge ${format(plant.designDischarge, "m3ps")}`,
      },
      {
        what: "Rack length",
        value: format(length({ channelWidth, rackAngle }), "m"),
        basis: `${format(rackAngle, "deg")} in plan`,
      },
      {
        what: "Velocity square to the rack",
        value: format(normalVelocity({ approachVelocity: velocity, rackAngle }), "mps"),
        basis: "",
      },
      { what: "Sweep time along the rack", value: format(sweepTime(sweep), "s"), basis: "" },
      {
        what: "Head loss, clean rack",
        value: answers.length === 0 ? "none" : rangeOf(answers.map((loss) => u.to.mm(loss))),
        basis: "equations for horizontal bars; hydrodynamic to rectangular bars",
      },
      ...lowest.map(({ turbineSurvival, minimum, reason }) => ({
        what: "Lowest total survival",
        value:
          minimum === undefined
            ? "no minimum"
            : `${percent(minimum.totalSurvival)} at ${format(minimum.totalLength, "mm")}`,
        basis: `${turbineSurvival.title}; ${reason ?? assumed}`,
      })),
    ],
    cautions: [
      ...new Set([
        ...unmet.map(
          ({ check, value, limit, whatToDo }) =>
            `${check}: ${value}, rule of practice ${limit}; ${whatToDo}.`,
        ),
        ...losses.flatMap(({ cautions }) => cautions),
        ...protection.cautions,
        ...lowest.flatMap(({ turbineSurvival, minimum }) =>
          minimum === undefined ? [] : turbineSurvival.cautions(minimum.totalLength),
        ),
        standingCaution,
      ]),
    ],
  };
}

const deepest = (minima: readonly LocalMinimum[]): LocalMinimum | undefined => {
  const lowest = Math.min(...minima.map(({ totalSurvival }) => totalSurvival));
  return minima.find(({ totalSurvival }) => totalSurvival === lowest);
};

const rangeOf = (millimetres: readonly number[]): string =>
  `${Math.min(...millimetres).toFixed(1)} to ${Math.max(...millimetres).toFixed(1)} mm`;

const widest = (texts: readonly string[]): number => Math.max(...texts.map(({ length: count }) => count));

/** Returns the key results as lines of text: a table, and the cautions below it. */
export async function keyResultLines(): Promise<string[]> {
  const { plant, results, cautions } = await keyResults();
  const whatWidth = widest(results.map(({ what }) => what));
  const valueWidth = widest(results.map(({ value }) => value));
  return [
    `${plant}, clear spacing ${format(clearSpacing, "mm")}`,
    ...results.map(({ what, value, basis }) =>
      `  ${what.padEnd(whatWidth)}  ${value.padStart(valueWidth)}  ${basis}`.trimEnd(),
    ),
    "Cautions",
    ...cautions.map((caution) => `  - ${caution}`),
  ];
}
