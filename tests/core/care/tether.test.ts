import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { tetherMass } from "../../../src/core/care/tether";
import { netLift } from "../../../src/core/gas/lift";
import { toSi } from "../../../src/core/units";

const across = (inches: number): number => toSi(inches, "in");

describe("tether", () => {
  it("is the lift times the safety factor indoors", () => {
    expect(tetherMass(10, across(11))).toBeCloseTo(1.5 * 10 * netLift(across(11)), 12);
  });

  // Common practice, no source; Cd 0.47 from memory.
  it("in wind is (drag/0.4 + lift)/g, with the drag of a ball seen from its long side", () => {
    const drag = 0.47 * (1.25 / 2) * 5 ** 2 * (Math.PI / 4) * 1.2 * across(11) ** 2;
    const expected = (drag / 0.4 + netLift(across(11)) * 9.80665) / 9.80665;
    expect(tetherMass(1, across(11), 1, 5)).toBeCloseTo(expected, 12);
    expect(tetherMass(1, across(11), 1, 5)).toBeGreaterThan(10 * tetherMass(1, across(11), 1));
  });

  it("is nothing for no balloons, and for balloons that do not lift in still air", () => {
    expect(tetherMass(0, across(11), 1.5, 5)).toBe(0);
    expect(tetherMass(3, across(3))).toBe(0);
    expect(tetherMass(3, across(3), 1.5, 3)).toBeGreaterThan(0);
  });

  it("is linear in count and safety and grows with wind and size", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 1000 }),
        fc.integer({ min: 9, max: 60 }),
        fc.double({ min: 0, max: 9.5, noNaN: true }),
        (count, inches, wind) => {
          const mass = tetherMass(count, across(inches), 1, wind);
          expect(tetherMass(2 * count, across(inches), 1, wind) / mass).toBeCloseTo(2, 9);
          expect(tetherMass(count, across(inches), 3, wind) / mass).toBeCloseTo(3, 9);
          expect(tetherMass(count, across(inches), 1, wind + 0.1)).toBeGreaterThan(mass);
          expect(tetherMass(count, across(inches + 1), 1, wind)).toBeGreaterThan(mass);
        },
      ),
    );
  });

  // Flat plate 1.17 by Matthews, fig. 5.13; the full disc is 0.7628 of the flat one (Paulsen 1994); film from memory.
  it("holds foil by its own lift and its face in the wind", () => {
    expect(tetherMass(6, across(18), 1.5, 0, undefined, {}, "foil") * 1000).toBeCloseTo(6 * 1.5 * 5.13, 0);
    const drag = 1.17 * (1.25 / 2) * 5 ** 2 * (Math.PI / 4) * (0.7628 * across(18)) ** 2;
    const lift = tetherMass(1, across(18), 1, 0, undefined, {}, "foil");
    expect(tetherMass(1, across(18), 1, 5, undefined, {}, "foil")).toBeCloseTo(
      lift + drag / 0.4 / 9.80665,
      4,
    );
  });

  it("answers #N/A above the take-down gust", () => {
    expect(() => tetherMass(1, across(11), 1.5, 12)).toThrow(
      "do not put up balloons in a gust of 12 m/s, or take them down: the limit is 10 m/s",
    );
  });
});
