import * as fc from "fast-check";
import { fish, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";

const share = fc.double({ min: 0.01, max: 0.4, noNaN: true });
const millimetres = fc.double({ min: 1, max: 2000, noNaN: true });

describe("fish body", () => {
  it("bodyWidth and bodyHeight are the ratio times the total length", () => {
    expect(fish.bodyWidth({ totalLength: u.mm(250), widthRatio: 0.11 })).toBeCloseTo(0.0275, 12);
    expect(fish.bodyHeight({ totalLength: u.mm(250), heightRatio: 0.26 })).toBeCloseTo(0.065, 12);
  });

  it("a fish of the barrier length has the relative width 1", () => {
    fc.assert(
      fc.property(share, millimetres, (widthRatio, gap) => {
        const clearSpacing = u.mm(gap);
        const totalLength = fish.barrierLength({ clearSpacing, widthRatio });
        expect(fish.relativeWidth({ totalLength, widthRatio, clearSpacing })).toBeCloseTo(1, 12);
      }),
    );
  });

  it("relativeWidth is the body width over the clear spacing", () => {
    fc.assert(
      fc.property(share, millimetres, millimetres, (widthRatio, long, gap) => {
        const width = fish.bodyWidth({ totalLength: u.mm(long), widthRatio });
        const relative = fish.relativeWidth({ totalLength: u.mm(long), widthRatio, clearSpacing: u.mm(gap) });
        expect(relative).toBeCloseTo(u.to.mm(width) / gap, 9);
      }),
    );
  });

  it("relativeWidth refuses a closed gap with the value and what is allowed", () => {
    expect(() =>
      fish.relativeWidth({ totalLength: u.mm(150), widthRatio: 0.1, clearSpacing: u.mm(0) }),
    ).toThrow("fish.relativeWidth: clearSpacing is 0 mm; it must be above 0 mm.");
  });

  it("a width ratio in per cent is refused", () => {
    expect(() => fish.bodyWidth({ totalLength: u.mm(150), widthRatio: 10 })).toThrow(
      /fish\.bodyWidth: widthRatio is 10; it must be above 0 and at most 1/,
    );
  });
});
