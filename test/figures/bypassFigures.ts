import * as bypass from "../../kernel-helpers/src/bypass";
import * as figures from "../../kernel-helpers/src/figures";
import { u } from "../../kernel-helpers/src/quantity";

export const bypassStructure = {
  entrance: { width: u.m(0.55), sillLevel: u.m(0), bedLevel: u.m(0) },
  control: {
    kind: "rampedCrest",
    crestWidth: u.m(0.8),
    crestLevel: u.m(2.6),
    accelerationLength: u.m(3),
  },
  chute: { width: u.m(0.8), length: u.m(60), bedSlope: 0.06, roughness: 0.013, headLevel: u.m(2.6) },
  pool: { bottomLevel: u.m(-3) },
} as const satisfies bypass.BypassStructure;

export const bypassWater: bypass.BypassWater = {
  turbineFlow: u.m3ps(34),
  approachVelocity: u.mps(0.556),
  headwaterLevel: u.m(3.6),
  tailwaterLevel: u.m(-1.8),
};

export const section = (
  change: Partial<bypass.BypassStructure> = {},
  more: Partial<figures.BypassSectionInput> = {},
  water: bypass.BypassWater = bypassWater,
): figures.FigureSpec => {
  const structure: bypass.BypassStructure = { ...bypassStructure, ...change };
  return figures.bypassSection({ structure, water, flow: bypass.flowThrough(structure, water), ...more });
};

const levels = Array.from({ length: 60 }, (_, i) => 2.5 + i / 40);
const through = (control: bypass.Control): number[] =>
  levels.map(
    (level) =>
      bypass.controlFlow(control, { upstreamLevel: u.m(level), downstreamLevel: u.m(1.5) }).discharge,
  );

const lowChute = { ...bypassStructure.chute, headLevel: u.m(2), bedSlope: 0.05 };

/** A bypass as a whole, its parts, and other controls. */
export const bypassFigures: Readonly<Record<string, figures.FigureSpec>> = {
  bypassSection: section({}, { title: "Bypass at mean flow" }),
  bypassEntrance: section({}, { part: "entrance" }),
  bypassOutfall: section({}, { part: "outfall", title: "Outfall" }),
  bypassSectionDrowned: section({}, {}, { ...bypassWater, tailwaterLevel: u.m(0.6) }),
  bypassGate: section(
    {
      control: {
        kind: "sluiceGate",
        width: u.m(0.8),
        sillLevel: u.m(2),
        opening: u.m(0.5),
        accelerationLength: u.m(2),
      },
      chute: lowChute,
    },
    { part: "entrance" },
  ),
  bypassSharpCrest: section({
    control: {
      kind: "sharpCrest",
      crestWidth: u.m(0.8),
      crestLevel: u.m(2.7),
      floorLevel: u.m(0),
      accelerationLength: u.m(3),
    },
    chute: { ...lowChute, length: u.m(12) },
  }),
  bypassOrifice: section(
    {
      entrance: { ...bypassStructure.entrance, topLevel: u.m(1.5) },
      control: {
        kind: "orifice",
        width: u.m(0.6),
        height: u.m(0.5),
        sillLevel: u.m(2),
        accelerationLength: u.m(2),
      },
      chute: lowChute,
    },
    { part: "entrance" },
  ),
  dischargeAgainstLevel: figures.dischargeAgainstLevel({
    title: "What three controls let through",
    levels,
    curves: [
      { name: "ramped crest", values: through(bypassStructure.control) },
      {
        name: "sluice gate",
        values: through({
          kind: "sluiceGate",
          width: u.m(0.8),
          sillLevel: u.m(2),
          opening: u.m(0.5),
          accelerationLength: u.m(2),
        }),
      },
    ],
    marks: [
      { level: 3.5, text: "low headwater" },
      { level: 3.6, text: "mean headwater" },
      { level: 3.85, text: "high headwater" },
    ],
    wantedDischarge: 1.36,
  }),
};
