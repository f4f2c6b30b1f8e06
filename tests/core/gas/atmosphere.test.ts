import psychrolib from "psychrolib";
import { describe, expect, it } from "vitest";
import {
  geopotentialAltitude,
  pressureAtAltitude,
  standardAtmosphere,
} from "../../../src/core/gas/atmosphere";

describe("standard atmosphere", () => {
  it("agrees with psychrolib 1.1.1 (ASHRAE Handbook Fundamentals 2017, chapter 1, equation 3)", () => {
    psychrolib.SetUnitSystem(psychrolib.SI);
    for (const height of [-400, 0, 250, 1000, 2500, 5000]) {
      const expected = psychrolib.GetStandardAtmPressure(height);
      expect(Math.abs(standardAtmosphere(height).pressure / expected - 1)).toBeLessThan(5e-4);
    }
  });

  it("turns geometric into slightly lower geopotential altitude", () => {
    expect(geopotentialAltitude(0)).toBe(0);
    // U.S. Standard Atmosphere 1976, table I, from memory: Z = 5000 m is H = 4996 m.
    expect(geopotentialAltitude(5000)).toBeCloseTo(4996, 0);
  });

  it("falls with altitude", () => {
    const pressures = [-400, -1, 0, 1, 800, 3000, 5000].map(pressureAtAltitude);
    expect(pressures).toEqual(pressures.toSorted((a, b) => b - a));
  });
});
