import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { airVolume, foilVolume, heliumVolume } from "../../../src/core/gas/fill";
import { fromSi, toSi } from "../../../src/core/units";

const inches = (size: number): number => toSi(size, "in");
const sizes = fc.double({ min: 1, max: 120, noNaN: true });

/**
 * Volume of two discs of radius 1 sealed at the rim and filled taut: the profile satisfies dy/dx =
 * -x^2/sqrt(r^4 - x^4), summed by slices.
 */
function taut(): number {
  const steps = 200000;
  let length = 0;
  let volume = 0;
  for (let step = 0; step < steps; step++) {
    // x = sin(t) takes the infinite slope at the rim out of the integrals.
    const x = Math.sin(((step + 0.5) * Math.PI) / 2 / steps);
    const weight = Math.PI / 2 / steps / Math.sqrt(1 + x ** 2);
    length += weight;
    volume += 2 * Math.PI * x ** 4 * weight;
  }
  return volume / length ** 3;
}

describe("air and helium to fill", () => {
  it("takes 13.7 L, half a cubic foot, for an 11 in balloon (common practice, no source)", () => {
    expect(airVolume(inches(11)) * 1000).toBeCloseTo(13.7, 1);
    expect(fromSi(airVolume(inches(11)), "ft3")).toBeCloseTo(0.5, 1);
  });

  it("is nothing for no balloons", () => {
    expect(airVolume(inches(11), 0)).toBe(0);
    expect(heliumVolume(inches(11), 0)).toBe(0);
    expect(foilVolume(inches(18), 0)).toBe(0);
  });

  // ISO 2533:1975: 83 434 Pa at 1609 m (a mile up).
  it("takes less helium where the air presses less, by Boyle's law", () => {
    expect(heliumVolume(inches(24), 10, 0.1, 1609) / heliumVolume(inches(24), 10)).toBeCloseTo(
      83434 / 101325,
      4,
    );
    expect(heliumVolume(inches(24), 10, 0.1, 0)).toBe(heliumVolume(inches(24), 10));
  });

  it("fills foil as Paulsen's curve does, summed by slices", () => {
    expect(foilVolume(2) / taut()).toBeCloseTo(1, 6);
  });

  it("is linear in count and in loss, and more for larger balloons", () => {
    fc.assert(
      fc.property(sizes, fc.integer({ min: 0, max: 1e6 }), (size, count) => {
        const one = heliumVolume(inches(size));
        expect(heliumVolume(inches(size), count)).toBeCloseTo(count * one, 3);
        expect(heliumVolume(inches(size), 1, 0.2) / one).toBeCloseTo(1.2 / 1.1, 9);
        expect(one).toBeGreaterThan(airVolume(inches(size)));
        expect(heliumVolume(inches(size * 1.01))).toBeGreaterThan(one);
      }),
    );
  });
});
