import { checkInputs } from "../formula/check";
import { discharge, type InputSpecs, kinematicViscosity, length, number } from "../formula/input";
import { practice, type Source, stated } from "../formula/source";
import { noteUse } from "../formula/usage";
import type { Discharge, KinematicViscosity, Length, Velocity } from "../quantity/dimension";
import { freeFall } from "../quantity/constants";
import { u } from "../quantity/u";
import { barReynolds, modelBarReynolds } from "./reynolds";
import { froudeScale } from "./scale";

/** A flume: the largest channel and discharge that it can hold. */
export interface Flume {
  readonly width: Length;
  readonly depth: Length;
  readonly discharge: Discharge;
}

/** The least Reynolds number of a bar with which a model's head loss is still that of nature, and where it comes from. */
export interface ReynoldsLimit {
  readonly least: number;
  readonly source: Source;
}

/**
 * The usual least Reynolds number of a bar in a model. Below it viscosity takes a part: friction along the bars grows,
 * the wake changes, and the head loss, usually too high, is no longer that of nature. Common practice, no source: the
 * edges of a rectangular bar fix where the flow parts from it, a rounded or foil-shaped bar needs more. Show it in your
 * own flume by runs at several discharges.
 */
export const barReynoldsLimit: ReynoldsLimit = {
  least: 1500,
  source: practice(
    "order of magnitude for sharp-edged bars; show it in the flume, and ask more of rounded bars",
  ),
};

/** What `modelScales` needs to know. */
export interface ModelScalesInput {
  readonly channelWidth: Length;
  readonly waterDepth: Length;
  readonly discharge: Discharge;
  readonly barThickness: Length;
  readonly flume: Flume;
  /** The least Reynolds number of a bar; `barReynoldsLimit` unless told. */
  readonly leastBarReynolds?: number;
  /** Of the model's water; that at 10 °C unless told. */
  readonly kinematicViscosity?: KinematicViscosity;
}

/** A demand on the length scale of a model. */
export interface ScaleDemand {
  readonly demand: "width of the flume" | "depth of the flume" | "pump" | "Reynolds number of the bars";
  /** The scale at which the demand is just met. */
  readonly lengthScale: number;
  /** Whether the scale must be at least or at most that. */
  readonly must: "at least" | "at most";
}

/** A part of the channel in the flume: enough for the head loss of bars, not for a fish's way along the rack. */
export interface ModelSection {
  readonly lengthScale: number;
  /** Parts of the channel's width and depth; both 1 where the whole channel fits. */
  readonly widthShare: number;
  readonly depthShare: number;
  /** In the flume. */
  readonly width: Length;
  readonly depth: Length;
  readonly discharge: Discharge;
  /**
   * Of the flow in the section, velocity over the wave's √(g h): that of nature where the depth is whole, higher where
   * it is cut; it should stay well below 1.
   */
  readonly froudeNumber: number;
}

/** Which length scales a flume allows for a model of the whole channel, and what remains where none does. */
export interface ModelScales {
  readonly demands: readonly ScaleDemand[];
  /** The least scale, that is the largest model, which the flume holds. */
  readonly least: number;
  /** The greatest scale, that is the smallest model, with bars of a Reynolds number that is high enough. */
  readonly greatest: number;
  /** Whether a scale meets all demands. */
  readonly fits: boolean;
  readonly approachVelocity: Velocity;
  /** Of the bars in nature, and in the largest model that the flume holds. */
  readonly barReynolds: number;
  readonly barReynoldsAtLeast: number;
  /** What the flume holds at the greatest scale, where it does not hold the whole channel. */
  readonly section: ModelSection;
  readonly limit: ReynoldsLimit;
}

const specs = {
  channelWidth: length("B", { above: 0 }),
  waterDepth: length("h", { above: 0 }),
  discharge: discharge("Q", { above: 0 }),
  barThickness: length("s", { above: 0, unit: "mm" }),
  "flume.width": length("B_f", { above: 0 }),
  "flume.depth": length("h_f", { above: 0 }),
  "flume.discharge": discharge("Q_f", { above: 0 }),
  leastBarReynolds: number("R_{s,min}", { above: 0 }),
  kinematicViscosity: kinematicViscosity("\\nu", { above: 0, default: 1.3e-6 }),
} satisfies InputSpecs;

/**
 * Length scales at which a flume can hold a Froude model of a rack with its channel.
 *
 * Returns the demands of width, depth and pump, each the least scale (nature over model) that it allows, the greatest
 * scale that the bars' Reynolds number allows, and whether a scale meets all. Where none does, `section` is the part of
 * the channel that can be built at the greatest scale: in full depth if the flume is deep enough, as wide as flume and
 * pump allow. A greatest scale below 1 says that the bars in nature themselves lie below the limit. Throws a RangeError for sizes
 * that are not above 0.
 *
 * @example
 * rack.modelScales({ channelWidth: u.m(12), waterDepth: u.m(2.4), discharge: u.m3ps(14), barThickness: u.mm(8),
 *   flume: { width: u.m(1.5), depth: u.m(0.8), discharge: u.Lps(300) } }).least // => 8
 */
export function modelScales(input: ModelScalesInput): ModelScales {
  const { flume, leastBarReynolds, ...channel } = input;
  // A boundary: after checkInputs every name holds one number.
  const bare = checkInputs("rack.modelScales", specs, {
    ...channel,
    "flume.width": flume.width,
    "flume.depth": flume.depth,
    "flume.discharge": flume.discharge,
    leastBarReynolds: leastBarReynolds ?? barReynoldsLimit.least,
  }) as Readonly<Record<keyof typeof specs, number>>;
  for (const { id } of [froudeScale, modelBarReynolds]) noteUse(id);
  const approachVelocity = u.mps(bare.discharge / (bare.channelWidth * bare.waterDepth));
  const { barThickness, kinematicViscosity: viscosity } = bare;
  const inNature = barReynolds.evaluate({ approachVelocity, barThickness, kinematicViscosity: viscosity });
  const byWidth = bare.channelWidth / bare["flume.width"];
  const byDepth = bare.waterDepth / bare["flume.depth"];
  const byPump = (bare.discharge / bare["flume.discharge"]) ** 0.4;
  const greatest = (inNature / bare.leastBarReynolds) ** (2 / 3);
  const least = Math.max(byWidth, byDepth, byPump);
  const depthShare = Math.min(1, greatest / byDepth);
  const widthShare = Math.min(1, greatest / byWidth, (greatest / byPump) ** 2.5 / depthShare);
  const depth = u.m((depthShare * bare.waterDepth) / greatest);
  const ratios = froudeScale.evaluate({ lengthScale: greatest });
  return {
    demands: [
      { demand: "width of the flume", lengthScale: byWidth, must: "at least" },
      { demand: "depth of the flume", lengthScale: byDepth, must: "at least" },
      { demand: "pump", lengthScale: byPump, must: "at least" },
      { demand: "Reynolds number of the bars", lengthScale: greatest, must: "at most" },
    ],
    least,
    greatest,
    fits: least <= greatest,
    approachVelocity,
    barReynolds: inNature,
    barReynoldsAtLeast: inNature / least ** 1.5,
    section: {
      lengthScale: greatest,
      widthShare,
      depthShare,
      width: u.m((widthShare * bare.channelWidth) / greatest),
      depth,
      discharge: u.m3ps((widthShare * depthShare * bare.discharge) / ratios.discharge),
      froudeNumber: approachVelocity / ratios.velocity / Math.sqrt(freeFall * depth),
    },
    limit:
      leastBarReynolds === undefined
        ? barReynoldsLimit
        : { least: leastBarReynolds, source: stated("least Reynolds number of a bar") },
  };
}
