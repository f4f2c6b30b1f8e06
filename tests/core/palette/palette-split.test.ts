import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { evenRounding, paletteSplit, refuseSlippedPercents } from "../../../src/core/palette/palette-split";

const sum = (values: readonly number[]): number => values.reduce((total, value) => total + value, 0);

/** Every way of writing `total` as whole numbers for `places` colours. */
function* splits(total: number, places: number): Generator<readonly number[]> {
  if (places === 1) yield [total];
  else
    for (let first = total; first >= 0; first -= 1)
      for (const rest of splits(total - first, places - 1)) yield [first, ...rest];
}

// Weights whose sum is near 100 or 1 could read as percents that slipped, which are refused.
const weights = fc
  .array(fc.integer({ min: 0, max: 1000 }), { minLength: 1, maxLength: 8 })
  .filter((values) => sum(values) > 1 && Math.abs(sum(values) - 100) > 20);

describe("largest remainder", () => {
  it.each([
    // Balinski and Young, Fair Representation (1982), Hamilton's bill of 1792: first census, 120 seats (from memory).
    [
      120,
      [
        630560, 475327, 432879, 353523, 331589, 278514, 236841, 206236, 179570, 141822, 85533, 70835, 68705,
        68446, 55540,
      ],
      [21, 16, 14, 12, 11, 9, 8, 7, 6, 5, 3, 2, 2, 2, 2],
    ],
    // J. D. A. Wiseman, Apportionment (jdawiseman.com/papers/electsys/apportionment.html).
    // Ten times its shares, since 59 + 26 + 16 + 7 = 108 reads like slipped percents.
    [11, [590, 260, 160, 70], [6, 3, 1, 1]],
  ])("shares %i as the published table", (total, shares, expected) => {
    expect(paletteSplit(total, shares)).toEqual(expected);
  });

  it("gives ties to the earlier colour, also where binary shares differ in the last digit", () => {
    expect(paletteSplit(5, [0.1, 0.2, 0.7])).toEqual([1, 1, 3]);
    expect(paletteSplit(4, [1, 1, 1])).toEqual([2, 1, 1]);
    expect(paletteSplit(10, [1 / 3, 1 / 3, 1 / 3])).toEqual([4, 3, 3]);
  });

  it("keeps every colour within 1 of its exact share and adds up", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e9 }), weights, (total, shares) => {
        const parts = paletteSplit(total, shares);
        expect(sum(parts)).toBe(total);
        parts.forEach((part, i) => {
          expect(Math.abs(part - (total * (shares[i] ?? 0)) / sum(shares))).toBeLessThan(1);
        });
      }),
    );
  });
});

describe("even rounding", () => {
  it.each([
    // Votes 53,000, 24,000 and 23,000 for 7 seats: the usual illustration of Sainte-Lague (from memory).
    [7, [53000, 24000, 23000], [3, 2, 2]],
    // Quotients 59, 26, 19.67, 16, 11.8, 8.67, 8.43, 7, 6.56, 5.36, 5.33 by hand; the shares are Wiseman's.
    [11, [590, 260, 160, 70], [6, 2, 2, 1]],
  ])("shares %i as the published table", (total, shares, expected) => {
    expect(paletteSplit(total, shares, "even rounding")).toEqual(expected);
  });

  it("is the split with the least Sainte-Lague sum of squares, by brute force", () => {
    // Sainte-Lague 1910: the method minimises the sum of w (a/w - total/sum w)^2.
    const positive = fc.array(fc.integer({ min: 1, max: 60 }), { minLength: 2, maxLength: 4 });
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 14 }), positive, (total, shares) => {
        const unfairness = (parts: readonly number[]): number =>
          sum(
            parts.map((part, i) => (shares[i] ?? 1) * (part / (shares[i] ?? 1) - total / sum(shares)) ** 2),
          );
        const least = Math.min(...[...splits(total, shares.length)].map(unfairness));
        expect(unfairness(evenRounding(total, shares))).toBeCloseTo(least, 9);
      }),
    );
  });

  it("never takes a balloon away when the total grows", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 500 }), weights, (total, shares) => {
        const before = evenRounding(total, shares);
        const after = evenRounding(total + 1, shares);
        expect(sum(before)).toBe(total);
        before.forEach((part, i) => {
          expect(after[i]).toBeGreaterThanOrEqual(part);
        });
      }),
      { numRuns: 300 },
    );
  });

  it("gives nothing to a share of 0 and ties to the earlier colour", () => {
    expect(evenRounding(1, [1, 1, 0])).toEqual([1, 0, 0]);
    expect(evenRounding(3, [0, 1, 1])).toEqual([0, 2, 1]);
  });
});

describe("shares", () => {
  it("may be percents, shares of 1 or ratios", () => {
    for (const shares of [
      [50, 25, 25],
      [0.5, 0.25, 0.25],
      [2, 1, 1],
      [49, 25, 25],
      [51, 25.5, 25.5],
    ])
      expect(paletteSplit(112, shares)).toEqual([56, 28, 28]);
  });

  it.each([
    [[50, 30, 25], "shares must add up to 100%, found 105%; ratios such as 2, 1, 1 are read too"],
    [[0.5, 0.3, 0.1], "shares must add up to 100%, found 90%; ratios such as 2, 1, 1 are read too"],
    [[0, 0], "shares must hold at least one number above 0, found none"],
  ])("refuses %j", (shares, sentence) => {
    expect(() => paletteSplit(10, shares)).toThrow(sentence);
  });

  it("lets equal shares and small ratios pass whatever their sum", () => {
    for (const shares of [
      [30, 30, 30],
      [1],
      [5, 3, 3],
      Array.from({ length: 90 }, (_, i) => 1 + (i % 2) * 0.001),
    ])
      expect(() => {
        refuseSlippedPercents(shares, "shares");
      }).not.toThrow();
  });
});
