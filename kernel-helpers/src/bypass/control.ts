import { type InputSpecs, length, printValue, ratio } from "../formula/input";
import type { Discharge, Length, PlainNumber, Velocity } from "../quantity/dimension";
import { noteUse } from "../formula/usage";
import { freeFall } from "../quantity/constants";
import { u } from "../quantity/u";
import { drownedSluiceGate, isDrowned } from "./drownedGate";
import { checkedNumbers } from "./numbers";
import { submergedOrifice } from "./openings";
import { broadCrestedWeir, headCaution, sharpCrestedWeir, submergence } from "./weirs";

/** A floor that rises to a crest, over which the flow passes through its critical depth. */
export interface RampedCrest {
  readonly kind: "rampedCrest";
  readonly crestWidth: Length;
  readonly crestLevel: Length;
  /** From the entrance to the crest. */
  readonly accelerationLength: Length;
  /** 1 without losses. */
  readonly coefficient?: PlainNumber;
}

/** A thin upright crest, such as a flap gate or stop logs. */
export interface SharpCrest {
  readonly kind: "sharpCrest";
  readonly crestWidth: Length;
  readonly crestLevel: Length;
  /** Of the bed in front of the crest. */
  readonly floorLevel: Length;
  /** Over which the velocity rises to that at the crest. */
  readonly accelerationLength: Length;
}

/** A gate lifted from its sill. */
export interface SluiceGate {
  readonly kind: "sluiceGate";
  readonly width: Length;
  readonly sillLevel: Length;
  readonly opening: Length;
  /** Depth of the jet over the opening; 0.61 unless given. */
  readonly contraction?: PlainNumber;
  readonly accelerationLength: Length;
}

/** A rectangular opening in a wall. */
export interface Orifice {
  readonly kind: "orifice";
  readonly width: Length;
  readonly height: Length;
  readonly sillLevel: Length;
  /** Discharge coefficient; 0.61 unless given. */
  readonly coefficient?: PlainNumber;
  readonly accelerationLength: Length;
}

/** What sets the discharge of a bypass. Levels are heights above one datum of the reader's choice. */
export type Control = RampedCrest | SharpCrest | SluiceGate | Orifice;

/** Water levels on both sides of a control. */
export interface ControlLevels {
  readonly upstreamLevel: Length;
  readonly downstreamLevel: Length;
}

/** The flow through a control. */
export interface ControlFlow {
  readonly discharge: Discharge;
  /** Above crest or sill; between both levels for an orifice. */
  readonly head: Length;
  readonly state: "free" | "drowned" | "dry";
  /** Greatest mean velocity in the control: at critical depth over a crest, in the jet of a gate or orifice. */
  readonly velocity: Velocity;
  readonly cautions: readonly string[];
}

const caller = "bypass.controlFlow";
const level = () => length("z", { unit: "m", note: "above the datum" });
const size = () => length("b", { above: 0, unit: "m" });

const specs = {
  rampedCrest: {
    crestWidth: size(),
    crestLevel: level(),
    accelerationLength: size(),
    coefficient: ratio("C", { above: 0, default: 1 }),
  },
  sharpCrest: {
    crestWidth: size(),
    crestLevel: level(),
    floorLevel: level(),
    accelerationLength: size(),
  },
  sluiceGate: {
    width: size(),
    sillLevel: level(),
    opening: size(),
    contraction: ratio("C_c", { above: 0, default: 0.61 }),
    accelerationLength: size(),
  },
  orifice: {
    width: size(),
    height: size(),
    sillLevel: level(),
    coefficient: ratio("C", { above: 0, default: 0.61 }),
    accelerationLength: size(),
  },
} as const satisfies Record<Control["kind"], InputSpecs>;

const levelSpecs = { upstreamLevel: level(), downstreamLevel: level() };

/**
 * The flow through a bypass's control at given water levels on its two sides.
 *
 * Returns discharge in m³/s, head in metres, velocity in m/s, whether the control is free, drowned or dry, and cautions.
 * The velocity of approach is left out of the heads. Throws a RangeError where the water downstream stands as high as
 * upstream, and for a control that can't be built.
 *
 * @example
 * bypass.controlFlow({ kind: "rampedCrest", crestWidth: u.m(0.8), crestLevel: u.m(2.6), accelerationLength: u.m(3) },
 *                    { upstreamLevel: u.m(3.6), downstreamLevel: u.m(3) }).discharge // => 1.3639 m³/s
 */
export function controlFlow(control: Control, levels: ControlLevels): ControlFlow {
  const { upstreamLevel, downstreamLevel } = checkedNumbers(caller, levelSpecs, levels);
  checkControl(caller, control);
  if (downstreamLevel >= upstreamLevel) {
    throw new RangeError(
      `${caller}: downstreamLevel is ${printed(downstreamLevel)}; it must be below upstreamLevel, ` +
        `${printed(upstreamLevel)}: water does not flow uphill.`,
    );
  }
  formulasOf[control.kind].forEach(noteUse);
  const base = lowestLevel(control);
  if (upstreamLevel <= base) return dry(base, upstreamLevel);
  const heads = { head: upstreamLevel - base, behind: Math.max(0, downstreamLevel - base) };
  switch (control.kind) {
    case "rampedCrest":
      return overRamp(control, heads);
    case "sharpCrest":
      return overSharpCrest(control, heads);
    case "sluiceGate":
      return belowGate(control, heads);
    case "orifice":
      return throughOrifice(control, heads);
  }
}

/** Refuses a control that can't be built. */
export function checkControl(from: string, control: Control): void {
  const { kind, ...parts } = control;
  if (!Object.hasOwn(specs, kind)) {
    throw new RangeError(
      `${from}: there is no control "${String(kind)}"; the controls are ${Object.keys(specs).join(", ")}.`,
    );
  }
  checkedNumbers(from, specs[kind], parts);
  if (control.kind === "sharpCrest" && control.crestLevel <= control.floorLevel) {
    throw new RangeError(
      `${from}: crestLevel is ${printed(control.crestLevel)}; it must be above floorLevel, ${printed(control.floorLevel)}.`,
    );
  }
}

/** What a control is reckoned with, for the list of sources. */
const formulasOf: Readonly<Record<Control["kind"], readonly string[]>> = {
  rampedCrest: [broadCrestedWeir.id],
  sharpCrest: [sharpCrestedWeir.id, submergence.id],
  sluiceGate: [drownedSluiceGate.id],
  orifice: [submergedOrifice.id],
};

/** The level that water must reach to flow through a control. */
export const lowestLevel = (control: Control): number =>
  control.kind === "rampedCrest" || control.kind === "sharpCrest" ? control.crestLevel : control.sillLevel;

const printed = (value: number): string => printValue(value, "length", "m");

const dry = (base: number, upstreamLevel: number): ControlFlow => ({
  discharge: u.m3ps(0),
  head: u.m(0),
  state: "dry",
  velocity: u.mps(0),
  cautions: [
    `the water upstream, at ${printed(upstreamLevel)}, does not reach the control, at ${printed(base)}.`,
  ],
});

interface Heads {
  /** Above crest or sill. */
  readonly head: number;
  /** Of the water downstream, 0 where it stays below. */
  readonly behind: number;
}

/** Mean velocity where a discharge passes through its critical depth. */
const criticalVelocity = (discharge: number, width: number): Velocity =>
  u.mps(Math.cbrt((freeFall * discharge) / width));

function overRamp({ crestWidth, coefficient = 1 }: RampedCrest, { head, behind }: Heads): ControlFlow {
  const discharge = broadCrestedWeir.evaluate({ crestWidth, energyHead: head, coefficient });
  // Water up to critical depth over the crest changes nothing; a hundredth of slack for a chute that begins at it.
  const drowned = behind > (2 / 3) * head * 1.01;
  return {
    discharge: u.m3ps(discharge),
    head: u.m(head),
    state: drowned ? "drowned" : "free",
    velocity: criticalVelocity(discharge, crestWidth),
    cautions: drowned
      ? [
          `the water behind the crest stands ${printed(behind)} above it, more than two thirds of the head: ` +
            "the crest may be drowned, and the discharge lower than this.",
        ]
      : [],
  };
}

function overSharpCrest(
  { crestWidth, crestLevel, floorLevel }: SharpCrest,
  { head, behind }: Heads,
): ControlFlow {
  const crestHeight = crestLevel - floorLevel;
  const kept = submergence.evaluate({ upstreamHead: head, downstreamHead: behind });
  const discharge = kept * sharpCrestedWeir.evaluate({ crestWidth, head, crestHeight });
  return {
    discharge: u.m3ps(discharge),
    head: u.m(head),
    state: behind > 0 ? "drowned" : "free",
    velocity: criticalVelocity(discharge, crestWidth),
    cautions: headCaution({ head, crestHeight }),
  };
}

function belowGate(gate: SluiceGate, { head, behind }: Heads): ControlFlow {
  const { width, opening, contraction = 0.61 } = gate;
  if (opening >= head) {
    // A gate out of the water is a broad crest.
    const open = overRamp(
      { ...gate, kind: "rampedCrest", crestWidth: width, crestLevel: gate.sillLevel },
      { head, behind },
    );
    return { ...open, cautions: ["the gate hangs above the water and controls nothing.", ...open.cautions] };
  }
  // Depth 0 behind would divide by 0; a film of water changes nothing.
  const depths = { opening, upstreamDepth: head, downstreamDepth: Math.max(behind, 1e-9), contraction };
  const discharge = drownedSluiceGate.evaluate({ width, ...depths });
  return {
    discharge: u.m3ps(discharge),
    head: u.m(head),
    state: isDrowned(depths) ? "drowned" : "free",
    velocity: u.mps(discharge / (width * contraction * opening)),
    cautions: [],
  };
}

function throughOrifice(
  { width, height, coefficient = 0.61 }: Orifice,
  { head, behind }: Heads,
): ControlFlow {
  // A jet into air leaves at the head of its middle; water behind that stands higher takes the place of the middle. So the
  // discharge falls without a jump as the water behind rises over the opening.
  const drowned = behind > height / 2;
  const headDifference = Math.max(0, head - Math.max(behind, height / 2));
  const discharge = submergedOrifice.evaluate({ area: width * height, headDifference, coefficient });
  return {
    discharge: u.m3ps(discharge),
    head: u.m(headDifference),
    state: drowned ? "drowned" : "free",
    velocity: u.mps(Math.sqrt(2 * freeFall * headDifference)),
    cautions: [
      ...(head < 1.5 * height
        ? ["the water upstream barely covers the opening; it may draw air and pass less."]
        : []),
      ...(behind >= height
        ? []
        : [
            `the water behind does not cover the opening; the head is taken to ${drowned ? "its level" : "the middle of the opening"}.`,
          ]),
    ],
  };
}
