import fc from "fast-check";
import { expect, it } from "vitest";
import { latexVolume } from "../../../src/core/gas/balloon-shape";
import { massOfType, volumeOfType } from "../../../src/core/gas/balloon-type";
import { rubberMass } from "../../../src/core/gas/rubber-mass";
import { toSi } from "../../../src/core/units";

const across = (inches: number): number => toSi(inches, "in");

// Two discs by hand: 2 x pi/4 x 0.4572^2 = 0.32835 m2; 30 g/m2 from memory. Volume: Paulsen 1994.
it("takes foil as two discs of film, filled taut", () => {
  expect(massOfType(across(18), "foil") * 1000).toBeCloseTo(9.85, 2);
  expect(volumeOfType(across(18), "foil") * 1000).toBeCloseTo(14.5567, 4);
});

it("takes latex by its tables, and a foil as lighter on gas than a latex balloon of the same size", () => {
  fc.assert(
    fc.property(fc.double({ min: 5, max: 60, noNaN: true }), (inches) => {
      expect(massOfType(across(inches), "latex")).toBe(rubberMass(across(inches)));
      expect(volumeOfType(across(inches), "latex")).toBe(latexVolume(across(inches)));
      // A ball that the same circle could not hold: 0.1523 against pi/6 = 0.5236.
      expect(volumeOfType(across(inches), "foil")).toBeLessThan(latexVolume(across(inches)) / 3);
    }),
  );
});
