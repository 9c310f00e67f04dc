/** A place in plan, m: x along the flow, 0 at the upstream end of the rack; y across it from the wall where that end stands. */
export interface Point {
  readonly x: number;
  readonly y: number;
}

/** The flume of the trial in plan: the rack runs from (0, 0) to (rackEnd, rackWidth); the bypass fills the rest of the width. */
export interface TrackFlume {
  readonly width: number;
  /** Across the flow. */
  readonly rackWidth: number;
  readonly rackEnd: number;
  /** Between rack and flow, radians. */
  readonly angle: number;
}

const angle = (38 * Math.PI) / 180;
const rackWidth = 1.3;

export const trackFlume: TrackFlume = { width: 1.5, rackWidth, rackEnd: rackWidth / Math.tan(angle), angle };

/** Returns whether a point lies on the upstream side of the rack's line. */
export function upstreamOfRack({ angle: rackAngle }: TrackFlume, { x, y }: Point): boolean {
  return y * Math.cos(rackAngle) > x * Math.sin(rackAngle);
}

/** Returns the distance in m from the rack, as a line that ends at the bypass. */
export function distanceToRack({ rackEnd, rackWidth: across }: TrackFlume, { x, y }: Point): number {
  const share = (x * rackEnd + y * across) / (rackEnd ** 2 + across ** 2);
  const nearest = Math.min(Math.max(share, 0), 1);
  return Math.hypot(x - nearest * rackEnd, y - nearest * across);
}
