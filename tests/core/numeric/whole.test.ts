import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { wholeDown, wholeNearest, wholeUp } from "../../../src/core/numeric/whole";

/** The whole number below a fraction of whole numbers, exactly. */
const floorOf = (above: bigint, below: bigint): bigint => {
  const cut = above / below;
  return above % below < 0n ? cut - 1n : cut;
};

describe("whole numbers", () => {
  it("forgive binary dust", () => {
    expect(wholeUp(0.1 * 3 * 10)).toBe(3);
    expect(wholeDown(0.3 / 0.1)).toBe(3);
    expect(wholeNearest(1.005 * 100)).toBe(101);
  });

  it("forgive the last bits of any number up to a million million", () => {
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e12 }), fc.boolean(), (size, isNegative) => {
        const whole = isNegative ? -size : size;
        const bits = 2 ** -50 * Math.max(1, Math.abs(whole));
        for (const near of [whole - bits, whole, whole + bits]) {
          expect(wholeUp(near)).toBe(whole);
          expect(wholeDown(near)).toBe(whole);
          expect(wholeNearest(near)).toBe(whole);
        }
        expect(wholeNearest(whole + 0.5 - bits)).toBe(whole + 1);
      }),
    );
  });

  it("forgive what a long sum loses", () => {
    const tenths = Array.from({ length: 1000 }, () => 0.1).reduce((total, one) => total + one, 0);
    // Plain addition ends beside 100; that is the dust these functions are for.
    expect(tenths).not.toBe(100);
    expect([wholeUp, wholeDown, wholeNearest].map((rounded) => rounded(tenths))).toEqual([100, 100, 100]);
  });

  it("round real fractions", () => {
    expect(wholeUp(3.001)).toBe(4);
    expect(wholeDown(3.999)).toBe(3);
    expect(wholeNearest(2.49)).toBe(2);
    expect(wholeNearest(-2.5)).toBe(-2);
    expect(wholeNearest(-2.51)).toBe(-3);
    // A millionth is a real fraction where numbers are small.
    expect([wholeUp(3.000001), wholeDown(2.999999), wholeNearest(2.499999)]).toEqual([4, 2, 2]);
  });

  it("match exact arithmetic in 256ths, as far as numbers have them", () => {
    const largest = 2 ** 53 / 256 - 1;
    const wholes = fc.oneof(
      fc.integer({ min: -1000, max: 1000 }),
      fc.integer({ min: -largest, max: largest }),
      fc.integer({ min: largest - 1000, max: largest }),
    );
    fc.assert(
      fc.property(wholes, fc.integer({ min: 0, max: 255 }), (whole, part) => {
        const value = whole + part / 256;
        const exact = BigInt(whole) * 256n + BigInt(part);
        expect(wholeDown(value)).toBe(Number(floorOf(exact, 256n)));
        expect(wholeUp(value)).toBe(Number(-floorOf(-exact, 256n)));
        expect(wholeNearest(value)).toBe(Number(floorOf(exact + 128n, 256n)));
      }),
      { numRuns: 500 },
    );
  });

  it("leave whole numbers as they are, however large", () => {
    const whole = fc.oneof(
      fc.maxSafeInteger(),
      fc.integer({ min: Number.MAX_SAFE_INTEGER - 1000, max: Number.MAX_SAFE_INTEGER }),
      fc.constantFrom(5e11, 1e12, 2 ** 52 + 1, 1e300),
    );
    fc.assert(
      fc.property(whole, (value) => {
        expect([wholeUp(value), wholeDown(value), wholeNearest(value)]).toEqual([value, value, value]);
      }),
    );
  });

  it("never give -0", () => {
    expect(Object.is(wholeUp(-0.2), 0)).toBe(true);
    expect(Object.is(wholeDown(-0), 0)).toBe(true);
    expect(Object.is(wholeNearest(-0), 0)).toBe(true);
    expect(Object.is(wholeNearest(-0.3), 0)).toBe(true);
  });
});
