import { dayNumber, isoDate } from "./calendar";
import { happens } from "./counts";
import { csvText } from "./csv";
import { type Draws, seededDraws } from "./random";

/** The true parameters of `built-racks.csv`: what was built, and how it is answered. */
export interface BuiltRacksTruth {
  /** Seed of the plants; the answers take the next. */
  readonly seed: number;
  readonly asked: number;
  readonly answered: number;
  readonly medianDischarge: number;
  readonly dischargeSpread: number;
  readonly medianHead: number;
  readonly headSpread: number;
  readonly meanRackAngle: number;
  readonly rackAngleSpread: number;
  readonly medianVelocity: number;
  readonly velocitySpread: number;
  readonly medianDepth: number;
  readonly depthSpread: number;
  readonly medianBypassShare: number;
  readonly bypassShareSpread: number;
  /** Shares of plants with overlays, and with a bypass. */
  readonly bottomOverlayShare: number;
  readonly topOverlayShare: number;
  readonly bypassShare: number;
  /** Of the answers: left empty; written in another unit than asked for; with "about" before it. */
  readonly missingShare: number;
  readonly otherUnitShare: number;
  readonly aboutShare: number;
}

export const builtRacksTruth: BuiltRacksTruth = {
  seed: 9100,
  asked: 90,
  answered: 60,
  medianDischarge: 14,
  dischargeSpread: 0.9,
  medianHead: 4.5,
  headSpread: 0.5,
  meanRackAngle: 40,
  rackAngleSpread: 7,
  medianVelocity: 0.5,
  velocitySpread: 0.2,
  medianDepth: 2.4,
  depthSpread: 0.35,
  medianBypassShare: 0.035,
  bypassShareSpread: 0.4,
  bottomOverlayShare: 0.45,
  topOverlayShare: 0.25,
  bypassShare: 0.85,
  missingShare: 0.1,
  otherUnitShare: 0.2,
  aboutShare: 0.08,
};

/** What was built: values and their shares of the plants. */
export const builtChoices = {
  clearSpacing: { 10: 0.15, 12: 0.15, 15: 0.25, 18: 0.1, 20: 0.25, 30: 0.1 },
  barThickness: { 5: 0.1, 6: 0.2, 8: 0.4, 10: 0.2, 12: 0.1 },
  barDepth: { 50: 0.25, 60: 0.4, 80: 0.25, 100: 0.1 },
  barShape: { rectangular: 0.4, rounded: 0.35, foil: 0.25 },
  cleaning: { "along the rack": 0.7, "up and down": 0.2, "by hand": 0.1 },
  experience: { leaves: 0.3, ice: 0.1, gravel: 0.15, wood: 0.15, none: 0.3 },
} as const;

/** One plant as it was built: discharge in m³/s, head and sizes of the channel in m, the rest in mm and degrees. */
export interface BuiltRack {
  readonly plantId: string;
  readonly yearBuilt: number;
  readonly designDischarge: number;
  readonly head: number;
  readonly channelWidth: number;
  readonly channelDepth: number;
  readonly rackAngle: number;
  readonly clearSpacing: number;
  readonly barThickness: number;
  readonly barDepth: number;
  readonly barShape: string;
  /** 0 where there is none. */
  readonly bottomOverlay: number;
  readonly topOverlay: number;
  readonly bypassDischarge: number;
  readonly cleaning: string;
  readonly cleaningTrigger: number;
  readonly experience: string;
}

/** A slip of the pen that makes an answer impossible: what stands there, and what was meant. */
export interface PlantedSlip {
  readonly plantId: string;
  readonly question: string;
  readonly cell: string;
  readonly meant: string;
}

/** The slips by the n-th plant that answered. */
const slips: readonly {
  nth: number;
  question: string;
  of: (rack: BuiltRack) => [cell: string, meant: string];
}[] = [
  { nth: 3, question: "clearSpacing", of: (rack) => [`${rack.clearSpacing} m`, `${rack.clearSpacing} mm`] },
  { nth: 11, question: "rackAngle", of: (rack) => [`${rack.rackAngle}0 deg`, `${rack.rackAngle} deg`] },
  {
    nth: 19,
    question: "yearBuilt",
    of: (rack) => [`20${String(rack.yearBuilt).slice(1)}`, `${rack.yearBuilt}`],
  },
  {
    nth: 34,
    question: "designDischarge",
    of: (rack) => [`-${rack.designDischarge} m3/s`, `${rack.designDischarge} m3/s`],
  },
  {
    nth: 47,
    question: "barThickness",
    of: (rack) => [`${rack.barThickness / 10} mm`, `${rack.barThickness / 10} cm`],
  },
];

/** Returns the plants that were asked, as they were built: what the answers are about. */
export function builtRacks(truth: BuiltRacksTruth = builtRacksTruth): BuiltRack[] {
  const draws = seededDraws(truth.seed);
  return Array.from({ length: truth.asked }, (_, index) => {
    const designDischarge = rounded(draws.lognormal(truth.medianDischarge, truth.dischargeSpread), 1);
    const channelDepth = rounded(draws.lognormal(truth.medianDepth, truth.depthSpread), 1);
    const velocity = draws.lognormal(truth.medianVelocity, truth.velocitySpread);
    const overlay = (share: number) => (happens(draws, share) ? 100 * draws.integer(2, 5) : 0);
    const bypassed = happens(draws, truth.bypassShare);
    const bypassShare = draws.lognormal(truth.medianBypassShare, truth.bypassShareSpread);
    return {
      plantId: `P${String(index + 1).padStart(2, "0")}`,
      yearBuilt: draws.integer(2006, 2022),
      designDischarge,
      head: rounded(draws.lognormal(truth.medianHead, truth.headSpread), 1),
      channelWidth: rounded(designDischarge / (velocity * channelDepth), 1),
      channelDepth,
      rackAngle: Math.min(
        90,
        Math.max(20, Math.round(draws.normal(truth.meanRackAngle, truth.rackAngleSpread))),
      ),
      clearSpacing: Number(chosen(builtChoices.clearSpacing, draws)),
      barThickness: Number(chosen(builtChoices.barThickness, draws)),
      barDepth: Number(chosen(builtChoices.barDepth, draws)),
      barShape: chosen(builtChoices.barShape, draws),
      bottomOverlay: overlay(truth.bottomOverlayShare),
      topOverlay: overlay(truth.topOverlayShare),
      bypassDischarge: bypassed ? rounded(designDischarge * bypassShare, 3) : 0,
      cleaning: chosen(builtChoices.cleaning, draws),
      cleaningTrigger: 5 * draws.integer(1, 4),
      experience: chosen(builtChoices.experience, draws),
    };
  });
}

/** Returns the slips in the answers, in the order of the plants. */
export function plantedSlips(truth: BuiltRacksTruth = builtRacksTruth): PlantedSlip[] {
  const racks = answeringRacks(truth, seededDraws(truth.seed + 1));
  return slips.map(({ nth, question, of }) => {
    const [cell, meant] = of(racks[nth]);
    return { plantId: racks[nth].plantId, question, cell, meant };
  });
}

/** Returns `built-racks.csv` as text: one row a plant, each answer as it was written. */
export function builtRacksCsv(truth: BuiltRacksTruth = builtRacksTruth): string {
  const draws = seededDraws(truth.seed + 1);
  const answering = new Set(answeringRacks(truth, draws).map(({ plantId }) => plantId));
  const planted = plantedSlips(truth);
  const racks = builtRacks(truth);
  const rows = racks.map((rack) => {
    const sheet = answers(truth, rack, draws);
    if (!answering.has(rack.plantId)) return [rack.plantId, "", ...sheet.map(() => "")];
    const cells = sheet.map(([question, cell]) => {
      const slip = planted.find((one) => one.plantId === rack.plantId && one.question === question);
      return slip?.cell ?? cell;
    });
    return [rack.plantId, isoDate(dayNumber(2023, 1, 16) + draws.integer(0, 90)), ...cells];
  });
  return csvText(
    ["plantId", "answered", ...answers(truth, racks[0], draws).map(([question]) => question)],
    rows,
  );
}

/** The plants that answered, in the order of the list, drawn without regard to what they are. */
function answeringRacks(truth: BuiltRacksTruth, draws: Draws): BuiltRack[] {
  const left = builtRacks(truth);
  while (left.length > truth.answered) left.splice(draws.integer(0, left.length - 1), 1);
  return left;
}

/** One filled sheet: question and answer as written, empty where it was left out. */
function answers(truth: BuiltRacksTruth, rack: BuiltRack, draws: Draws): [question: string, cell: string][] {
  const missing = (cell: string) => (happens(draws, truth.missingShare) ? "" : cell);
  const about = (cell: string) => (happens(draws, truth.aboutShare) ? `about ${cell}` : cell);
  const inUnits = (usual: string, others: readonly string[]) =>
    missing(
      about(happens(draws, truth.otherUnitShare) ? others[draws.integer(0, others.length - 1)] : usual),
    );
  const millimetres = (value: number) => inUnits(`${value} mm`, [`${value / 10} cm`, `${value}`]);
  const overlay = (value: number) =>
    value === 0 ? missing("none") : inUnits(`${value} mm`, [`${value / 1000} m`]);
  const words = (list: readonly string[]) => list[draws.integer(0, list.length - 1)];
  const { designDischarge: flow, bypassDischarge: bypass } = rack;
  return [
    ["yearBuilt", missing(String(rack.yearBuilt))],
    [
      "designDischarge",
      inUnits(`${flow} m3/s`, [`${Math.round(flow * 1000)} l/s`, `${flow}`, `${flow} cbm/s`]),
    ],
    ["head", inUnits(`${rack.head} m`, [`${rack.head}`, `${Math.round(rack.head * 100)} cm`])],
    ["channelWidth", inUnits(`${rack.channelWidth} m`, [`${rack.channelWidth}`])],
    ["channelDepth", inUnits(`${rack.channelDepth} m`, [`${Math.round(rack.channelDepth * 100)} cm`])],
    [
      "rackAngle",
      inUnits(`${rack.rackAngle} deg`, [`${rack.rackAngle}`, `${90 - rack.rackAngle} deg to the normal`]),
    ],
    ["clearSpacing", millimetres(rack.clearSpacing)],
    ["barThickness", millimetres(rack.barThickness)],
    ["barDepth", millimetres(rack.barDepth)],
    ["barShape", missing(words(shapeWords[rack.barShape] ?? [rack.barShape]))],
    ["bottomOverlay", overlay(rack.bottomOverlay)],
    ["topOverlay", overlay(rack.topOverlay)],
    ["bypass", missing(bypass > 0 ? words(["yes", "yes", "Yes", "x"]) : words(["no", "none"]))],
    [
      "bypassDischarge",
      bypass > 0
        ? inUnits(`${bypass} m3/s`, [`${Math.round(bypass * 1000)} l/s`, `${percentage(bypass / flow)} of Q`])
        : "",
    ],
    ["cleaning", missing(rack.cleaning)],
    [
      "cleaningTrigger",
      inUnits(`${rack.cleaningTrigger} cm`, [`${rack.cleaningTrigger * 10} mm`, "by the clock"]),
    ],
    ["experience", missing(words(experienceWords[rack.experience] ?? [rack.experience]))],
  ];
}

const shapeWords: Readonly<Record<string, readonly string[]>> = {
  rectangular: ["rectangular", "flat bar", "Rectangle"],
  rounded: ["rounded", "flat bar with round nose", "round edges"],
  foil: ["foil", "streamlined", "drop-shaped"],
};

const experienceWords: Readonly<Record<string, readonly string[]>> = {
  leaves: [
    "leaves in October; cleaner runs day and night",
    "much foliage in autumn",
    "clogs with leaves for two weeks",
  ],
  ice: ["frazil ice blocked the rack twice", "ice in hard winters"],
  gravel: ["gravel in front of the rack after floods", "bed load has to be dug out once a year"],
  wood: ["trunks bent two bars", "driftwood jams the cleaner"],
  none: ["no trouble", "good", "works well; we see few fish"],
};

function chosen(shares: Readonly<Record<string, number>>, draws: Draws): string {
  return Object.keys(shares)[draws.categorical(Object.values(shares))];
}

function rounded(value: number, digits: number): number {
  return Number(value.toFixed(digits));
}

function percentage(value: number): string {
  return `${(100 * value).toFixed(1)} %`;
}
