import { describe, expect, it } from "vitest";
import { revolvedPlacements } from "../../../src/core/geometry/revolved-drawing";
import { pairsAt } from "./drawing-checks";

// Worked by hand for balloons of 0.25 m, 0.2 m from centre to centre.
describe("drawing of a turned body", () => {
  it("puts the rings of a tube on one cylinder, counted from its base", () => {
    const tube = [
      { height: 2, radius: 0.5 },
      { height: 3, radius: 0.5 },
    ];
    const places = revolvedPlacements(tube, 0.25, 0.8);
    // Around: pi/asin(0.2/0.75) = 11.6 balloons; up: (1 - 0.25)/(0.1 sqrt 3) = 4.3 steps.
    expect(places).toHaveLength(5 * 12);
    places.forEach(({ x, y, z, row }, index) => {
      expect(Math.hypot(x, z)).toBeCloseTo(0.375, 9);
      expect(row).toBe(1 + Math.floor(index / 12));
      expect(y).toBeCloseTo(0.125 + (row - 1) * 0.1875, 9);
    });
    // Neighbours on a ring, a twelfth of a turn apart.
    expect(pairsAt(places, 0.75 * Math.sin(Math.PI / 12))).toBe(60);
  });

  it("puts a ring of one balloon on the axis", () => {
    const rod = [
      { height: 0, radius: 0.2 },
      { height: 1, radius: 0.2 },
    ];
    const places = revolvedPlacements(rod, 0.25);
    expect(places.length).toBeGreaterThan(1);
    for (const { x, z } of places) expect([x, z]).toEqual([0, 0]);
  });
});
