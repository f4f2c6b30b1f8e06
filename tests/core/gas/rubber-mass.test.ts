import { describe, expect, it } from "vitest";
import { latexArea } from "../../../src/core/gas/balloon-shape";
import { RUBBER_DENSITY } from "../../../src/core/gas/permeation";
import { RUBBER_GRAMS, rubberMass } from "../../../src/core/gas/rubber-mass";
import { toSi } from "../../../src/core/units";

describe("rubber mass", () => {
  it("reads its table back", () => {
    for (const [inches, grams] of RUBBER_GRAMS)
      expect(rubberMass(toSi(inches, "in")) * 1000).toBeCloseTo(grams, 9);
  });

  it("grows with size from 1 to 120 in", () => {
    const masses = Array.from({ length: 120 }, (_, index) => rubberMass(toSi(index + 1, "in")));
    expect(masses).toEqual(masses.toSorted((a, b) => a - b));
  });

  // A flat balloon is 0.2 to 0.3 mm thick and stretches four- to fivefold each way: from memory.
  it("leaves a wall of 8 to 30 micrometres when inflated", () => {
    for (const [inches] of RUBBER_GRAMS) {
      const across = toSi(inches, "in");
      const wall = rubberMass(across) / (RUBBER_DENSITY * latexArea(across));
      expect(wall).toBeGreaterThan(8e-6);
      expect(wall).toBeLessThan(30e-6);
    }
  });
});
