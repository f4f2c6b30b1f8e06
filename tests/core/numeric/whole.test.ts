import { describe, expect, it } from "vitest";
import { wholeDown, wholeNearest, wholeUp } from "../../../src/core/numeric/whole";

describe("whole numbers", () => {
  it("forgive binary dust", () => {
    expect(wholeUp(0.1 * 3 * 10)).toBe(3);
    expect(wholeDown(0.3 / 0.1)).toBe(3);
    expect(wholeNearest(1.005 * 100)).toBe(101);
  });

  it("round real fractions", () => {
    expect(wholeUp(3.001)).toBe(4);
    expect(wholeDown(3.999)).toBe(3);
    expect(wholeNearest(2.49)).toBe(2);
  });

  it("never give -0", () => {
    expect(Object.is(wholeUp(-0.2), 0)).toBe(true);
    expect(Object.is(wholeDown(-0), 0)).toBe(true);
  });
});
