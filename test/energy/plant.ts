import { energy, u } from "kernel-helpers";

/** Points of a curve in m³/s. */
export const curve = (...points: readonly (readonly [flow: number, efficiency: number])[]) =>
  energy.efficiencyCurve(points.map(([flow, efficiency]) => ({ discharge: u.m3ps(flow), efficiency })));

/** A Kaplan unit of 17 m³/s, best at 14.5. */
export const unit = curve([4, 0.74], [6, 0.835], [8, 0.872], [10, 0.888], [14.5, 0.9], [17, 0.885]);

/** Two such units at a weir. */
export const plant = {
  units: [unit, unit],
  residualFlow: u.m3ps(2.5),
  bypassFlow: u.m3ps(1.36),
  grossHead: u.m(5.4),
  intakeLoss: u.m(0.08),
  channelWidth: u.m(17),
  channelDepth: u.m(3.6),
  rackLoss: (velocity: number) => u.m((0.5 * velocity ** 2) / 19.62),
};

/** A record from 2026-01-01 on. */
export const record = (...flows: readonly number[]) =>
  flows.map((flow, day) => ({
    date: new Date(Date.UTC(2026, 0, 1 + day)).toISOString().slice(0, 10),
    discharge: u.m3ps(flow),
  }));
