import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { piecewiseLinear } from "../../../src/core/numeric/piecewise";

const TABLE = [
  [0, 0],
  [1, 10],
  [3, 14],
] as const;

describe("piecewiseLinear", () => {
  // Worked by hand.
  it.each([
    [0, 0],
    [0.5, 5],
    [1, 10],
    [2, 12],
    [3, 14],
    [5, 18],
    [-1, -10],
  ])("reads %d as %d", (x, y) => {
    expect(piecewiseLinear(TABLE, x)).toBeCloseTo(y, 12);
  });

  it("gives a straight line back", () => {
    const finite = fc.double({ min: -100, max: 100, noNaN: true });
    fc.assert(
      fc.property(finite, finite, finite, (slope, offset, x) => {
        const line = [-7, 0, 2, 9].map((at) => [at, slope * at + offset] as const);
        expect(piecewiseLinear(line, x)).toBeCloseTo(slope * x + offset, 6);
      }),
    );
  });
});
