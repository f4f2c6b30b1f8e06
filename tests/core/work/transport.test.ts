import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { boxVolume, transportVolume, tripCount } from "../../../src/core/work/transport";

const FOOT = 0.3048;

describe("transportVolume", () => {
  it("packs balls of 2 ft by the volume of a sphere", () => {
    // A 2 ft balloon is a ball: pi/6 x 8 ft3 = 4.18879 ft3 (sphere), over 0.35 (common practice, no source).
    const cubicFeet = transportVolume(100, 2 * FOOT) / FOOT ** 3;
    expect(cubicFeet).toBeCloseTo((100 * 4.18879) / 0.35, 2);
  });

  it("takes a bag of a hundred 11 in balloons for about 3 m3", () => {
    // Common practice, no source: 11 in holds about half a cubic foot; bagged balloons fill 0.45 of the room.
    const expected = (100 * 0.5 * FOOT ** 3) / 0.45;
    expect(Math.abs(transportVolume(100, 11 * 0.0254, 0.45) / expected - 1)).toBeLessThan(0.05);
  });

  it("refuses a packing of nothing", () => {
    expect(() => transportVolume(1, 0.3, 0)).toThrow("packing must be above 0 and at most 1, found 0");
  });
});

describe("boxVolume", () => {
  it("is width x height x depth, round where no depth is given", () => {
    // A column 0.487 m thick and 1.92 m high, by hand.
    expect(boxVolume(0.487, 1.92)).toBeCloseTo(0.4554, 4);
    expect(boxVolume(2, 3, 0.5, 4)).toBe(12);
    expect(boxVolume(2, 3, 0.5, 0)).toBe(0);
  });
});

describe("tripCount", () => {
  it("covers the load, and one fewer would not", () => {
    const volumes = fc.double({ min: 0.01, max: 1000, noNaN: true });
    fc.assert(
      fc.property(volumes, volumes, (load, van) => {
        const trips = tripCount(load, van);
        expect(trips * van).toBeGreaterThanOrEqual(load * (1 - 1e-11));
        expect((trips - 1) * van).toBeLessThan(load);
      }),
    );
  });

  it("does not drive again for rounding dust", () => {
    expect(tripCount(0.1 * 3, 0.1)).toBe(3);
    expect(tripCount(0, 8)).toBe(0);
  });

  it("refuses a van without room", () => {
    expect(() => tripCount(1, 0)).toThrow("van must be above 0 m3, found 0");
  });
});
