import { length, time } from "../formula/input";
import type { Angle, Length, Time, Velocity } from "../quantity/dimension";
import { u } from "../quantity/u";
import { checkOptions, refuse } from "./checks";
import type { Flow } from "./flow";
import type { Position, Track } from "./track";

/** A velocity in plan: along the flow's axis x, across it, and its size. */
export interface PlanVelocity {
  readonly alongFlow: Velocity;
  readonly across: Velocity;
  readonly speed: Velocity;
}

/** The movement between two positions of a track. */
export interface Step {
  readonly from: Time;
  readonly to: Time;
  /** Half-way between the two positions; the water's velocity is taken there. */
  readonly x: Length;
  readonly y: Length;
  readonly distance: Length;
  readonly ground: PlanVelocity;
  /** The water's velocity; undefined where the flow is not known. */
  readonly water: PlanVelocity | undefined;
  /** Velocity through the water: over ground less the water's. */
  readonly swimming: PlanVelocity | undefined;
  /** Between the direction of swimming and the direction against the local flow: 0° heads upstream, 180° downstream. */
  readonly heading: Angle | undefined;
}

/** How a track is turned into steps. */
export interface StepOptions {
  /** Least time from one position to the next that is used; every position where not given. */
  readonly interval?: Time;
  /** Positions are first replaced by the mean of those within half of this time before and after; none where not given. */
  readonly smoothing?: Time;
  /** The water's velocity by place. Without it speeds through the water stay unknown. */
  readonly flow?: Flow;
}

/**
 * A track as steps, with speed over ground and through the water.
 *
 * Returns one step for each pair of successive positions at least `interval` apart; no step leads over a gap beyond the
 * track's limit. The velocity through the water is that over ground less the water's velocity half-way.
 * Errors of the positions and small wanderings lengthen a path of short steps and inflate its speeds: see
 * `movement.apparentSpeed`, and choose a longer `interval` or a `smoothing` window, at the price of turns cut short and of
 * what is left at the end of a piece.
 * Throws a RangeError for options that are not above 0 and for a flow that gives no number.
 *
 * @example
 * movement.steps(movement.trackOf("A", [{ time: u.s(0), x: u.m(-2), y: u.m(0.7) },
 *   { time: u.s(2), x: u.m(-2), y: u.m(0.7) }], { gapLimit: u.s(6) }),
 *   { flow: movement.uniformFlow(u.mps(0.3)) })[0].swimming.speed // => 0.3 m/s
 */
export function steps(track: Track, options: StepOptions = {}): readonly Step[] {
  checkStepOptions("movement.steps", options);
  return stepsOf(track, options);
}

/** Refuses options in a sentence. */
export function checkStepOptions(caller: string, { interval, smoothing }: StepOptions): void {
  checkOptions(
    caller,
    { interval, smoothing },
    { interval: time("\\Delta t", { above: 0, unit: "s" }), smoothing: time("T", { above: 0, unit: "s" }) },
  );
}

/** As `steps`, for options that were checked before. */
export function stepsOf(
  { fishId, pieces }: Track,
  { interval = u.s(0), smoothing, flow }: StepOptions,
): Step[] {
  return pieces.flatMap((piece) => {
    const used = spaced(smoothing === undefined ? piece : smoothed(piece, smoothing), interval);
    return used.slice(1).map((to, index) => stepBetween(fishId, used[index], to, flow));
  });
}

/** Positions at least so far apart in time, from the first on. */
function spaced(piece: readonly Position[], interval: number): Position[] {
  const used = [piece[0]];
  for (const position of piece) {
    // Times in seconds with decimals miss each other by a rounding error.
    if (position.time - used[used.length - 1].time >= Math.max(interval - 1e-9, 1e-9)) used.push(position);
  }
  return used;
}

/** Each position as the mean of those within half the window before and after; near an end the window shrinks evenly. */
function smoothed(piece: readonly Position[], window: number): Position[] {
  const [first, last] = [piece[0].time, piece[piece.length - 1].time];
  return piece.map(({ time: at }, index) => {
    const half = Math.min(window / 2, at - first, last - at) + 1e-9;
    let [low, high] = [index, index];
    while (low > 0 && at - piece[low - 1].time <= half) low -= 1;
    while (high < piece.length - 1 && piece[high + 1].time - at <= half) high += 1;
    const near = piece.slice(low, high + 1);
    const mean = (coordinate: "x" | "y") =>
      near.reduce((sum, place) => sum + place[coordinate], 0) / near.length;
    return { time: at, x: u.m(mean("x")), y: u.m(mean("y")) };
  });
}

function stepBetween(fishId: string, from: Position, to: Position, flow: Flow | undefined): Step {
  const duration = to.time - from.time;
  const [dx, dy] = [to.x - from.x, to.y - from.y];
  const [x, y] = [(from.x + to.x) / 2, (from.y + to.y) / 2];
  const ground = planVelocity(dx / duration, dy / duration);
  const common = {
    from: from.time,
    to: to.time,
    x: u.m(x),
    y: u.m(y),
    distance: u.m(Math.hypot(dx, dy)),
    ground,
  };
  const local = flow?.(x, y);
  if (local === undefined) return { ...common, water: undefined, swimming: undefined, heading: undefined };
  if (!Number.isFinite(local.alongFlow) || !Number.isFinite(local.across)) {
    refuse(
      "movement.steps",
      `the flow at (${x}, ${y}), where ${fishId} was at ${from.time} s, is { alongFlow: ${local.alongFlow}, across: ${local.across} }; it must be two finite numbers, or undefined where it is not known`,
    );
  }
  const water = planVelocity(local.alongFlow, local.across);
  const swimming = planVelocity(ground.alongFlow - water.alongFlow, ground.across - water.across);
  return { ...common, water, swimming, heading: headingOf(swimming, water) };
}

function planVelocity(alongFlow: number, across: number): PlanVelocity {
  return { alongFlow: u.mps(alongFlow), across: u.mps(across), speed: u.mps(Math.hypot(alongFlow, across)) };
}

/** The angle from upstream; undefined in still water and for a fish that drifts exactly with the flow. */
function headingOf(swimming: PlanVelocity, water: PlanVelocity): Angle | undefined {
  if (swimming.speed === 0 || water.speed === 0) return undefined;
  const against = -(swimming.alongFlow * water.alongFlow + swimming.across * water.across);
  const aside = swimming.alongFlow * water.across - swimming.across * water.alongFlow;
  return u.rad(Math.abs(Math.atan2(aside, against)));
}

/**
 * The mean speed that a fish at rest seems to have, because its positions have errors.
 *
 * Returns σ √π / Δt for normal errors of the standard deviation σ in x and y, independent from picture to picture. Valid
 * as the least speed worth interpreting at an interval; wandering about a way inflates speeds further.
 *
 * @example
 * movement.apparentSpeed({ positionError: u.cm(1), interval: u.s(2) }) // => 0.00886 m/s
 */
export function apparentSpeed(input: { readonly positionError: Length; readonly interval: Time }): Velocity {
  const { positionError, interval } = input;
  checkOptions(
    "movement.apparentSpeed",
    { positionError: positionError ?? null, interval: interval ?? null },
    {
      positionError: length("\\sigma", { atLeast: 0 }),
      interval: time("\\Delta t", { above: 0, unit: "s" }),
    },
  );
  return u.mps((positionError * Math.sqrt(Math.PI)) / interval);
}
