import { describe, expect, it } from "vitest";
import { insidePressure } from "../../../src/core/gas/overpressure";

/**
 * Mooney-Rivlin membrane, p = 2 s1 (d0/r0)(1/l - 1/l^7)(1 - (s-1/s1) l^2): Mueller & Strehlow, Rubber and
 * Rubber Balloons, 2004.
 */
function membranePressure(stretch: number, s1 = 3e5, sMinus1 = -0.3e5, wall = 0.01): number {
  return 2 * s1 * wall * (1 / stretch - 1 / stretch ** 7) * (1 - (sMinus1 / s1) * stretch ** 2);
}

describe("balloon overpressure", () => {
  it("is 2.5 % of the air pressure (common practice, no source)", () => {
    expect(insidePressure(101325) - 101325).toBeCloseTo(2533, 0);
  });

  it("is of the size that a rubber membrane holds when stretched three- to fivefold", () => {
    const excess = insidePressure(101325) - 101325;
    for (const stretch of [3, 4, 5]) {
      expect(membranePressure(stretch)).toBeGreaterThan(excess / 2);
      expect(membranePressure(stretch)).toBeLessThan(excess * 1.7);
    }
  });
});
