import type { Area, Discharge, Length, Velocity } from "../quantity/dimension";
import { u } from "../quantity/u";
import { checkNumber, refuse } from "../statistics/checks";
import { checkDepth, usualExponent } from "./plan";
import { checkPoints, samePlace, type VelocityPoint, verticals } from "./point";
import { integrated } from "./profile";

/** A point of a section; `standardError` is the error of its velocityX, m/s. */
export interface SectionPoint extends VelocityPoint {
  readonly standardError?: number;
}

/** A vertical of the section. */
export interface SectionVertical {
  readonly y: Length;
  /** Mean over the depth of the velocity along the flow. */
  readonly meanVelocity: Velocity;
  readonly points: number;
}

/** The discharge through a section from its measured velocities. */
export interface SectionDischarge {
  readonly method: string;
  readonly discharge: Discharge;
  readonly area: Area;
  readonly meanVelocity: Velocity;
  readonly verticals: readonly SectionVertical[];
  /** Share of the discharge that flows between the outermost points and bottom, walls and surface, where nothing was measured. */
  readonly unmeasuredShare: number;
  /** The discharge if velocities fell to nothing in a straight line at bottom and walls, and if they stayed up to them. */
  readonly lower: Discharge;
  readonly upper: Discharge;
  /** From the errors of the points alone, if all are given. */
  readonly standardError: Discharge | undefined;
  /** The discharge known from elsewhere, and (measured − known) / known; undefined where none is given. */
  readonly known: Discharge | undefined;
  readonly difference: number | undefined;
}

/**
 * Discharge through a section across the flow, integrated from the velocities along it.
 *
 * Returns the discharge, its difference from a `known` one, the share that flows where nothing was measured, and the
 * discharges for the two extreme treatments of bottom and walls. Over each vertical, then across, velocities run in straight
 * lines between points (trapezoids); to the bottom and the walls they fall by power laws (`bedExponent`, `wallExponent`; 1/7
 * unless told otherwise, 0 holds the outermost value, 1 is a straight line to nothing); up to the surface they stay. Valid
 * for points of one section, one x, that stand closely enough to follow the profile. Throws a RangeError for points of
 * several x, fewer than two verticals, and points outside of width and depth.
 *
 * @example
 * velocity.sectionDischarge([0.25, 0.75].map((y) => ({ x: 0, y, z: 0.3, velocityX: 0.5, velocityY: 0, velocityZ: 0 })),
 *   { width: u.m(1), depth: u.m(0.6), bedExponent: 0, wallExponent: 0 }).discharge // => 0.3 m³/s
 */
export function sectionDischarge(
  points: readonly SectionPoint[],
  section: {
    readonly width: Length;
    readonly depth: Length;
    readonly bedExponent?: number;
    readonly wallExponent?: number;
    readonly known?: Discharge;
  },
): SectionDischarge {
  const where = "velocity.sectionDischarge";
  const { width, depth, bedExponent = usualExponent, wallExponent = usualExponent, known } = section;
  checkSection(where, points, { width, depth, bedExponent, wallExponent });
  if (known !== undefined) checkNumber(where, "known", known, { above: 0 });
  const lines = verticals(where, points).toSorted((a, b) => a[0].y - b[0].y);
  if (lines.length < 2) refuse(where, `the section has ${lines.length} vertical; it must have at least 2`);

  const through = (valueOf: (point: SectionPoint) => number, bed: number, wall: number) =>
    integratedOver(lines, valueOf, { width, depth, bed, wall });
  const along = (point: SectionPoint): number => point.velocityX;
  const { total, edges } = through(along, bedExponent, wallExponent);
  const weights = points.map((one) => ({
    error: one.standardError,
    weight: through((point) => (point === one ? 1 : 0), bedExponent, wallExponent).total,
  }));
  const squares = weights.reduce((sum, { error, weight }) => sum + ((error ?? NaN) * weight) ** 2, 0);
  return {
    method: `trapezoids; power laws to the bottom (exponent ${said(bedExponent)}) and to the walls (${said(wallExponent)}); constant to the surface`,
    discharge: u.m3ps(total),
    area: u.m2(width * depth),
    meanVelocity: u.mps(total / (width * depth)),
    verticals: lines.map((line) => ({
      y: u.m(line[0].y),
      meanVelocity: u.mps(overDepth(line, along, depth, bedExponent).total / depth),
      points: line.length,
    })),
    unmeasuredShare: edges / total,
    lower: u.m3ps(through(along, 1, 1).total),
    upper: u.m3ps(through(along, 0, 0).total),
    standardError: Number.isFinite(squares) ? u.m3ps(Math.sqrt(squares)) : undefined,
    known,
    difference: known === undefined ? undefined : (total - known) / known,
  };
}

const said = (exponent: number): string => (exponent === usualExponent ? "1/7" : String(exponent));

type Lines = readonly (readonly SectionPoint[])[];

function overDepth(
  line: readonly SectionPoint[],
  valueOf: (point: SectionPoint) => number,
  depth: number,
  bed: number,
): { readonly total: number; readonly edges: number } {
  const heights = line.map(({ z }) => z);
  return integrated(heights, line.map(valueOf), { at: 0, exponent: bed }, { at: depth, exponent: 0 });
}

function integratedOver(
  lines: Lines,
  valueOf: (point: SectionPoint) => number,
  { width, depth, bed, wall }: Readonly<Record<"width" | "depth" | "bed" | "wall", number>>,
): { readonly total: number; readonly edges: number } {
  const places = lines.map(([{ y }]) => y);
  const parts = lines.map((line) => overDepth(line, valueOf, depth, bed));
  const [left, right] = [
    { at: 0, exponent: wall },
    { at: width, exponent: wall },
  ];
  const whole = integrated(
    places,
    parts.map(({ total }) => total),
    left,
    right,
  );
  // Measured is what lies between verticals and, on them, between points.
  const measured = integrated(
    places,
    parts.map(({ total, edges }) => total - edges),
    left,
    right,
  );
  return { total: whole.total, edges: whole.total - (measured.total - measured.edges) };
}

function checkSection(
  where: string,
  points: readonly SectionPoint[],
  {
    width,
    depth,
    bedExponent,
    wallExponent,
  }: Readonly<Record<"width" | "depth" | "bedExponent" | "wallExponent", number>>,
): void {
  if (points.length === 0) refuse(where, "the section has no points");
  checkPoints(where, points, ["x", "y", "z", "velocityX"]);
  checkNumber(where, "width", width, { above: 0 });
  checkNumber(where, "wallExponent", wallExponent, { atLeast: 0, atMost: 1 });
  checkDepth(where, points, depth, bedExponent);
  points.forEach(({ x, y, standardError }, at) => {
    if (Math.abs(x - points[0].x) >= samePlace) {
      refuse(
        where,
        `point ${at + 1} stands at x ${x} m and the first at ${points[0].x} m; a section has one x: give its points alone`,
      );
    }
    if (y < 0 || y > width) {
      refuse(where, `y of point ${at + 1} is ${y} m; it must lie from 0 m to the width of ${width} m`);
    }
    if (standardError !== undefined) {
      checkNumber(where, `standardError of point ${at + 1}`, standardError, { atLeast: 0 });
    }
  });
}
