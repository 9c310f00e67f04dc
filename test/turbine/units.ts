import { type turbine, u } from "kernel-helpers";

/** The demo plant's Kaplan unit. */
export const kaplanUnit: turbine.AxialUnit = {
  type: "kaplan",
  discharge: u.m3ps(17),
  bestDischarge: u.m3ps(14.5),
  head: u.m(5.3),
  rotationalSpeed: u.rpm(187.5),
  blades: 4,
  efficiency: 0.9,
  runnerDiameter: u.m(1.95),
  hubDiameter: u.m(0.82),
};

/** The same runner with fixed blades. */
export const propellerUnit: turbine.AxialUnit = { ...kaplanUnit, type: "propeller", discharge: u.m3ps(12) };

/** The demo's small Francis unit. */
export const francisUnit: turbine.FrancisUnit = {
  type: "francis",
  discharge: u.m3ps(2.4),
  bestDischarge: u.m3ps(2),
  head: u.m(12),
  rotationalSpeed: u.rpm(300),
  blades: 13,
  efficiency: 0.88,
  inletDiameter: u.m(0.78),
  outletDiameter: u.m(0.8),
  inletHeight: u.m(0.22),
  swirlFreeRatio: 1.05,
};

/** What `strikeKaplan` and `strikePropeller` read, a fish of 200 mm in the demo plant's unit. */
export const axialPassage = {
  totalLength: u.mm(200),
  discharge: u.m3ps(17),
  head: u.m(5.3),
  runnerDiameter: u.m(1.95),
  rotationalSpeed: u.rpm(187.5),
  efficiency: 0.9,
  blades: 4,
  radiusRatio: 0.75,
  correlation: 0.15,
};

/** Runner and flow of a Halvern Weir unit, as `turbine.waterLength` takes them. */
export const halvernRunner = {
  discharge: u.m3ps(17),
  rotationalSpeed: u.rpm(187.5),
  blades: 4,
  runnerDiameter: u.m(1.95),
  hubDiameter: u.m(0.82),
  inflowAngle: u.deg(29.8),
};
