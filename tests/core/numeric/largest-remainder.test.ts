import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { largestRemainder } from "../../../src/core/numeric/largest-remainder";
import { sum } from "../../../src/core/numeric/sums";

describe("largest remainder", () => {
  it("matches the usual textbook example of the method", () => {
    // 100 seats for 47000, 16000, 15800, 12000, 6100, 3100 votes give 47, 16, 16, 12, 6, 3.
    expect(largestRemainder(100, [47000, 16000, 15800, 12000, 6100, 3100])).toEqual([47, 16, 16, 12, 6, 3]);
  });

  it("shows the Alabama paradox, which the method is known for", () => {
    // Shares 6, 6, 2: the third loses a place when the house grows from 10 to 11.
    expect(largestRemainder(10, [6, 6, 2])).toEqual([4, 4, 2]);
    expect(largestRemainder(11, [6, 6, 2])).toEqual([5, 5, 1]);
  });

  it("gives equal remainders to the earlier share", () => {
    expect(largestRemainder(1, [1, 1])).toEqual([1, 0]);
    expect(largestRemainder(10, [0.1, 0.2, 0.7])).toEqual([1, 2, 7]);
  });

  it("adds up to the total and stays within one of each quota", () => {
    const shares = fc.array(fc.double({ min: 0, max: 1e6, noNaN: true }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(fc.nat(100000), shares, (total, parts) => {
        fc.pre(parts.reduce((before, part) => before + part, 0) > 1e-3);
        const whole = parts.reduce((before, part) => before + part, 0);
        const counts = largestRemainder(total, parts);
        expect(counts.reduce((before, count) => before + count, 0)).toBe(total);
        counts.forEach((count, index) => {
          expect(Math.abs(count - (total * (parts[index] ?? 0)) / whole)).toBeLessThan(1.001);
        });
      }),
    );
  });
});

describe("sum", () => {
  it("keeps what plain addition loses", () => {
    // Neumaier's own example: 1 + 1e100 + 1 - 1e100 is 2.
    expect(sum([1, 1e100, 1, -1e100])).toBe(2);
    expect(sum(Array.from({ length: 10 }, () => 0.1))).toBe(1);
    expect(Object.is(sum([]), 0)).toBe(true);
  });
});
