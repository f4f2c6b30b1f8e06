import { describe, expect, it } from "vitest";
import { bagPlan, requireBagSize } from "../../../src/core/stock/bag-plan";

describe("bagPlan", () => {
  // Four general-purpose MILP libraries, dynamic programming and brute force agree on these.
  it.each([
    [237, [100, 50, 25, 10], [9.5, 5.5, 3.25, 1.6], 24.5, [2, 1, 0, 0], 13],
    [101, [100, 72, 24, 6], [8, 6.2, 2.4, 0.75], 8.75, [1, 0, 0, 1], 5],
    [999, [144, 100, 50, 12], [10.99, 8.25, 4.5, 1.29], 76.93, [7, 0, 0, 0], 9],
    [43, [6, 9, 20], [6, 9, 20], 44, [4, 0, 1], 1],
  ])("covers %i", (count, sizes, prices, cost, bags, leftOver) => {
    const plan = bagPlan(count, sizes, prices);
    expect(plan.cost).toBe(cost);
    expect(plan.leftOver).toBe(leftOver);
    const pieces = plan.bags.reduce((sum, n, i) => sum + n * (sizes[i] ?? 0), 0);
    expect(pieces).toBe(count + leftOver);
    // The library's own mix is one optimum of perhaps several.
    if (count !== 43) expect(plan.bags).toEqual(bags);
  });

  it("stays exact at a thousand million", () => {
    // 7 x 142,857,142 = 999,999,994 leaves 6: one more bag of 7 at 4.00 or two of 3 at 2.00 each; equal, so least left over.
    const plan = bagPlan(1e9, [7, 3], [4, 2]);
    expect(plan.leftOver).toBe(0);
    expect(plan.cost).toBe(142857142 * 4 + 4);
    expect(plan.bags).toEqual([142857142, 2]);
  });

  it("takes sizes without a common factor, however large the count", () => {
    // At 1.00 a piece nothing is cheaper than no left-overs, which beyond 9972 x 9966 pieces there always are (Sylvester 1884).
    const plan = bagPlan(1e9, [9973, 9967, 9949], [9973, 9967, 9949]);
    expect([plan.cost, plan.leftOver]).toEqual([1e9, 0]);
  });

  it("keeps hundredths of a cent until the end", () => {
    expect(bagPlan(100, [1], [0.085]).cost).toBe(8.5);
    expect(bagPlan(3, [1], [0.335]).cost).toBe(1.01);
  });

  it("takes the earlier of two equal bags", () => {
    expect(bagPlan(10, [10, 10], [5, 5]).bags).toEqual([1, 0]);
  });

  it.each([
    [10, [100, 0], [1, 1], "sizes cell 2 must be a whole number of pieces from 1 to 10000, found 0"],
    [
      10,
      [46528],
      [1],
      "sizes cell 1 must be a whole number of pieces from 1 to 10000, found 46528; this is a date",
    ],
    [10, [100], [0], "prices cell 1 must be above 0, found 0"],
    [10, [100, 50], [1], "prices must be 2 cells like sizes, found 1"],
    [10, [], [], "nobody sells this item"],
    // 5e7 is 5013 x 9973 + 5351; bags of 9967 change that by six each, so the exact sum takes thousands of them.
    [5e7, [9973, 9967], [9973, 9967], "count and bag sizes together are too large"],
    [1e9, [1], [1e9], "the amount is too large to be exact to the cent"],
  ])("refuses %j, %j, %j", (count, sizes, prices, sentence) => {
    expect(() => bagPlan(count, sizes, prices)).toThrow(sentence);
  });
});

describe("requireBagSize", () => {
  it("takes whole pieces up to ten thousand, and knows a date by its number", () => {
    const sentence = (pieces: number): string => {
      try {
        requireBagSize("bag", pieces);
        return "";
      } catch (error) {
        return (error as Error).message;
      }
    };
    expect([1, 50, 10_000].map(sentence)).toEqual(["", "", ""]);
    for (const pieces of [0, -1, 2.5, 10_001, 36_000, 60_000]) {
      expect(sentence(pieces)).toMatch(
        /^bag must be a whole number of pieces from 1 to 10000, found [-0-9.]+$/,
      );
    }
    // Days since 1899-12-30: 36,001 is in July 1998, 59,999 in April 2064.
    for (const pieces of [36_001, 59_999]) expect(sentence(pieces)).toContain("this is a date");
  });
});
