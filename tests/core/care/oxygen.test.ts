import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  OXYGEN_IN_AIR,
  OXYGEN_LIMIT,
  oxygenByDilution,
  oxygenByDisplacement,
  oxygenShare,
} from "../../../src/core/care/oxygen";

const rooms = fc.double({ min: 1, max: 1e5, noNaN: true });
const releases = fc.double({ min: 0, max: 1e5, noNaN: true });

describe("oxygen", () => {
  it("is 16.76 % after 10 m3 in 50 m3 (University of Nottingham safety calculator)", () => {
    expect(oxygenShare(50, 10)).toBeCloseTo(0.1676, 6);
  });

  it("falls under 19.5 % (29 CFR 1910.134) once 6.921 % of the room is released (algebra)", () => {
    expect(oxygenShare(100, 6.92)).toBeGreaterThan(OXYGEN_LIMIT);
    expect(oxygenShare(100, 6.93)).toBeLessThan(OXYGEN_LIMIT);
  });

  it("agrees with mixing in a million small steps", () => {
    let share = OXYGEN_IN_AIR;
    for (let step = 0; step < 1e6; step++) share -= (share * 0.5) / 1e6;
    expect(oxygenByDilution(10, 5)).toBeCloseTo(share, 6);
  });

  it("shows the worse model, which is displacement, and stays from 0 to air", () => {
    fc.assert(
      fc.property(rooms, releases, (room, helium) => {
        const share = oxygenShare(room, helium);
        expect(share).toBe(oxygenByDisplacement(room, helium));
        expect(share).toBeLessThanOrEqual(oxygenByDilution(room, helium));
        expect(share).toBeGreaterThanOrEqual(0);
        expect(oxygenShare(room, helium + 0.01)).toBeLessThanOrEqual(share);
        expect(oxygenShare(room * 1.01, helium)).toBeGreaterThanOrEqual(share);
      }),
    );
    expect(oxygenShare(50, 0)).toBe(OXYGEN_IN_AIR);
    expect(Object.is(oxygenShare(50, 80), 0)).toBe(true);
  });

  it("refuses a room of no volume", () => {
    expect(() => oxygenShare(0, 1)).toThrow("room_m3 must be above 0 m3, found 0");
  });
});
