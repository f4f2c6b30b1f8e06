import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { CalcError } from "../../../src/core/calc-error";
import {
  largestRemainder,
  quotas,
  raiseLargest,
  requirePositiveWeight,
} from "../../../src/core/numeric/largest-remainder";
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

/** Hamilton's method in whole numbers: quotas are fractions over the sum of the weights, compared exactly. */
function exactly(total: number, weights: readonly number[]): number[] {
  const whole = weights.reduce((before, weight) => before + BigInt(weight), 0n);
  const dues = weights.map((weight) => BigInt(total) * BigInt(weight));
  const parts = dues.map((due) => due / whole);
  const left = BigInt(total) - parts.reduce((before, part) => before + part, 0n);
  const ranked = dues
    .map((due, index) => ({ rest: due % whole, index }))
    .toSorted((a, b) => (a.rest === b.rest ? a.index - b.index : a.rest > b.rest ? -1 : 1));
  for (const { index } of ranked.slice(0, Number(left))) parts[index] = (parts[index] ?? 0n) + 1n;
  return parts.map(Number);
}

describe("largest remainder in exact arithmetic", () => {
  it("gives the same as whole numbers do", () => {
    const weights = fc.array(fc.nat(1000), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(fc.nat(100_000), weights, (total, parts) => {
        fc.pre(parts.some((part) => part > 0));
        expect(largestRemainder(total, parts)).toEqual(exactly(total, parts));
      }),
      { numRuns: 500 },
    );
  });

  it("does not care for the unit of the weights", () => {
    const weights = fc.array(fc.nat(1000), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(fc.nat(100_000), weights, fc.constantFrom(0.01, 0.1, 3, 1e6), (total, parts, unit) => {
        fc.pre(parts.some((part) => part > 0));
        const scaled = parts.map((part) => part * unit);
        expect(largestRemainder(total, scaled)).toEqual(exactly(total, parts));
      }),
    );
  });

  it("settles a tie between a small and a very large share by their order", () => {
    // Quotas by hand: 0.3, 1000000.3, 0.3 and 0.1, so one is left over and the first of the three has it.
    expect(largestRemainder(1_000_001, [3, 10_000_003, 3, 1])).toEqual([1, 1_000_000, 0, 0]);
    expect(largestRemainder(1_000_001, [1, 10_000_003, 3, 3])).toEqual([0, 1_000_001, 0, 0]);
  });

  it("shares nothing out, and all to the only one", () => {
    expect(largestRemainder(0, [1, 2])).toEqual([0, 0]);
    expect(largestRemainder(7, [0, 0.25, 0])).toEqual([0, 7, 0]);
  });
});

describe("quotas", () => {
  it("are shares of the total, equal where they are equal on paper", () => {
    // Half of 5 in three ways that binary arithmetic tells apart.
    expect(quotas(5, [0.1, 0.2, 0.7])).toEqual([0.5, 1, 3.5]);
    expect(quotas(10, [1, 3])).toEqual([2.5, 7.5]);
    expect(quotas(1, [1, 2])).toEqual([0.33333333333333, 0.66666666666667]);
  });
});

describe("raising the largest remainders", () => {
  it("raises as many entries as asked, earlier ones first among equals", () => {
    const rests = [0.2, 0.7, 0.7, 0.1];
    const raisedBy = (count: number): number[] => {
      const parts = [10, 20, 30, 40];
      raiseLargest(parts, count, (index) => rests[index] ?? 0);
      return parts;
    };
    expect(raisedBy(0)).toEqual([10, 20, 30, 40]);
    expect(raisedBy(1)).toEqual([10, 21, 30, 40]);
    expect(raisedBy(2)).toEqual([10, 21, 31, 40]);
    expect(raisedBy(3)).toEqual([11, 21, 31, 40]);
    expect(raisedBy(4)).toEqual([11, 21, 31, 41]);
    expect(raisedBy(-1)).toEqual([10, 20, 30, 40]);
  });
});

describe("weights that share nothing out", () => {
  it.each([[[]], [[0]], [[0, 0]], [[-1, 0]]])("are refused in a sentence: %j", (weights) => {
    const refused = new CalcError("#VALUE!", "shares must hold at least one number above 0, found none");
    expect(() => largestRemainder(5, weights)).toThrow(refused);
    expect(() => {
      requirePositiveWeight(weights, "shares");
    }).toThrow(refused);
  });

  it("are not those with one number above 0", () => {
    expect(() => {
      requirePositiveWeight([0, 0.001, 0], "shares");
    }).not.toThrow();
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
