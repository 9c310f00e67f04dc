import { movement, u } from "kernel-helpers";

/** The flume of the trial. */
export const site = movement.site({ rackAngle: u.deg(38), channelWidth: u.m(1.5), bypassWidth: u.m(0.2) });

/** A track from [time, x, y] in seconds and metres. */
export const trackThrough = (
  positions: readonly (readonly [time: number, x: number, y: number])[],
  gapLimit = 6,
): movement.Track =>
  movement.trackOf(
    "A",
    positions.map(([time, x, y]) => ({ time: u.s(time), x: u.m(x), y: u.m(y) })),
    { gapLimit: u.s(gapLimit) },
  );
