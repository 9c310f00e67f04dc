import { defineFormula } from "../formula/formula";
import { discharge, length, number } from "../formula/input";
import { derived, published } from "../formula/source";
import { freeFall } from "../quantity/constants";
import { formatNumber } from "../quantity/format";
import { rootBetween } from "../statistics/root";

/** A channel of trapezoidal section; a side slope of 0 makes it a rectangle. SI. */
interface Section {
  readonly bottomWidth: number;
  readonly sideSlope: number;
}

const flowArea = ({ bottomWidth, sideSlope }: Section, depth: number): number =>
  depth * (bottomWidth + sideSlope * depth);

const surfaceWidth = ({ bottomWidth, sideSlope }: Section, depth: number): number =>
  bottomWidth + 2 * sideSlope * depth;

const hydraulicRadius = (section: Section, depth: number): number =>
  flowArea(section, depth) / (section.bottomWidth + 2 * depth * Math.hypot(1, section.sideSlope));

interface Channel extends Section {
  readonly roughness: number;
  readonly bedSlope: number;
}

const uniformDischarge = (channel: Channel, depth: number): number =>
  (flowArea(channel, depth) * hydraulicRadius(channel, depth) ** (2 / 3) * Math.sqrt(channel.bedSlope)) /
  channel.roughness;

const froudeNumber = (section: Section, depth: number, flow: number): number => {
  const wet = flowArea(section, depth);
  return flow / wet / Math.sqrt((freeFall * wet) / surfaceWidth(section, depth));
};

const roughness = number("n", {
  above: 0,
  usual: [0.008, 0.2],
  note: "Manning's n: 0.012 to 0.017 for concrete",
});
const bedSlope = number("S", { above: 0, atMost: 1, note: "fall over length" });
const bottomWidth = length("b", { above: 0, unit: "m" });
const sideSlope = number("z", {
  atLeast: 0,
  default: 0,
  note: "horizontal over vertical; 0 for a rectangle",
});

/**
 * Discharge of uniform flow in a channel.
 *
 * Returns the discharge in cubic metres a second. Valid for uniform, fully rough flow in a prismatic channel.
 *
 * @example
 * bypass.manning({ roughness: 0.015, bedSlope: 0.0025, bottomWidth: u.m(6), depth: u.m(1.6) }) // => 32.921 m³/s
 */
export const manning = defineFormula({
  id: "bypass.manning",
  title: "Discharge of uniform flow",
  symbol: "Q",
  result: "discharge",
  inputs: { roughness, bedSlope, bottomWidth, sideSlope, depth: length("y", { above: 0, unit: "m" }) },
  steps: {
    area: {
      title: "Area of the flow",
      symbol: "A",
      result: "area",
      tex: (q) => `${q.depth}\\left(${q.bottomWidth} + ${q.sideSlope}\\cdot ${q.depth}\\right)`,
      evaluate: ({ depth, ...section }) => flowArea(section, depth),
    },
    radius: {
      title: "Hydraulic radius",
      symbol: "R",
      result: "length",
      unit: "m",
      tex: (q, steps) =>
        `\\frac{${steps.area}}{${q.bottomWidth} + 2\\cdot ${q.depth}\\sqrt{1 + ${q.sideSlope}^2}}`,
      evaluate: ({ depth, ...section }) => hydraulicRadius(section, depth),
    },
  },
  tex: (q, steps) => `\\frac{${steps.area}\\,${steps.radius}^{2/3}\\sqrt{${q.bedSlope}}}{${q.roughness}}`,
  source: published("Manning's equation, as in textbooks of open-channel flow"),
  evaluate: ({ depth, ...channel }) => uniformDischarge(channel, depth),
});

/**
 * Depth of uniform flow in a channel.
 *
 * Returns the depth in metres at which `bypass.manning` gives the discharge. Valid as that is; cautions where the flow is
 * supercritical or so near to critical that its surface is unsteady.
 *
 * @example
 * bypass.normalDepth({ discharge: u.m3ps(32.921), roughness: 0.015, bedSlope: 0.0025, bottomWidth: u.m(6) }) // => 1.6000 m
 */
export const normalDepth = defineFormula({
  id: "bypass.normalDepth",
  title: "Depth of uniform flow",
  symbol: "y_n",
  result: "length",
  unit: "m",
  inputs: { discharge: discharge("Q", { above: 0 }), roughness, bedSlope, bottomWidth, sideSlope },
  tex: (q) =>
    `\\text{the depth at which } \\frac{A\\,R^{2/3}\\sqrt{${q.bedSlope}}}{${q.roughness}} = ${q.discharge}`,
  source: derived("Manning's equation solved for the depth by bisection"),
  caution: ({ discharge: flow, ...channel }) => {
    const froude = froudeNumber(channel, depthOf(channel, flow), flow);
    const printed = formatNumber(froude, 2);
    if (froude > 1.1) return [`the flow is supercritical (Froude number ${printed}): the channel is steep.`];
    return froude > 0.9
      ? [`the flow is near its critical depth (Froude number ${printed}): its surface will be unsteady.`]
      : [];
  },
  evaluate: ({ discharge: flow, ...channel }) => depthOf(channel, flow),
});

/** The discharge of uniform flow grows without end with the depth, so a bracket is always found. */
function depthOf(channel: Channel, flow: number): number {
  let deep = 1;
  while (uniformDischarge(channel, deep) < flow) deep *= 2;
  return rootBetween((depth) => (depth === 0 ? 0 : uniformDischarge(channel, depth)) - flow, 0, deep);
}

/**
 * Critical depth in a rectangular channel.
 *
 * Returns the depth in metres. Valid for a rectangular section.
 *
 * @example
 * bypass.criticalDepth({ discharge: u.m3ps(1.36), width: u.m(0.8) }) // => 0.66539 m
 */
export const criticalDepth = defineFormula({
  id: "bypass.criticalDepth",
  title: "Critical depth in a rectangular channel",
  symbol: "y_c",
  result: "length",
  unit: "m",
  inputs: { discharge: discharge("Q", { atLeast: 0 }), width: length("b", { above: 0, unit: "m" }) },
  tex: (q) => `\\left(\\frac{\\left(${q.discharge} / ${q.width}\\right)^2}{g}\\right)^{1/3}`,
  source: derived("least energy head for a discharge"),
  evaluate: ({ discharge: flow, width }) => Math.cbrt((flow / width) ** 2 / freeFall),
});
