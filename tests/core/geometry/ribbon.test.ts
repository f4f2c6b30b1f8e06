import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ribbonLength, sleeveCount, wrapLength } from "../../../src/core/geometry/ribbon";

const FOOT = 0.3048;

describe("RIBBON_METRES", () => {
  it("adds a knot to each ribbon", () => {
    expect(ribbonLength(100, 1.5)).toBeCloseTo(165, 9);
    expect(ribbonLength(100, 1.5, 0.29)).toBeCloseTo(29 * 1.65, 9);
    expect(ribbonLength(10, 2, 0.25, 0)).toBe(6);
    expect(ribbonLength(0, 2)).toBe(0);
  });

  it("refuses what is out of range", () => {
    expect(() => ribbonLength(1.5, 2)).toThrow("count must be a whole number from 0");
    expect(() => ribbonLength(10, -2)).toThrow("each must be 0 m or more, found -2");
    expect(() => ribbonLength(10, 2, 2)).toThrow("share must be from 0 to 1, found 2");
    expect(() => ribbonLength(10, 2, 1, NaN)).toThrow("knot must be 0 m or more");
  });
});

describe("WRAP_METRES", () => {
  // Helix: n sqrt((2 pi r)^2 + p^2).
  it("is a helix", () => {
    expect(wrapLength(6 * 0.3, 0.3, 6)).toBeCloseTo(5.934434957056107, 12);
    expect(wrapLength(4 * 0.25, 1, 4)).toBeCloseTo(12.606096557516516, 12);
    expect(wrapLength(2, 0.1, 0)).toBe(2);
    // A million turns of pi x 0.1 m.
    expect(wrapLength(0, 0.1, 1e6)).toBeCloseTo(1e5 * Math.PI, 6);
  });

  it("refuses what is out of range", () => {
    expect(() => wrapLength(2, 0, 3)).toThrow("across must be more than 0 m");
    expect(() => wrapLength(2, 0.1, -1)).toThrow("turns must be from 0 to 1000000, found -1");
    expect(() => wrapLength(2, 0.1, 1e6 + 1)).toThrow("turns must be from 0 to 1000000, found 1000001");
  });
});

describe("COUNT_SLEEVES", () => {
  it("covers 6 ft with one relaxed 60 in balloon", () => {
    // Common practice, no source.
    expect(sleeveCount(6 * FOOT)).toBe(1);
    expect(sleeveCount(1.83)).toBe(1);
    expect(sleeveCount(2 * 1.83)).toBe(2);
    expect(sleeveCount(6.1 * FOOT)).toBe(2);
    expect(sleeveCount(95, 1, 10)).toBe(10);
    expect(sleeveCount(6 * FOOT, 60 * 0.0254, 1)).toBe(2);
    expect(sleeveCount(6 * FOOT, 60 * 0.0254, 1.2, 0.05)).toBe(2);
  });

  it("needs never fewer for two poles than for one of their length", () => {
    const length = fc.double({ min: 0.01, max: 30, noNaN: true });
    fc.assert(
      fc.property(length, length, (one, other) => {
        expect(sleeveCount(one) + sleeveCount(other)).toBeGreaterThanOrEqual(sleeveCount(one + other));
      }),
    );
  });

  it("refuses ties that use up the balloon", () => {
    expect(() => sleeveCount(2, 1, 1.2, 1.2)).toThrow(
      "tie must be less than the 1.2 m that a sleeve covers, found 1.2 m",
    );
    expect(() => sleeveCount(2, 1, 0)).toThrow("stretch must be more than 0, up to 10, found 0");
    expect(() => sleeveCount(2, 1, 10.5)).toThrow("stretch must be more than 0, up to 10, found 10.5");
  });
});
