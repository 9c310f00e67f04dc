import * as chain from "../../kernel-helpers/src/chain";
import * as figures from "../../kernel-helpers/src/figures";
import { energyFigures } from "./energyFigures";
import { bypassFigures } from "./bypassFigures";
import { cloggingFigures } from "./cloggingFigures";
import { lawFigures } from "./lawFigures";
import { surveyFigures } from "./surveyFigures";
import { uncertaintyFigures } from "./uncertaintyFigures";
import * as movement from "../../kernel-helpers/src/movement";
import { u } from "../../kernel-helpers/src/quantity";
import { plan } from "../../kernel-helpers/src/trial/planning/plan";
import { alongFlumeRack, faultyRecord, flumeField, flumeSite, intoBypass } from "./velocities";

const steps = (from: number, to: number, count: number): number[] =>
  Array.from({ length: count }, (_, i) => from + ((to - from) * i) / (count - 1));

export const totalLength = steps(0.03, 0.9, 120);
const angles = steps(Math.PI / 9, Math.PI / 2, 60);
const relativeWidth = steps(0, 1.4, 100);
const classEdges = steps(0, 0.96, 33);
const flows = steps(0, 1, 365).map((share) => 6 + 300 * (1 - share) ** 5);

const ramp = (width: number): number => (width >= 1 ? 1 : width <= 0.25 ? 0 : ((width - 0.25) / 0.75) ** 1.5);
const strike = (length: number): number => 1 - Math.min(1, 0.12 + 0.75 * length);
const total = (spacing: number): number[] =>
  totalLength.map((length) => {
    const protectedShare = ramp((0.1 * length) / spacing);
    return protectedShare * 0.99 + (1 - protectedShare) * strike(length);
  });

/** Total survival for a spacing in metres, with its lowest point as the only minimum. */
export function survivalCurve(spacing: number): figures.TotalSurvivalCurve {
  const survival = total(spacing);
  const lowest = survival.indexOf(Math.min(...survival));
  return {
    name: `${1000 * spacing} mm`,
    totalSurvival: survival,
    minima: [{ totalLength: totalLength[lowest], totalSurvival: survival[lowest] }],
  };
}

const species = ["roach", "grayling", "ide", "perch", "bleak", "burbot", "silver eel"];
const numbersAround = (middle: number): number[] =>
  classEdges.slice(1).map((edge) => Math.round(40 * Math.exp(-(((edge - middle) / 0.08) ** 2))));

/** A way through the flume: there and back three times, then on to where it ends. */
const fishTrack = (fishId: string, lane: number, end: readonly [x: number, y: number]): movement.Track => {
  const places = [
    ...steps(0, 3, 40).map((t) => [-2 + 1.6 * Math.abs(Math.sin(2 * t)), lane + 0.1 * Math.sin(9 * t)]),
    end,
  ];
  return movement.trackOf(
    fishId,
    places.map(([x, y], at) => ({ time: u.s(at < 20 ? 2 * at : 20 + 2 * at), x: u.m(x), y: u.m(y) })),
    { gapLimit: u.s(8) },
  );
};
const fishPathsInput: figures.FishPathsInput = {
  title: "Paths of fish before rack and bypass",
  site: movement.site({ rackAngle: u.deg(38), channelWidth: u.m(1.5), bypassWidth: u.m(0.2) }),
  tracks: [
    fishTrack("A", 0.9, [1.8, 1.4]),
    fishTrack("B", 0.5, [1, 0.5]),
    fishTrack("C", 0.7, [-1, 0.7]),
    fishTrack("D", 0.4, [0.8, 0.64]),
    movement.trackOf("E", [{ time: u.s(0), x: u.m(-2), y: u.m(1.2) }], { gapLimit: u.s(8) }),
  ],
  flow: (x, y) => (y < 0.1 ? undefined : { alongFlow: 0.4 + 0.1 * x * Math.sin(2 * y), across: 0.05 * y }),
};

/** Five plants in a row, all with one survival. */
const riverCourse = (survival: number): readonly chain.CoursePoint[] =>
  chain.course({
    from: "Orrowgate",
    plants: ["Orrowgate", "Tarvale", "Halvern Weir", "Pellock", "Sallowmere"].map((plant, at, all) => ({
      plant,
      next: all[at + 1],
      survival,
      entering: 300,
      reachLength: u.km(9 + 4 * at),
      mortalityPerKilometre: 0.004,
    })),
  });

const around = (estimate: number, reach: number): figures.IntervalValue => ({
  estimate,
  lower: estimate - reach,
  upper: estimate + reach,
});

/** A class whose observed share lies off the predicted one. */
const calibrationClass = (name: string, predicted: number, difference: number) => ({
  name: `${name}, 60 to 120 mm`,
  fish: 100,
  nights: 20,
  predicted,
  observed: around(predicted + difference, 0.06),
  difference,
  interval: { lower: predicted - 0.08, upper: Math.min(1, predicted + 0.08) },
  isInside: Math.abs(difference) < 0.08,
});

/** One figure of each kind, with long names and crowded marks, for checks that hold for all of them. */
export const allFigures: Readonly<Record<string, figures.FigureSpec>> = {
  flowDuration: figures.flowDuration({
    title: "Flow duration at Halvern Weir",
    flows,
    exceedance: flows.map((_, i) => (i + 1) / (flows.length + 1)),
    marks: [
      { name: "design discharge", flow: 34 },
      { name: "mean flow", flow: 41 },
      { name: "residual flow", flow: 3 },
    ],
  }),
  headLossAgainst: figures.headLossAgainst({
    title: "Head loss of one rack by four equations",
    x: { title: "Rack angle", unit: "deg", values: angles },
    curves: [
      {
        title: "horizontal bars",
        headLoss: angles.map((angle) => 0.03 * Math.sin(angle) ** 2),
        forHorizontalBars: true,
        testedRangeKnown: false,
        withinTestedRange: angles.map(() => false),
      },
      {
        title: "streamwise bars",
        headLoss: angles.map(() => 0.028),
        forHorizontalBars: false,
        testedRangeKnown: true,
        withinTestedRange: angles.map((angle) => angle > 0.52),
      },
      {
        title: "angled bars",
        headLoss: angles.map((angle) => 0.06 - 0.02 * angle),
        forHorizontalBars: false,
        testedRangeKnown: true,
        withinTestedRange: angles.map((angle) => angle > 0.52),
      },
      {
        title: "own law fitted to flume runs",
        headLoss: angles.map((angle) => 0.018 * angle),
        forHorizontalBars: true,
        testedRangeKnown: true,
        withinTestedRange: angles.map((angle) => angle > 0.8),
      },
    ],
  }),
  protectionCurve: figures.protectionCurve({
    title: "Protection against relative width",
    relativeWidth,
    curves: [
      { name: "ramp (illustrative defaults)", protection: relativeWidth.map(ramp) },
      { name: "logistic", protection: relativeWidth.map((width) => 1 / (1 + Math.exp(-9 * (width - 0.6)))) },
    ],
    threshold: 0.25,
    points: [
      {
        name: "roach, 12 runs",
        values: [
          { relativeWidth: 0.4, protection: 0.2, interval: [0.1, 0.34] },
          { relativeWidth: 0.7, protection: 0.52, interval: [0.4, 0.64] },
        ],
      },
    ],
  }),
  turbineSurvival: figures.turbineSurvival({
    title: "Survival through one unit",
    totalLength,
    curves: [
      { title: "blade strike", survival: totalLength.map(strike) },
      {
        title: "salmonid regression",
        survival: totalLength.map((length) => 0.95 - 0.6 * length),
        tolerance: 0.1,
        tested: totalLength.map((length) => length < 0.3),
      },
    ],
  }),
  totalSurvival: figures.totalSurvival({
    title: "Total survival by fish length, four clear spacings",
    totalLength,
    curves: [0.012, 0.018, 0.025, 0.04].map(survivalCurve),
  }),
  "totalSurvival with long names": figures.totalSurvival({
    title: "Three readings",
    totalLength,
    curves: [
      "every protected fish survives, guided or refused",
      "guided fish only",
      "each fish at its own rate",
    ].map((name, i) => ({ ...survivalCurve(0.018 + 0.006 * i), name: `${name}, as the reading assumes it` })),
  }),
  "bars with long categories": figures.bars({
    x: {
      title: "Bar shape",
      categories: [
        "sharp rectangle",
        "round nose",
        "round nose and tail",
        "lens nose tapered",
        "streamlined",
        "round rod",
      ],
    },
    y: { title: "Head loss", unit: "mm" },
    series: [{ name: "head loss", values: [0.013, 0.01, 0.009, 0.005, 0.004, 0.0095] }],
  }),
  "protectionCurve with a band": figures.protectionCurve({
    title: "Ramp fitted to 803 fish in 239 runs",
    relativeWidth,
    curves: [
      {
        name: "ramp, fitted, with a band of 95 %",
        protection: relativeWidth.map(ramp),
        band: {
          lower: relativeWidth.map((width) => 0.9 * ramp(width)),
          upper: relativeWidth.map((width) => Math.min(1, 1.1 * ramp(width))),
        },
      },
    ],
    points: [
      {
        name: "fish by class of relative width",
        values: [0.3, 0.5, 0.7, 0.9, 1.2].map((width) => ({
          relativeWidth: width,
          protection: ramp(width),
          interval: [Math.max(0, ramp(width) - 0.1), Math.min(1, ramp(width) + 0.1)],
        })),
      },
    ],
  }),
  "totalSurvival with a band": figures.totalSurvival({
    title: "Total survival with the fitted curve",
    totalLength,
    curves: [
      {
        ...survivalCurve(0.018),
        band: {
          lower: total(0.025),
          upper: total(0.012),
        },
      },
    ],
  }),
  "totalSurvival with a barrier length": figures.totalSurvival({
    totalLength,
    curves: [survivalCurve(0.018)],
    barrierLength: 0.18,
  }),
  lengthFrequency: figures.lengthFrequency({
    title: "Fish in the sample",
    classEdges,
    counts: species.map((name, i) => ({ species: name, numbers: numbersAround(0.1 + 0.08 * i) })),
    survival: { name: "total survival, 18 mm", totalLength, survival: total(0.018) },
  }),
  layoutPlan: figures.layoutPlan({
    channelWidth: 17,
    rackAngle: (38 * Math.PI) / 180,
    approachVelocity: 0.56,
  }),
  "layoutPlan of a flat angle": figures.layoutPlan({
    title: "Rack in the channel",
    channelWidth: 17,
    rackAngle: (15 * Math.PI) / 180,
    approachVelocity: 0.56,
  }),
  "layoutPlan square to the flow": figures.layoutPlan({
    channelWidth: 17,
    rackAngle: Math.PI / 2,
    approachVelocity: 0.56,
  }),
  fishPaths: figures.fishPaths(fishPathsInput),
  "fishPaths near the rack in an even flow": figures.fishPaths({
    ...fishPathsInput,
    tracks: fishPathsInput.tracks.slice(0, 2),
    from: u.m(-0.8),
    flow: movement.uniformFlow(u.mps(0.5)),
  }),
  "fishPaths without a flow": figures.fishPaths({
    ...fishPathsInput,
    flow: undefined,
    tracks: fishPathsInput.tracks.slice(0, 1),
  }),
  lines: figures.lines({
    title: "Normal and tangential velocity",
    x: { title: "Rack angle", unit: "deg", values: angles },
    y: { title: "Velocity", unit: "mps" },
    curves: [
      { name: "normal to the rack", values: angles.map((angle) => 0.56 * Math.sin(angle)) },
      { name: "along the rack", values: angles.map((angle) => 0.56 * Math.cos(angle)) },
    ],
  }),
  "lines with marks": figures.lines({
    x: { title: "Clogged share", unit: "%", values: steps(0, 0.65, 60) },
    y: { title: "Head loss", unit: "cm" },
    curves: [{ name: "open share", values: steps(0, 0.65, 60).map((share) => 0.02 / (1 - share) ** 2) }],
    marks: [
      { axis: "y", at: 0.1, text: "cleaner starts" },
      { axis: "x", at: 0.5, text: "half clogged" },
      { axis: "y", at: 0.002, text: "clean rack" },
    ],
  }),
  "lines drawn as points": figures.lines({
    x: { title: "Flow", unit: "m3ps", values: [10, 20, 30] },
    y: { title: "Head loss", unit: "cm" },
    curves: [{ name: "flume runs", values: [0.01, 0.04, 0.09], tested: [true, true, false] }],
    drawn: "points",
  }),
  bars: figures.bars({
    title: "Population survival by species",
    x: { title: "Species", categories: species },
    y: { title: "Survival", unit: "" },
    series: [
      { name: "by numbers", values: [0.9, 0.91, 0.88, 0.93, 0.8, 0.7, 0.6] },
      { name: "by biomass", values: [0.85, 0.86, 0.83, 0.9, 0.79, 0.68, 0.55] },
    ],
  }),
  trialPlan: figures.trialPlan({
    title: "Runs by clear spacing",
    plan: plan({
      factors: { clearSpacing: [0.012, 0.018, 0.025, 0.04], cue: ["none", "light"] },
      replicates: 6,
      fishPerRun: 4,
      runsPerDay: 7,
      batches: [
        { name: "silver eel-1", fish: 100 },
        { name: "silver eel-2", fish: 100 },
      ],
      controls: [{ name: "no rack", per: "day", runs: 1 }],
      seed: 1,
    }),
    named: (level) => `${1000 * Number(level)} mm`,
  }),
  efficiencies: figures.efficiencies({
    title: "Guidance by cue",
    share: "Guidance (bypassed of all active fish)",
    rows: ["none", "light behind the bars, both sides", "bubbles"].map((group, i) => ({
      group,
      trials: 200 + i,
      runs: 60,
      estimate: 0.45 + 0.1 * i,
      lower: 0.37 + 0.1 * i,
      upper: 0.54 + 0.1 * i,
      naiveLower: 0.4 + 0.1 * i,
      naiveUpper: 0.5 + 0.1 * i,
    })),
  }),
  outcomeShares: figures.outcomeShares({
    title: "What fish did",
    by: "Species",
    groups: species.map((group, i) => ({
      group,
      fish: 100,
      bypassed: 50 - i,
      rackPassed: 20 + i,
      refused: 18,
      impinged: 2,
      inactive: 10,
    })),
  }),
  shareAgainstTime: figures.shareAgainstTime({
    title: "Guided by time",
    share: "Share guided (of active fish)",
    otherWaysCensored: true,
    courses: [1, 2].map((half) => ({
      name: `runs of ${20 * half} min`,
      shares: steps(0, 1200 * half, 21).map((time, i) => ({
        time: u.s(time),
        atRisk: 400 - 15 * i,
        share: 0.02 * i * half,
        lower: 0.016 * i * half,
        upper: 0.024 * i * half,
        otherWaysCensored: 0.025 * i * half,
      })),
    })),
  }),
  ...surveyFigures,
  ...cloggingFigures,
  ...uncertaintyFigures,
  ...lawFigures,
  ...bypassFigures,
  ...energyFigures,
  calibration: figures.calibration({
    title: "Predicted and observed at two plants",
    share: "guidance",
    groups: ["Halvern Weir", "Kelmar Mill"].map((name, plant) => ({
      name,
      classes: species.map((one, at) => calibrationClass(one, 0.15 + 0.13 * at, plant === 0 ? 0.01 : -0.14)),
    })),
  }),
  "intervals as points": figures.intervals({
    title: "Survival at Kelmar Mill, relative to control fish",
    x: { title: "Way and species", categories: ["bypass, roach", "turbine, roach", "turbine, silver eel"] },
    y: { title: "Relative survival", unit: "" },
    reference: 1,
    series: ["at once", "after 96 h"].map((name, later) => ({
      name,
      values: [0.99, 0.9, 0.4].map((survival) => around(survival - 0.03 * later, 0.05)),
    })),
  }),
  "intervals as bars": figures.intervals({
    title: "Fish that passed",
    x: { title: "Species", categories: species },
    y: { title: "Fish that passed", unit: "" },
    drawn: "bars",
    series: ["by the bypass", "by the turbine"].map((name, way) => ({
      name,
      values: species.map((_, at) => (way === 1 && at === 3 ? undefined : around(40 + 30 * at, 12))),
    })),
  }),
  probeRecord: figures.probeRecord({ title: "Raw record", record: faultyRecord() }),
  velocityMap: figures.velocityMap({
    title: "Bottom opening, mean over the depth",
    field: flumeField("bottom opening"),
    site: flumeSite,
    range: [0.4, 0.65],
  }),
  "velocityMap of a part": figures.velocityMap({
    field: flumeField("full depth"),
    site: flumeSite,
    part: { x: [0.7, 1.7], y: [0.8, 1.5] },
  }),
  alongRack: figures.alongRack({
    title: "Velocities 0.1 m upstream of the rack",
    layouts: ["full depth", "bottom opening"].map((name) => ({ name, along: alongFlumeRack(name) })),
    limits: [{ name: "normal velocity, in general", value: 0.5 }],
  }),
  "alongRack, normal component alone": figures.alongRack({
    layouts: [{ name: "full depth", along: alongFlumeRack("full depth") }],
    components: "normal",
    limits: [
      { name: "normal velocity, in general", value: 0.5 },
      { name: "weak swimmers", value: 0.3 },
    ],
  }),
  alongLine: figures.alongLine({
    title: "Acceleration on the way into the bypass",
    lines: ["full depth", "bottom opening"].map((name) => ({ name, along: intoBypass(name) })),
    limits: [{ name: "limit of practice", value: 1 }],
  }),
  "alongLine, speed": figures.alongLine({
    shows: "speed",
    lines: [{ name: "full depth", along: intoBypass("full depth") }],
  }),
  alongRiver: figures.alongRiver({
    title: "Eels on their way to the sea",
    courses: [0.8, 0.95].map((survival) => ({
      name: survival === 0.8 ? "as it is" : "after the refits",
      points: riverCourse(survival),
    })),
  }),
  "alongRiver, all fish": figures.alongRiver({
    shows: "fish",
    courses: [{ name: "as it is", points: riverCourse(0.8) }],
  }),
};
