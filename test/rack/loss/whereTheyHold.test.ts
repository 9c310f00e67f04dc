import * as fc from "fast-check";
import { describe, expect, test } from "vitest";
import { rackLoss, u } from "kernel-helpers";

const { angledBarCoefficients, inclinedBarCoefficients } = rackLoss;

const between = (min: number, max: number) => fc.double({ min, max, noNaN: true });
const velocity = between(0.05, 3);
/** A later value of the same input, noticeably larger. */
const larger = (low: number, share: number, high: number): number =>
  low + (0.001 + 0.999 * share) * (high - low);

/** The head loss of each equation as a function of the velocity it takes, everything else drawn at random. */
const headLosses: Readonly<Record<string, fc.Arbitrary<(velocity: number) => number>>> = {
  kirschmer: fc
    .record({
      shapeFactor: between(0.7, 2.5),
      bar: between(4, 30),
      gap: between(5, 100),
      inclination: between(10, 90),
    })
    .map(
      ({ shapeFactor, bar, gap, inclination }) =>
        (speed) =>
          rackLoss.kirschmer({
            shapeFactor,
            barThickness: u.mm(bar),
            clearSpacing: u.mm(gap),
            inclination: u.deg(inclination),
            approachVelocity: u.mps(speed),
          }),
    ),
  obliqueFlow: between(1, 90).map(
    (deviation) => (speed) =>
      rackLoss.obliqueFlow({ approachVelocity: u.mps(speed), deviation: u.deg(deviation) }),
  ),
  areaRatio: between(0.05, 0.99).map(
    (openRatio) => (speed) => rackLoss.areaRatio({ netVelocity: u.mps(speed), openRatio }),
  ),
  openingVelocity: between(0.05, 0.95).map(
    // At one rack both velocities rise together: the share is that of the approach velocity.
    (share) => (speed) =>
      rackLoss.openingVelocity({ openingVelocity: u.mps(speed), approachVelocity: u.mps(share * speed) }),
  ),
  fromCoefficient: between(0.01, 20).map(
    (lossCoefficient) => (speed) =>
      rackLoss.fromCoefficient({ lossCoefficient, approachVelocity: u.mps(speed) }),
  ),
};

describe("head loss rises with velocity, as its square", () => {
  test.each(Object.entries(headLosses))("%s", (_, laws) => {
    fc.assert(
      fc.property(laws, velocity, between(1.01, 3), (law, speed, factor) => {
        expect(law(factor * speed)).toBeGreaterThan(law(speed));
        expect(law(factor * speed) / law(speed) / factor ** 2).toBeCloseTo(1, 9);
      }),
    );
  });

  test("every published equation, on racks described once", () => {
    fc.assert(
      fc.property(
        between(4, 20),
        between(8, 60),
        between(25, 90),
        between(0, 0.2),
        velocity,
        between(1.01, 3),
        (bar, gap, angle, supportShare, speed, factor) => {
          const rows = (approachVelocity: number) =>
            rackLoss.compareLosses({
              barThickness: u.mm(bar),
              clearSpacing: u.mm(gap),
              rackAngle: u.deg(angle),
              supportShare,
              approachVelocity: u.mps(approachVelocity),
            });
          const [slow, fast] = [rows(speed), rows(factor * speed)];
          slow.forEach(({ headLoss }, at) => {
            // An equation refuses a rack or answers it, whatever the velocity.
            expect(fast[at].headLoss === undefined).toBe(headLoss === undefined);
            expect((fast[at].headLoss ?? 1) > (headLoss ?? 0)).toBe(true);
          });
        },
      ),
    );
  });
});

interface Holds {
  readonly law: string;
  readonly where: string;
  /** The coefficient against blockage, everything else drawn at random. */
  readonly laws: fc.Arbitrary<(blockage: number) => number>;
  readonly from: number;
  readonly to: number;
}

const kirschmerAgainstBlockage = between(10, 90).map(
  (degrees) => (blockage: number) =>
    rackLoss.kirschmer({
      shapeFactor: 2.42,
      // Bars of 8 mm: the clear spacing that gives this blockage.
      barThickness: u.mm(8),
      clearSpacing: u.mm((8 * (1 - blockage)) / blockage),
      inclination: u.deg(degrees),
      approachVelocity: u.mps(1),
    }),
);

const angledBars = (profile: "rectangular" | "hydrodynamic", degrees: number) => (blockage: number) =>
  rackLoss.angledBars({ ...angledBarCoefficients[profile], blockage, rackAngle: u.deg(degrees) });

const blockageAngle = (degrees: number) => (blockage: number) =>
  rackLoss.blockageAngle({
    shapeFactor: 2.42,
    blockage,
    rackAngle: u.deg(degrees),
    inclination: u.deg(90),
  });

const angledBarsCautions = (blockage: number) =>
  rackLoss.angledBars.cautions({ ...angledBarCoefficients.rectangular, blockage, rackAngle: u.deg(38) });

const obliqueFlow = (degrees: number) =>
  rackLoss.obliqueFlow({ approachVelocity: u.mps(1), deviation: u.deg(90 - degrees) });

const fittedFalling = (blockage: number) =>
  rackLoss.fitted({
    scale: 2,
    blockageExponent: -0.5,
    angleExponent: 1,
    overlayCoefficient: 0,
    blockage,
    rackAngle: u.deg(38),
    overlayShare: 0,
  });

/** Where the loss rises with blockage; outside these ranges two of the equations turn round. */
const risesWithBlockage: readonly Holds[] = [
  { law: "kirschmer", where: "everywhere", laws: kirschmerAgainstBlockage, from: 0.01, to: 0.95 },
  {
    law: "inclinedBars",
    where: "everywhere",
    laws: fc.tuple(between(5, 90), between(0, 0.3)).map(
      ([degrees, spacerBlockage]) =>
        (barBlockage: number) =>
          rackLoss.inclinedBars({
            barCoefficient: inclinedBarCoefficients.rectangular,
            barBlockage,
            spacerBlockage,
            inclination: u.deg(degrees),
          }),
    ),
    from: 0,
    to: 0.95,
  },
  {
    law: "horizontalBars",
    where: "everywhere",
    laws: fc.tuple(between(5, 90), between(0, 0.3)).map(
      ([degrees, spacerBlockage]) =>
        (barBlockage: number) =>
          rackLoss.horizontalBars({
            barCoefficient: inclinedBarCoefficients.hydrodynamic,
            barBlockage,
            spacerBlockage,
            rackAngle: u.deg(degrees),
          }),
    ),
    from: 0,
    to: 0.95,
  },
  {
    law: "streamwiseBars",
    where: "everywhere",
    laws: fc.constant((blockage: number) => rackLoss.streamwiseBars({ barCoefficient: 2.89, blockage })),
    from: 0,
    to: 0.95,
  },
  {
    law: "fitted",
    where: "for a blockage exponent above 0",
    laws: fc.tuple(between(0.1, 3), between(-2, 2), between(20, 90)).map(
      ([blockageExponent, angleExponent, degrees]) =>
        (blockage: number) =>
          rackLoss.fitted({
            scale: 2,
            blockageExponent,
            angleExponent,
            overlayCoefficient: 1,
            blockage,
            rackAngle: u.deg(degrees),
            overlayShare: 0.1,
          }),
    ),
    from: 0.01,
    to: 0.95,
  },
  {
    law: "angledBars, rectangular",
    where: "above its turn, 0.426 at 38°",
    laws: fc.constant(angledBars("rectangular", 38)),
    from: 0.426,
    to: 0.95,
  },
  {
    law: "angledBars, rectangular",
    where: "in its tested blockages from 56° on",
    laws: between(56, 90).map((degrees) => angledBars("rectangular", degrees)),
    from: 0.35,
    to: 0.6,
  },
  {
    law: "blockageAngle",
    where: "in all its tested range",
    laws: between(45, 90).map(blockageAngle),
    from: 0.22,
    to: 0.6,
  },
];

describe("head loss rises with blockage", () => {
  test.each(risesWithBlockage)("$law: $where", ({ laws, from, to }) => {
    fc.assert(
      fc.property(
        laws,
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        between(0, 1),
        (law, start, share) => {
          const low = from + start * (to - from);
          expect(law(larger(low, share, to))).toBeGreaterThan(law(low));
        },
      ),
    );
  });
});

describe("head loss falls with blockage where an equation turns round", () => {
  test("angledBars at 38° falls up to a blockage of 0.426, in its tested range too, and says so", () => {
    const law = angledBars("rectangular", 38);
    for (let blockage = 0.1; blockage < 0.42; blockage += 0.01)
      expect(law(blockage + 0.005)).toBeLessThan(law(blockage));
    expect(rackLoss.angledBarsTurn({ angleCoefficient: 1.69, rackAngle: u.deg(38) })).toBeCloseTo(0.426, 3);
    expect(angledBarsCautions(0.4)).toEqual([
      "rackLoss.angledBars: at this angle the equation falls as blockage rises, up to a blockage of 0.426; " +
        "racks don't behave so.",
    ]);
    expect(angledBarsCautions(0.45)).toEqual([]);
  });

  test("blockageAngle at 30° falls up to a blockage of 0.381, outside its tested angles, and says so", () => {
    const law = blockageAngle(30);
    for (let blockage = 0.05; blockage < 0.375; blockage += 0.01)
      expect(law(blockage + 0.005)).toBeLessThan(law(blockage));
    expect(rackLoss.blockageAngleTurn({ rackAngle: u.deg(30) })).toBeCloseTo(0.381, 3);
    expect(rackLoss.blockageAngleTurn({ rackAngle: u.deg(45) })).toBe(0);
    const cautions = rackLoss.blockageAngle.cautions({
      shapeFactor: 2.42,
      blockage: 0.3,
      rackAngle: u.deg(30),
      inclination: u.deg(90),
    });
    expect(cautions).toEqual([
      "rackLoss.blockageAngle: rack angle is 30°; its source tested 45° to 90°.",
      "rackLoss.blockageAngle: at this angle the equation falls as blockage rises, up to a blockage of 0.381; " +
        "racks don't behave so.",
    ]);
  });

  test("the turn is where the slope changes its sign, for every angle and bar", () => {
    fc.assert(
      fc.property(between(20, 80), between(0.5, 4), (degrees, angleCoefficient) => {
        const turn = rackLoss.angledBarsTurn({ angleCoefficient, rackAngle: u.deg(degrees) });
        const law = (blockage: number) =>
          rackLoss.angledBars({
            barCoefficient: 2.89,
            angleCoefficient,
            blockage,
            rackAngle: u.deg(degrees),
          });
        expect(law(0.9 * turn)).toBeGreaterThan(law(0.95 * turn));
        expect(law(turn + 0.1 * (1 - turn))).toBeGreaterThan(law(turn + 0.05 * (1 - turn)));
      }),
    );
  });

  test("fitted falls with a blockage exponent below 0", () => {
    expect(fittedFalling(0.4)).toBeLessThan(fittedFalling(0.3));
  });
});

describe("with the rack angle", () => {
  const angles = fc
    .tuple(between(20, 89), between(0, 1))
    .map(([low, share]) => [low, larger(low, share, 90)] as const);

  test("horizontal bars lose more", () => {
    fc.assert(
      fc.property(angles, between(0.05, 0.9), between(0, 0.3), ([low, high], barBlockage, spacerBlockage) => {
        const law = (degrees: number) =>
          rackLoss.horizontalBars({
            barCoefficient: 3.85,
            barBlockage,
            spacerBlockage,
            rackAngle: u.deg(degrees),
          });
        expect(law(high)).toBeGreaterThan(law(low));
      }),
    );
  });

  test("vertical bars square to the rack lose less", () => {
    fc.assert(
      fc.property(angles, between(0.05, 0.9), ([low, high], blockage) => {
        expect(angledBars("rectangular", high)(blockage)).toBeLessThan(
          angledBars("rectangular", low)(blockage),
        );
      }),
    );
  });

  test("vertical bars lose less by blockageAngle up to a blockage of 0.59", () => {
    fc.assert(
      fc.property(angles, between(0.05, 0.59), ([low, high], blockage) => {
        expect(blockageAngle(high)(blockage)).toBeLessThan(blockageAngle(low)(blockage));
      }),
    );
  });

  test("blockageAngle turns round with the angle at a blockage of 0.62, outside its tested range", () => {
    expect(blockageAngle(70)(0.62)).toBeGreaterThan(blockageAngle(60)(0.62));
  });

  test("oblique flow between vertical bars adds less as the rack turns square to it", () => {
    fc.assert(
      fc.property(angles, ([low, high]) => {
        expect(obliqueFlow(high)).toBeLessThan(obliqueFlow(low));
      }),
    );
  });

  test("streamwise bars lose the same: their formula takes no angle", () => {
    expect(Object.keys(rackLoss.streamwiseBars.inputs)).toEqual(["barCoefficient", "blockage"]);
  });
});
