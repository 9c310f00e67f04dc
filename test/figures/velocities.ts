import * as movement from "../../kernel-helpers/src/movement";
import { u } from "../../kernel-helpers/src/quantity";
import * as velocity from "../../kernel-helpers/src/velocity";
import { velocityPoints } from "../../data-demo/generators/velocity-points";
import { changed, cleanSamples } from "../velocity/turbulence";

/** Rack and bypass of the flume in which the demo plant's velocities were measured. */
export const flumeSite = movement.site({
  rackAngle: u.deg(38),
  channelWidth: u.m(1.5),
  bypassWidth: u.m(0.2),
});

/** The field of the demo plant's points, averaged over the depth. */
export function flumeField(layout: string): velocity.VelocityField {
  const points = velocityPoints()
    .filter((point) => point.layout.layout === layout)
    .map(({ x, y, z, measured }) => ({
      x,
      y,
      z,
      velocityX: measured.x,
      velocityY: measured.y,
      velocityZ: measured.z,
    }));
  return velocity.field(velocity.depthAveraged(points, { depth: u.m(0.6) }));
}

/** Velocities along the rack of that flume. */
export const alongFlumeRack = (layout: string): velocity.AlongRack =>
  velocity.alongRack(flumeField(layout), { rack: flumeSite.rack, distance: u.m(0.1) });

/** Velocities along the way into its bypass. */
export const intoBypass = (layout: string): velocity.AlongLine =>
  velocity.alongLine(flumeField(layout), { from: { x: 0.6, y: 1.4 }, to: { x: 1.65, y: 1.4 }, stations: 8 });

/** A probe's record with spikes and poor samples. */
export const faultyRecord = (): velocity.CleanedRecord => {
  const clean = cleanSamples(3);
  const spikes = clean.flatMap((_, at) => (at % 41 === 7 ? [at] : []));
  const poor = clean.flatMap((_, at) => (at % 23 === 11 ? [at] : []));
  return velocity.cleanRecord(
    changed(
      changed(clean, spikes, ({ velocityX }) => ({ velocityX: velocityX + 0.7 })),
      poor,
      ({ velocityX }) => ({ velocityX: velocityX - 0.2, correlation: 41 }),
    ),
  );
};
