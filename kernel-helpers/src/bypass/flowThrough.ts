import { discharge, type InputSpecs, length, printValue, velocity } from "../formula/input";
import { noteUse } from "../formula/usage";
import type { Discharge, Length, PlainNumber, Velocity, VelocityGradient } from "../quantity/dimension";
import { freeFall } from "../quantity/constants";
import { u } from "../quantity/u";
import { rootBetween } from "../statistics/root";
import { criticalDepth, normalDepth } from "./channel";
import { checkChute, type Chute, type ChuteFlow, chuteFlow } from "./chute";
import { checkControl, type Control, type ControlFlow, controlFlow } from "./control";
import { acceleration, entranceVelocityRatio, impactVelocity } from "./entrance";
import { checkedNumbers } from "./numbers";
import type { BypassValues } from "./practice";

/** A bypass as built. Levels are heights above one datum of the reader's choice. */
export interface BypassStructure {
  readonly entrance: {
    readonly width: Length;
    readonly sillLevel: Length;
    /** Of the bed of the approach channel. */
    readonly bedLevel: Length;
    /** Upper edge of an entrance below the surface; open to the surface unless given. */
    readonly topLevel?: Length;
  };
  readonly control: Control;
  readonly chute: Chute;
  readonly pool: { readonly bottomLevel: Length };
}

/** The river at one time, as the bypass meets it. */
export interface BypassWater {
  readonly turbineFlow: Discharge;
  readonly approachVelocity: Velocity;
  readonly headwaterLevel: Length;
  readonly tailwaterLevel: Length;
}

/** The flow through a bypass from entrance to pool. */
export interface BypassFlow {
  readonly discharge: Discharge;
  readonly shareOfTurbineFlow: PlainNumber;
  /** Wetted height of the entrance. */
  readonly entranceHeight: Length;
  readonly entranceVelocity: Velocity;
  /** Entrance velocity over approach velocity. */
  readonly velocityRatio: PlainNumber;
  readonly control: ControlFlow;
  /** Mean rise of the velocity from the entrance to the control. */
  readonly acceleration: VelocityGradient;
  readonly chute: ChuteFlow;
  readonly outfall: {
    readonly lipLevel: Length;
    /** From the water's surface at the lip to the pool; 0 where the pool stands above it. */
    readonly fallHeight: Length;
    /** Of the water, and a fish in it, as it meets the pool: its velocity in the chute and the fall together. */
    readonly impactVelocity: Velocity;
    readonly poolDepth: Length;
  };
  /** What the rules of practice ask for, ready for `bypass.checkPractice`. */
  readonly values: BypassValues;
  readonly cautions: readonly string[];
}

const caller = "bypass.flowThrough";
const level = () => length("z", { unit: "m", note: "above the datum" });

const entranceSpecs = {
  width: length("b_e", { above: 0, unit: "m" }),
  sillLevel: level(),
  bedLevel: level(),
  topLevel: length("z_t", { unit: "m", default: Number.MAX_VALUE }),
} satisfies InputSpecs;

const waterSpecs = {
  turbineFlow: discharge("Q_T", { above: 0 }),
  approachVelocity: velocity("U", { above: 0 }),
  headwaterLevel: level(),
  tailwaterLevel: level(),
} satisfies InputSpecs;

const printed = (value: number): string => printValue(value, "length", "m");

/**
 * The flow through a bypass: what its control lets through at the water levels of the day, and from that the
 * velocities at the entrance, in the chute and at the outfall.
 *
 * Returns the discharge in m³/s, its share of the turbine flow, velocities in m/s, depths and levels in metres, the
 * values that the rules of practice ask for, and cautions. Losses at the entrance are taken to use up the velocity head
 * of the approach. Throws a RangeError for a bypass that can't be built or falls dry.
 *
 * @example
 * bypass.flowThrough({ entrance: { width: u.m(0.55), sillLevel: u.m(0), bedLevel: u.m(0) },
 *     control: { kind: "rampedCrest", crestWidth: u.m(0.8), crestLevel: u.m(2.6), accelerationLength: u.m(3) },
 *     chute: { width: u.m(0.8), length: u.m(60), bedSlope: 0.06, roughness: 0.013, headLevel: u.m(2.6) },
 *     pool: { bottomLevel: u.m(-3) } },
 *   { turbineFlow: u.m3ps(34), approachVelocity: u.mps(0.556), headwaterLevel: u.m(3.6),
 *     tailwaterLevel: u.m(-1.8) }).outfall.impactVelocity // => 7.3489 m/s
 */
export function flowThrough(structure: BypassStructure, water: BypassWater): BypassFlow {
  const { headwaterLevel, tailwaterLevel, turbineFlow, approachVelocity } = checkedNumbers(
    caller,
    waterSpecs,
    water,
  );
  const entrance = checkedEntrance(structure);
  const { chute, control, pool } = structure;
  const poolDepth = tailwaterLevel - pool.bottomLevel;
  if (poolDepth <= 0) {
    throw new RangeError(
      `${caller}: tailwaterLevel is ${printed(tailwaterLevel)}; it must be above the pool's bottomLevel, ${printed(pool.bottomLevel)}.`,
    );
  }
  for (const { id } of [criticalDepth, normalDepth, acceleration, entranceVelocityRatio, impactVelocity])
    noteUse(id);
  const throughControl = settled(structure, water);
  const flow = throughControl.discharge;
  const entranceHeight = Math.min(entrance.topLevel, headwaterLevel) - entrance.sillLevel;
  if (entranceHeight <= 0) {
    throw new RangeError(
      `${caller}: headwaterLevel is ${printed(headwaterLevel)}; it must be above the entrance's sillLevel, ${printed(entrance.sillLevel)}.`,
    );
  }
  const entranceVelocity = u.mps(flow / (entrance.width * entranceHeight));
  const along = chuteFlow(chute, {
    discharge: flow,
    startDepth: u.m(flow / (chute.width * throughControl.velocity)),
    endLevel: u.m(tailwaterLevel),
  });
  const lip = along.profile[along.profile.length - 1];
  const fallHeight = Math.max(0, lip.bedLevel + lip.depth - tailwaterLevel);
  const impact = impactVelocity.evaluate({ fallHeight: fallHeight + lip.velocity ** 2 / (2 * freeFall) });
  const rise = acceleration.evaluate({
    velocityStart: entranceVelocity,
    velocityEnd: throughControl.velocity,
    distance: control.accelerationLength,
  });
  const velocityRatio = entranceVelocityRatio.evaluate({ entranceVelocity, approachVelocity });
  const shareOfTurbineFlow = flow / turbineFlow;
  return {
    discharge: flow,
    shareOfTurbineFlow,
    entranceHeight: u.m(entranceHeight),
    entranceVelocity,
    velocityRatio,
    control: throughControl,
    acceleration: u.perS(rise),
    chute: along,
    outfall: {
      lipLevel: lip.bedLevel,
      fallHeight: u.m(fallHeight),
      impactVelocity: u.mps(impact),
      poolDepth: u.m(poolDepth),
    },
    values: {
      shareOfTurbineFlow,
      velocityRatio,
      acceleration: u.perS(rise),
      entranceWidth: structure.entrance.width,
      entranceHeight: u.m(entranceHeight),
      entranceAboveBed: u.m(Math.max(0, entrance.sillLevel - entrance.bedLevel)),
      impactVelocity: u.mps(impact),
      fallHeight: u.m(fallHeight),
      poolDepth: u.m(poolDepth),
    },
    cautions: [...throughControl.cautions, ...chuteCautions(along, tailwaterLevel - lip.bedLevel)].map(
      (text) => `${caller}: ${text}`,
    ),
  };
}

function checkedEntrance({ entrance, control, chute, pool }: BypassStructure) {
  const checked = checkedNumbers(caller, entranceSpecs, entrance);
  if (checked.sillLevel < checked.bedLevel) {
    throw new RangeError(
      `${caller}: the entrance's sillLevel is ${printed(checked.sillLevel)}; it must be at least its bedLevel, ${printed(checked.bedLevel)}.`,
    );
  }
  checkControl(caller, control);
  checkChute(caller, chute);
  checkedNumbers(caller, { bottomLevel: level() }, pool);
  return checked;
}

/** Fast shallow water tears itself to foam; a lip below the tailwater holds a jump. */
function chuteCautions({ steep, profile }: ChuteFlow, tailwaterOverLip: number): string[] {
  const lip = profile[profile.length - 1];
  const drowned = tailwaterOverLip > lip.depth;
  return [
    ...(steep ? [] : ["the chute is mild: water stands behind the control and may drown it."]),
    ...(steep && drowned
      ? [
          "the tailwater stands over the end of the chute: a jump stands in it, and the water slows down there.",
        ]
      : []),
  ];
}

/**
 * The flow that the control lets through while the same flow fills the chute behind it: a free control at once, one that
 * the chute or the tailwater drowns by bisection.
 */
function settled({ control, chute }: BypassStructure, water: BypassWater): ControlFlow {
  const { headwaterLevel: upstreamLevel, tailwaterLevel } = water;
  const at = (downstreamLevel: number): ControlFlow =>
    controlFlow(control, { upstreamLevel, downstreamLevel: u.m(downstreamLevel) });
  if (tailwaterLevel >= upstreamLevel) {
    throw new RangeError(
      `${caller}: tailwaterLevel is ${printed(tailwaterLevel)}; it must be below headwaterLevel, ${printed(upstreamLevel)}.`,
    );
  }
  const free = at(tailwaterLevel);
  if (free.state === "dry")
    throw new RangeError(`${caller}: the bypass falls dry: ${free.cautions.join(" ")}`);
  const behind = (flow: number): number => {
    const chuteWater = chuteFlow(chute, {
      discharge: u.m3ps(flow),
      endLevel: tailwaterLevel,
    });
    return Math.max(
      tailwaterLevel,
      chute.headLevel + (chuteWater.steep ? chuteWater.criticalDepth : chuteWater.profile[0].depth),
    );
  };
  const through = (flow: number): ControlFlow | undefined => {
    const downstreamLevel = behind(flow);
    return downstreamLevel < upstreamLevel ? at(downstreamLevel) : undefined;
  };
  const first = through(free.discharge);
  if (first !== undefined && first.discharge >= free.discharge) return first;
  const missing = (flow: number): number => (through(flow)?.discharge ?? 0) - flow;
  const least = 1e-6 * free.discharge;
  if (missing(least) <= 0) {
    throw new RangeError(
      `${caller}: the chute's headLevel is ${printed(chute.headLevel)}; it must be below headwaterLevel, ${printed(upstreamLevel)}.`,
    );
  }
  return through(rootBetween(missing, least, free.discharge)) ?? free;
}
