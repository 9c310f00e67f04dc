import { describe, expect, test } from "vitest";
import { movement, statistics, u, velocity } from "kernel-helpers";
import { uniforms } from "../../kernel-helpers/src/statistics/random";
import { site, trackThrough } from "./site";

const outcomeOf = (...positions: readonly (readonly [number, number, number])[]) =>
  movement.ending(trackThrough(positions), site).outcome;

// Upstream along the flow from the middle of the rack: distance is x times the sine of 38°.
const before = (time: number, distance: number): [number, number, number] => [
  time,
  0.832 - distance / Math.sin((38 * Math.PI) / 180),
  0.65,
];

const over = (y: number) =>
  trackThrough([
    [0, -1, y],
    [2, 0.2, y],
  ]);

const flip = ({ x, y }: movement.Place) => ({ x, y: u.m(1.5 - y) });

const corner = (x: number, y: number) => ({
  x: u.m(x),
  y: u.m(y),
  velocityX: u.mps(0.4),
  velocityY: u.mps(0),
});

const flowOfA = (fishId: string) => (fishId === "A" ? movement.uniformFlow(u.mps(0.3)) : undefined);

describe("movement.site", () => {
  test("a rack at 38° in a flume 1.5 m wide ends at (1.664, 1.3), where the entrance begins", () => {
    expect(site.rack.to.x).toBeCloseTo(1.664, 3);
    expect(site.rack.to.y).toBeCloseTo(1.3, 12);
    expect(site.bypass.from).toEqual(site.rack.to);
    expect(site.bypass.to.y).toBe(1.5);
  });

  test("refuses a bypass as wide as the channel and a rack along the flow", () => {
    const input = { rackAngle: u.deg(38), channelWidth: u.m(1.5), bypassWidth: u.m(1.5) };
    expect(() => movement.site(input)).toThrow("movement.site: bypassWidth is 1.5 m; it must be below");
    expect(() => movement.site({ ...input, rackAngle: u.deg(0) })).toThrow("rackAngle is 0°");
    const along = {
      rack: { from: { x: u.m(0), y: u.m(1) }, to: { x: u.m(2), y: u.m(1) } },
      bypass: { from: { x: u.m(2), y: u.m(1) }, to: { x: u.m(2), y: u.m(1.5) } },
    };
    const track = trackThrough([[0, 0, 0]]);
    expect(() => movement.ending(track, along)).toThrow("the rack runs along the flow from (0, 1)");
    const alongWall = {
      rack: { from: { x: u.m(0), y: u.m(0) }, to: { x: u.m(0), y: u.m(1) } },
      bypass: { from: { x: u.m(2), y: u.m(0) }, to: { x: u.m(3), y: u.m(0) } },
    };
    expect(() => movement.ending(track, alongWall)).toThrow("a fish could not enter it");
  });
});

describe("movement.ending", () => {
  test("the way over the entrance's line is a bypass passage, that over the rack's a rack passage", () => {
    expect(outcomeOf([0, 0, 1], [2, 1.6, 1.4], [4, 1.75, 1.4])).toBe("bypassed");
    expect(outcomeOf([0, 0, 1], [2, 0.7, 0.7], [4, 0.9, 0.5])).toBe("rackPassed");
  });

  test("a fish that comes out of the bypass again has refused", () => {
    expect(outcomeOf([0, 1.6, 1.4], [2, 1.75, 1.4], [4, 1.5, 1.4])).toBe("refused");
  });

  test("an error of position at the rack is no passage", () => {
    expect(outcomeOf([0, 0, 1], [2, 0.64, 0.5], [4, 0.65, 0.5])).toBe("impinged");
  });

  test("a fish within the distance is active, one beyond it inactive: the distance is an input", () => {
    const track = trackThrough([
      [0, -2, 0.7],
      [2, -1.2, 0.1],
    ]);
    expect(movement.ending(track, site).outcome).toBe("inactive");
    expect(movement.ending(track, site, { activeDistance: u.m(1.3) }).outcome).toBe("refused");
  });

  test("an entrance in the side wall is entered across the wall", () => {
    const sideEntrance = {
      rack: { from: { x: u.m(0), y: u.m(0) }, to: { x: u.m(2), y: u.m(1.5) } },
      bypass: { from: { x: u.m(1.7), y: u.m(1.5) }, to: { x: u.m(2), y: u.m(1.5) } },
    };
    const track = trackThrough([
      [0, 0, 1],
      [2, 1.75, 1.4],
      [4, 1.85, 1.6],
    ]);
    expect(movement.ending(track, sideEntrance)).toMatchObject({ outcome: "bypassed", outcomeTime: 4 });
  });

  test("a rack square to the flow, and one mirrored across it", () => {
    const square = movement.site({ rackAngle: u.deg(90), channelWidth: u.m(1.5), bypassWidth: u.m(0.2) });
    expect(movement.ending(over(0.6), square).outcome).toBe("rackPassed");
    expect(movement.ending(over(1.4), square).outcome).toBe("bypassed");
    const mirrored = {
      rack: { from: flip(site.rack.from), to: flip(site.rack.to) },
      bypass: { from: flip(site.bypass.from), to: flip(site.bypass.to) },
    };
    const through = trackThrough([
      [0, 0, 0.5],
      [2, 0.7, 0.8],
      [4, 0.9, 1],
    ]);
    expect(movement.ending(through, mirrored).outcome).toBe("rackPassed");
  });
});

describe("movement.approaches", () => {
  test("a fish at the edge counts once until it is beyond the leave distance", () => {
    const track = trackThrough([
      before(0, 1),
      before(2, 0.29),
      before(4, 0.31),
      before(6, 0.28),
      before(8, 0.59),
      before(10, 0.61),
      before(12, 0.2),
      before(14, 0.9),
    ]);
    expect(movement.approaches(track, site)).toEqual([
      { from: 2, to: 10, seenTime: 8 },
      { from: 12, to: 14, seenTime: 2 },
    ]);
    expect(movement.approaches(track, site, { leaveDistance: u.m(0.3) })).toHaveLength(3);
  });

  test("a gap over the limit is no time seen at the rack", () => {
    const track = trackThrough([
      before(0, 1),
      before(2, 0.2),
      before(4, 0.2),
      before(30, 0.2),
      before(32, 1),
    ]);
    expect(movement.approaches(track, site)).toEqual([{ from: 2, to: 32, seenTime: 4 }]);
  });

  test("a fish that shoots through between two pictures has approached", () => {
    const track = trackThrough([
      [0, -2, 1.4],
      [2, 2.5, 1.4],
    ]);
    expect(movement.approaches(track, site)).toEqual([{ from: 2, to: 2, seenTime: 0 }]);
    expect(movement.closestDistance(track, site)).toEqual({
      fishId: "A",
      closestDistance: 0,
      closestTo: "bypass",
    });
  });

  test("refuses a leave distance below the approach distance", () => {
    expect(() =>
      movement.approaches(trackThrough([before(0, 1)]), site, { leaveDistance: u.m(0.2) }),
    ).toThrow(
      "movement.approaches: leaveDistance is 0.2 m; it must be at least the approachDistance of 0.3 m.",
    );
  });
});

describe("movement.steps", () => {
  const flow = movement.uniformFlow(u.mps(0.4));

  test("speed through the water is speed over ground less the water's", () => {
    const [step] = movement.steps(
      trackThrough([
        [0, 0, 0],
        [2, 0.2, 0.6],
      ]),
      { flow },
    );
    expect(step.ground.alongFlow).toBeCloseTo(0.1, 12);
    expect(step.ground.across).toBeCloseTo(0.3, 12);
    expect(step.swimming?.alongFlow).toBeCloseTo(-0.3, 12);
    expect(step.swimming?.speed).toBeCloseTo(Math.hypot(0.3, 0.3), 12);
    expect(u.to.deg(step.heading ?? u.deg(0))).toBeCloseTo(45, 9);
  });

  test("the flow is taken half-way, and a place without flow leaves the swimming unknown", () => {
    const places: [number, number][] = [];
    const spy: movement.Flow = (x, y) => {
      places.push([x, y]);
      return x > 0.5 ? undefined : { alongFlow: 0.2, across: 0 };
    };
    const steps = movement.steps(
      trackThrough([
        [0, 0, 0],
        [2, 0.4, 0.2],
        [4, 0.8, 0.2],
      ]),
      { flow: spy },
    );
    expect(places[0]).toEqual([0.2, 0.1]);
    expect(steps.map(({ swimming }) => swimming === undefined)).toEqual([false, true]);
  });

  test("no step leads over a gap beyond the limit", () => {
    const steps = movement.steps(trackThrough([0, 2, 20, 22].map((time) => [time, time / 10, 0])));
    expect(steps.map(({ from, to }) => [from, to])).toEqual([
      [0, 2],
      [20, 22],
    ]);
  });

  test("steps are at least the interval long", () => {
    const track = trackThrough([0, 2, 4, 7, 9, 11].map((time) => [time, time / 10, 0]));
    expect(movement.steps(track, { interval: u.s(4) }).map(({ from, to }) => [from, to])).toEqual([
      [0, 4],
      [4, 9],
    ]);
  });

  test("a smoothing window keeps a straight even way as it is", () => {
    const track = trackThrough(Array.from({ length: 20 }, (_, at) => [2 * at, 0.1 * at, 0.05 * at]));
    const plain = movement.steps(track);
    movement.steps(track, { smoothing: u.s(10) }).forEach(({ ground }, at) => {
      expect(ground.alongFlow).toBeCloseTo(plain[at].ground.alongFlow, 12);
      expect(ground.across).toBeCloseTo(plain[at].ground.across, 12);
    });
  });

  test("a fish at rest seems to move at the apparent speed; an interval or a window takes most of it away", () => {
    const draw = uniforms(41);
    const normal = () => statistics.normalQuantile(draw());
    const track = trackThrough(
      Array.from({ length: 4000 }, (_, at) => [2 * at, 0.01 * normal(), 0.01 * normal()]),
    );
    const mean = (options: movement.StepOptions) => {
      const speeds = movement.steps(track, options).map(({ ground }) => ground.speed);
      return speeds.reduce((sum, speed) => sum + speed, 0) / speeds.length;
    };
    const apparent = movement.apparentSpeed({ positionError: u.cm(1), interval: u.s(2) });
    expect(mean({})).toBeGreaterThan(0.97 * apparent);
    expect(mean({})).toBeLessThan(1.03 * apparent);
    expect(mean({ interval: u.s(10) })).toBeLessThan(0.22 * apparent);
    expect(mean({ smoothing: u.s(10) })).toBeLessThan(0.35 * apparent);
  });

  test("refuses a flow that gives no number, saying where", () => {
    expect(() =>
      movement.steps(
        trackThrough([
          [0, 0, 0],
          [2, 0.4, 0.2],
        ]),
        { flow: () => ({ alongFlow: NaN, across: 0 }) },
      ),
    ).toThrow("the flow at (0.2, 0.1), where A was at 0 s, is { alongFlow: NaN, across: 0 }");
    expect(() => movement.steps(trackThrough([[0, 0, 0]]), { interval: u.s(0) })).toThrow("interval is 0 s");
  });
});

describe("movement.orientation", () => {
  const flow = movement.uniformFlow(u.mps(0.3));
  const heads = (alongGround: number, across: number, options = {}) =>
    movement.orientation(
      movement.steps(
        trackThrough([
          [0, 0, 0],
          [1, alongGround, across],
        ]),
        { flow },
      )[0],
      options,
    );

  test("a fish that keeps its place swims against the flow", () => {
    expect(heads(0, 0)).toBe("positive");
  });

  test("one carried downstream slower than the water still heads against it", () => {
    expect(heads(0.2, 0)).toBe("positive");
  });

  test("one faster than the water heads with it", () => {
    expect(heads(0.5, 0)).toBe("negative");
  });

  test("one that goes with the water drifts, and one carried along while it crosses is neutral", () => {
    expect(heads(0.3, 0.01)).toBe("drifting");
    expect(heads(0.3, 0.2)).toBe("neutral");
  });

  test("the neutral band is an input", () => {
    // 0.1 against the flow and 0.2 across: 63° from upstream, 27° from square.
    expect(heads(0.2, 0.2)).toBe("neutral");
    expect(heads(0.2, 0.2, { neutralBand: u.deg(20) })).toBe("positive");
    expect(() => heads(0, 0, { neutralBand: u.deg(90) })).toThrow("neutralBand is 90°");
  });

  test("upstream is against the local flow, whichever way that runs", () => {
    const [step] = movement.steps(
      trackThrough([
        [0, 0, 0],
        [2, 0, 0],
      ]),
      { flow: () => ({ alongFlow: 0, across: 0.3 }) },
    );
    expect(movement.orientation(step)).toBe("positive");
  });
});

describe("movement.behaviours", () => {
  const track = trackThrough([
    [0, -2, 0.7],
    [2, -1, 0.7],
    [4, 0.5, 0.8],
    [6, 0.9, 1],
    [8, 1.5, 1.4],
    [10, 1.8, 1.4],
  ]);

  test("tells contact, entry and the time between", () => {
    const [found] = movement.behaviours([track], { site, flow: movement.uniformFlow(u.mps(0.3)) });
    expect(found).toMatchObject({
      outcome: "bypassed",
      outcomeTime: 10,
      firstContact: 6,
      contactToEntry: 4,
      approaches: 1,
      timeAtRack: 4,
      watchedTime: 10,
      closestDistance: 0,
      splits: 0,
    });
    expect(found.groundSpeed).toBeCloseTo(found.pathLength / 10, 12);
    expect(found.rheotaxis).toEqual({ positive: 0.4, neutral: 0.2, negative: 0.4, drifting: 0 });
  });

  test("knows no speed through the water without flow, and takes the flow of each fish's run", () => {
    expect(movement.behaviours([track], { site })[0]).toMatchObject({
      swimmingSpeed: undefined,
      rheotaxis: undefined,
    });
    expect(movement.behaviours([track], { site, flowOf: flowOfA })[0].swimmingSpeed).toBeGreaterThan(0);
    expect(() =>
      movement.behaviours([track], { site, flowOf: flowOfA, flow: movement.uniformFlow(u.mps(0.3)) }),
    ).toThrow("flow and flowOf are both given");
  });

  test("a measured velocity field is a flow; where nothing was measured around, it says so", () => {
    const flow: movement.Flow = velocity.field([
      corner(-3, 0),
      corner(-3, 1.5),
      corner(0, 1.5),
      corner(0, 0),
    ]);
    const [found] = movement.behaviours([track], { site, flow });
    // Of the five steps the first two begin and end before x = 0 in the middle.
    expect(found.knownFlowShare).toBe(0.4);
    expect(found.rheotaxis?.negative).toBe(1);
  });

  test("a fish seen once has a place but no speed", () => {
    expect(movement.behaviours([trackThrough([[3, -2, 0.7]])], { site })[0]).toMatchObject({
      groundSpeed: undefined,
      pathLength: 0,
      outcome: "inactive",
    });
  });
});

describe("movement.summary", () => {
  const behaviours = movement.behaviours(
    ["A", "B", "C"].map((fishId, at) =>
      movement.trackOf(
        fishId,
        [0, 2].map((time) => ({ time: u.s(time), x: u.m(-3 + (time * (at + 1)) / 10), y: u.m(0.7) })),
        { gapLimit: u.s(6) },
      ),
    ),
    { site },
  );

  test("counts outcomes and gives medians by species", () => {
    const [roach, perch] = movement.summary(behaviours, [
      { fishId: "A", species: "roach" },
      { fishId: "B", species: "perch" },
      { fishId: "C", species: "roach" },
    ]);
    expect(roach).toMatchObject({ group: "roach", fish: 2, entries: 0, medianContactToEntry: undefined });
    expect(roach.outcomes).toEqual({ bypassed: 0, rackPassed: 0, refused: 0, impinged: 0, inactive: 2 });
    expect(roach.medianGroundSpeed).toBeCloseTo(0.2, 12);
    expect(perch.medianGroundSpeed).toBeCloseTo(0.2, 12);
  });

  test("refuses a fish of unknown species", () => {
    expect(() => movement.summary(behaviours, [])).toThrow("movement.summary: A has a track");
  });
});
