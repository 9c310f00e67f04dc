/** The plant's key results as a short table for the terminal, computed from the demo records. */
import { join } from "node:path";
import { species } from "../fish";
import { standingCaution } from "../notebook/cautions";
import { rampLaw } from "../protection";
import type { Velocity } from "../quantity/dimension";
import { format, percent } from "../quantity/format";
import { u } from "../quantity/u";
import { checkPractice, length, normalVelocity, sweepTime } from "../rack";
import { areaRatio, compareLosses, kirschmer, type LossRow, streamwiseBars } from "../rack/loss";
import { approachVelocity } from "../river";
import { localMinima, type LocalMinimum } from "../survival";
import { survivalLaw } from "../turbine";
import { repositoryRoot } from "./notebookNames";
import { type DemoPlant, readDemoPlant } from "./plantFiles";

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
const fishSpecies = "grayling";
/** The equations that know of no turning of the flow: like horizontal bars, their racks only squeeze it (notebook 04). */
const sameSqueeze: readonly string[] = [kirschmer.id, areaRatio.id, streamwiseBars.id];

/**
 * Computes the demo plant's key results at a clear spacing of 18 mm and design discharge.
 *
 * The survival rests on assumptions that the table states: grayling, the ramp with its illustrative defaults, a survival
 * of protected fish, and two models of the turbine that lie apart. The first is that of notebook 12.
 */
export async function keyResults(dataFolder = join(repositoryRoot, "data-demo")): Promise<KeyResults> {
  const plant = await readDemoPlant(dataFolder);
  const velocity = approachVelocity({
    discharge: plant.designDischarge,
    width: plant.channelWidth,
    depth: plant.channelDepth,
  });
  const parts = [layoutResults(plant, velocity), headLossResults(plant, velocity), survivalResults(plant)];
  return {
    plant: plant.name,
    results: parts.flatMap(({ results }) => results),
    cautions: [...new Set([...parts.flatMap(({ cautions }) => cautions), standingCaution])],
  };
}

type Part = Pick<KeyResults, "results" | "cautions">;

const row = (what: string, value: string, basis = ""): KeyResult => ({ what, value, basis });

function layoutResults(plant: DemoPlant, velocity: Velocity): Part {
  const { channelWidth, rackAngle } = plant;
  const sweep = { channelWidth, rackAngle, approachVelocity: velocity };
  const normal = normalVelocity({ approachVelocity: velocity, rackAngle });
  const unmet = checkPractice({ ...sweep, clearSpacing }).filter(({ met }) => !met);
  return {
    results: [
      row(
        "Approach velocity",
        format(velocity, "mps"),
        `design discharge ${format(plant.designDischarge, "m3ps")}`,
      ),
      row(
        "Rack length",
        format(length({ channelWidth, rackAngle }), "m"),
        `${format(rackAngle, "deg")} in plan`,
      ),
      row("Velocity square to the rack", format(normal, "mps")),
      row("Sweep time along the rack", format(sweepTime(sweep), "s")),
    ],
    cautions: unmet.map(
      ({ check, value, limit, whatToDo }) => `${check}: ${value}, rule of practice ${limit}; ${whatToDo}.`,
    ),
  };
}

function headLossResults(plant: DemoPlant, approach: Velocity): Part {
  const { barThickness, supportShare, rackAngle } = plant;
  const rack = { barThickness, clearSpacing, supportShare, rackAngle, approachVelocity: approach };
  const losses = (["hydrodynamic", "rectangular"] as const).flatMap((barProfile) =>
    compareLosses({ ...rack, barProfile }),
  );
  const own = losses.filter(({ forHorizontalBars }) => forHorizontalBars);
  const akin = losses.filter(({ id }) => sameSqueeze.includes(id));
  const names = [...new Set(akin.map(({ title }) => title))].join(", ");
  return {
    results: [
      row(
        "Head loss, clean rack",
        rangeOf(own),
        "one approximate equation, hydrodynamic to rectangular bars",
      ),
      row("Head loss, same physics", rangeOf(akin), `made for other racks, the same bars: ${names}`),
    ],
    cautions: own.flatMap(({ cautions }) => cautions),
  };
}

function rangeOf(losses: readonly LossRow[]): string {
  const answers = losses.flatMap(({ headLoss }) => (headLoss === undefined ? [] : [u.to.mm(headLoss)]));
  if (answers.length === 0) return "none";
  return `${Math.min(...answers).toFixed(1)} to ${Math.max(...answers).toFixed(1)} mm`;
}

function survivalResults({ turbine, inflowAngle }: DemoPlant): Part {
  const protection = rampLaw();
  const bodyRatio = species(fishSpecies).widthRatio;
  const assumed = `${fishSpecies}; illustrative ramp; ${percent(protectedSurvival)} of protected fish taken to survive`;
  const parts = [
    survivalLaw({ model: "waterLengthStrike", unit: turbine, inflowAngle, injuryShare: "vonRaben" }),
    survivalLaw({ model: "kaplanSalmonid", unit: turbine }),
  ].map((turbineSurvival): Part => {
    const laws = { bodyRatio, protection, turbineSurvival, protectedSurvival };
    const { minima, reason } = localMinima({ ...laws, clearSpacing, shortest, longest });
    const minimum = deepest(minima);
    const value =
      minimum === undefined
        ? "no minimum"
        : `${percent(minimum.totalSurvival)} at ${format(minimum.totalLength, "mm")}`;
    return {
      results: [row("Lowest total survival", value, `${turbineSurvival.title}; ${reason ?? assumed}`)],
      cautions: minimum === undefined ? [] : turbineSurvival.cautions(minimum.totalLength),
    };
  });
  return {
    results: parts.flatMap(({ results }) => results),
    cautions: [...protection.cautions, ...parts.flatMap(({ cautions }) => cautions)],
  };
}

const deepest = (minima: readonly LocalMinimum[]): LocalMinimum | undefined => {
  const lowest = Math.min(...minima.map(({ totalSurvival }) => totalSurvival));
  return minima.find(({ totalSurvival }) => totalSurvival === lowest);
};

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
