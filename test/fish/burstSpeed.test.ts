import * as fc from "fast-check";
import { fish, u } from "kernel-helpers";
import { describe, expect, it } from "vitest";

const speedAt = (celsius: number, metres: number): number =>
  fish.burstSpeedAtTemperature({ totalLength: u.m(metres), temperature: u.degC(celsius) });

describe("burst speed", () => {
  it("burstSpeed is 0.4 m/s and 7.4 body lengths per second", () => {
    expect(fish.burstSpeed({ totalLength: u.mm(500) })).toBeCloseTo(4.1, 12);
  });

  it("burstSpeedAtTemperature follows the contraction time, calculated apart", () => {
    // 0.25^0.4288 = 0.551866
    const ln10 = Math.LN10;
    const time = 0.17 * 0.551866 + 0.0028 * ln10 - 0.0425 * 0.551866 * ln10 - 0.0077;
    const speed = fish.burstSpeedAtTemperature({ totalLength: u.mm(250), temperature: u.degC(10) });
    expect(speed).toBeCloseTo((0.7 * 0.25) / (2 * time), 4);
  });

  it("burstSpeedAtTemperature rises with temperature between 2 and 20 °C and with length", () => {
    const degrees = fc.double({ min: 2, max: 19.5, noNaN: true });
    const metres = fc.double({ min: 0.05, max: 1, noNaN: true });
    fc.assert(
      fc.property(degrees, metres, (celsius, long) => {
        expect(speedAt(celsius + 0.5, long)).toBeGreaterThan(speedAt(celsius, long));
        expect(speedAt(celsius, long * 1.1)).toBeGreaterThan(speedAt(celsius, long));
      }),
    );
  });

  it("burstSpeedAtTemperature refuses water at 0 °C and water too warm for the fit", () => {
    expect(() => fish.burstSpeedAtTemperature({ totalLength: u.mm(200), temperature: u.degC(0) })).toThrow(
      /temperature is 0 °C; it must be above 0 °C/,
    );
    expect(() => fish.burstSpeedAtTemperature({ totalLength: u.mm(200), temperature: u.degC(90) })).toThrow(
      /contraction time is not positive for 0\.2 m at 90 °C/,
    );
  });
});
