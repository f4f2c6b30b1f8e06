import { describe, expect, it } from "vitest";
import { rollCount } from "../../../src/core/geometry/rolls";

describe("COUNT_ROLLS", () => {
  it("cuts whole pieces from each roll", () => {
    expect(rollCount([100], [1.5], 10)).toEqual({ rolls: 17, lowerBound: 17 }); // 6 to a roll
    expect(rollCount([30], [1 / 3], 1)).toEqual({ rolls: 10, lowerBound: 10 });
    expect(rollCount([10], [0.1], 1)).toEqual({ rolls: 1, lowerBound: 1 });
    expect(rollCount([7], [1 / 7], 1)).toEqual({ rolls: 1, lowerBound: 1 });
    expect(rollCount([3], [10], 10)).toEqual({ rolls: 3, lowerBound: 3 });
    // Over the roll by half of the micrometre that is forgiven.
    expect(rollCount([3], [10.0000005], 10)).toEqual({ rolls: 3, lowerBound: 3 });
  });

  it("combines lengths", () => {
    // 6 + 4, 6 + 4, 5 + 5: three rolls of 10 with nothing left.
    expect(rollCount([2, 2, 2], [6, 4, 5], 10)).toEqual({ rolls: 3, lowerBound: 3 });
    // Chvatal, Linear Programming (1983), ch. 13, from memory.
    expect(rollCount([97, 610, 395, 211], [0.45, 0.36, 0.31, 0.14], 1)).toEqual({
      rolls: 453,
      lowerBound: 453,
    });
  });

  it("needs none for no pieces", () => {
    expect(rollCount([0], [1], 10)).toEqual({ rolls: 0, lowerBound: 0 });
  });

  it("refuses by row", () => {
    expect(() => rollCount([1], [11], 10)).toThrow("each must be at most the roll of 10 m, found 11 m");
    expect(() => rollCount([1, 1], [1, 11], 10)).toThrow(
      "each row 2 must be at most the roll of 10 m, found 11 m",
    );
    expect(() => rollCount([1, 1], [1], 10)).toThrow("each must have as many rows as pieces, 2, found 1");
    expect(() => rollCount([1, 1.5], [1, 1], 10)).toThrow("pieces row 2 must be a whole number from 0");
    expect(() => rollCount([1], [1], 0)).toThrow("roll must be more than 0 m, found 0");
    expect(() => rollCount([1, 1], [1, 0], 10)).toThrow("each row 2 must be more than 0 m");
  });
});
