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
import { localMinima } from "../survival";
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
  readonly results: readonly KeyResult[];
  readonly cautions: readonly string[];
}

const clearSpacing = u.mm(18);
const shortest = u.mm(20);
const longest = u.mm(1000);

/**
 * Computes the demo plant's key results at a clear spacing of 18 mm and design discharge.
 *
 * The survival rests on assumptions that the table states: grayling, the ramp with its illustrative defaults, strike in
 * the Kaplan runner at mid-blade, and no loss of protected fish.
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
  const turbineSurvival = survivalLaw({
    model: "kaplanStrike",
    unit: plant.turbine,
    correlation: plant.correlation,
    injuryShare: "byLength",
  });
  const { minima, reason } = localMinima({
    clearSpacing,
    shortest,
    longest,
    bodyRatio: grayling.widthRatio,
    protection,
    turbineSurvival,
    protectedSurvival: 1,
  });
  const lowest = minima.toSorted((one, other) => one.totalSurvival - other.totalSurvival)[0];

  const unmet = checkPractice({ ...sweep, clearSpacing }).filter(({ met }) => !met);
  return {
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
      {
        what: "Lowest total survival",
        value:
          lowest === undefined
            ? "no minimum"
            : `${percent(lowest.totalSurvival)} at ${format(lowest.totalLength, "mm")}`,
        basis: reason ?? "grayling; illustrative ramp; Kaplan strike; every protected fish taken to survive",
      },
    ],
    cautions: [
      ...new Set([
        ...unmet.map(
          ({ check, value, limit, whatToDo }) =>
            `${check}: ${value}, rule of practice ${limit}; ${whatToDo}.`,
        ),
        ...losses.flatMap(({ cautions }) => cautions),
        ...protection.cautions,
        ...(lowest === undefined ? [] : turbineSurvival.cautions(lowest.totalLength)),
        standingCaution,
      ]),
    ],
  };
}

const rangeOf = (millimetres: readonly number[]): string =>
  `${Math.min(...millimetres).toFixed(1)} to ${Math.max(...millimetres).toFixed(1)} mm`;

const widest = (texts: readonly string[]): number => Math.max(...texts.map(({ length: count }) => count));

/** Returns the key results as lines of text: a table, and the cautions below it. */
export async function keyResultLines(): Promise<string[]> {
  const { results, cautions } = await keyResults();
  const whatWidth = widest(results.map(({ what }) => what));
  const valueWidth = widest(results.map(({ value }) => value));
  return [
    `Halvern Weir, clear spacing ${format(clearSpacing, "mm")}`,
    ...results.map(({ what, value, basis }) =>
      `  ${what.padEnd(whatWidth)}  ${value.padStart(valueWidth)}  ${basis}`.trimEnd(),
    ),
    "Cautions",
    ...cautions.map((caution) => `  - ${caution}`),
  ];
}
