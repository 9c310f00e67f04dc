import { criticalDepth } from "../bypass/channel";
import { lowestLevel } from "../bypass/control";
import { evenRamp } from "../bypass/evenRamp";
import type { BypassFlow, BypassStructure, BypassWater } from "../bypass/flowThrough";
import { freeFall } from "../quantity/constants";

/** A place in the section: along the way of the water, and a level. */
export type Place = readonly [along: number, level: number];

/** A bypass and the flow through it. */
export interface BypassAtWork {
  readonly structure: BypassStructure;
  readonly water: BypassWater;
  /** What `bypass.flowThrough` gives for both. */
  readonly flow: BypassFlow;
}

/** The lines of a long section; the entrance stands at 0. */
export interface BypassLines {
  readonly floor: readonly Place[];
  readonly surface: readonly Place[];
  /** Closed outlines of the water, drawn filled. */
  readonly water: readonly (readonly Place[])[];
  /** Gate and walls that hang into the water, from below upwards. */
  readonly hanging: readonly (readonly [Place, Place])[];
  readonly control: Place;
  readonly lip: Place;
  /** Where the water meets the pool. */
  readonly impact: Place;
  readonly start: number;
  readonly end: number;
}

/** How far walls stand above the water, in metres. */
const freeboard = 0.35;

/** Whether a place of a profile is drawn: the surface bends at its upper end and hardly further on. */
const isDrawn = (place: number, last: number): boolean =>
  place === last || (place < 20 ? place % 2 === 0 : place % 10 === 0);

/** The lines of a bypass from the approach channel to the pool. */
export function bypassLines({ structure, water, flow }: BypassAtWork): BypassLines {
  const { entrance, control, chute, pool } = structure;
  const { headwaterLevel: head, tailwaterLevel: tail } = water;
  const at = control.accelerationLength;
  const lipAt = at + chute.length;
  const start = -Math.max(2, 0.06 * lipAt);
  const way = transition({ structure, water, flow });
  const points = flow.chute.profile;
  const drawn = points.filter((_, place) => isDrawn(place, points.length - 1));
  const chuteSurface = drawn.map(({ distance, bedLevel, depth }): Place => [
    at + distance,
    Math.max(bedLevel + depth, tail),
  ]);
  const end = points[points.length - 1];
  const lip: Place = [lipAt, end.bedLevel];
  const top = jet([lipAt, end.bedLevel + end.depth], end.velocity, tail);
  const impact = top[top.length - 1];
  const poolEnd = impact[0] + Math.max(3, 0.12 * lipAt);
  const floor: Place[] = [
    [start, entrance.bedLevel],
    [0, entrance.bedLevel],
    [0, entrance.sillLevel],
    ...way.floor,
    [at, chute.headLevel],
    lip,
    [lipAt, pool.bottomLevel],
    [poolEnd, pool.bottomLevel],
  ];
  const upper: Place[] = [[start, head], [0, head], ...way.surface, ...chuteSurface];
  const poolSurface: Place[] = [
    [lipAt, tail],
    [poolEnd, tail],
  ];
  return {
    floor,
    surface: [...upper, ...top, impact, [poolEnd, tail]],
    water: [
      [...upper, ...floor.slice(0, -2).toReversed()],
      [...top, ...jet(lip, end.velocity, tail).toReversed()],
      [...poolSurface, [poolEnd, pool.bottomLevel], [lipAt, pool.bottomLevel]],
    ],
    hanging: [
      ...(entrance.topLevel === undefined ? [] : [wall(0, entrance.topLevel, head)]),
      ...(control.kind === "sluiceGate" ? [wall(at, control.sillLevel + control.opening, head)] : []),
      ...(control.kind === "orifice" ? [wall(at, control.sillLevel + control.height, head)] : []),
    ],
    control: [at, lowestLevel(control)],
    lip,
    impact,
    start,
    end: poolEnd,
  };
}

const wall = (at: number, from: number, water: number): readonly [Place, Place] => [
  [at, from],
  [at, Math.max(water, from) + freeboard],
];

/** Floor and surface between entrance and control. */
function transition({ structure, water, flow }: BypassAtWork): {
  readonly floor: readonly Place[];
  readonly surface: readonly Place[];
} {
  const { entrance, control } = structure;
  const { headwaterLevel } = water;
  const at = control.accelerationLength;
  const rises = flow.control.velocity > flow.entranceVelocity;
  if (control.kind === "rampedCrest" && entrance.topLevel === undefined && rises) {
    const ramp = evenRamp(
      {
        entranceWidth: entrance.width,
        crestWidth: control.crestWidth,
        headwaterLevel,
        sillLevel: entrance.sillLevel,
        entranceVelocity: flow.entranceVelocity,
        crestVelocity: flow.control.velocity,
        rampLength: at,
      },
      20,
    );
    return {
      floor: [
        ...ramp.slice(0, -1).map(({ distance, floorLevel }): Place => [distance, floorLevel]),
        [at, control.crestLevel],
      ],
      surface: ramp.map(({ distance, waterLevel }): Place => [distance, waterLevel]),
    };
  }
  if (control.kind === "rampedCrest" || control.kind === "sharpCrest") {
    const foot: Place[] = control.kind === "sharpCrest" ? [[at, control.floorLevel]] : [];
    const over = criticalDepth.evaluate({ discharge: flow.discharge, width: control.crestWidth });
    return {
      floor: [...foot, [at, control.crestLevel]],
      // The surface bends down over the last part of the way, about as long as the head.
      surface: [
        [at - Math.min(0.5 * at, flow.control.head), headwaterLevel],
        [at, control.crestLevel + over],
      ],
    };
  }
  const foot: Place[] = control.kind === "orifice" ? [[at, entrance.sillLevel]] : [];
  return { floor: [...foot, [at, control.sillLevel]], surface: [[at, headwaterLevel]] };
}

/** A free fall from a place with a level velocity; just the place where the pool already stands above it. */
function jet([along, level]: Place, velocity: number, pool: number): Place[] {
  const fall = Math.max(0, level - pool);
  const last = Math.sqrt((2 * fall) / freeFall);
  return Array.from({ length: fall > 0 ? 9 : 1 }, (_, step): Place => {
    const time = (step / 8) * last;
    return [along + velocity * time, Math.max(level - (freeFall * time ** 2) / 2, pool)];
  });
}
