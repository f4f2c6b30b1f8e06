import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  amountOf,
  roundedAmount,
  roundedLines,
  safeSubcents,
  sharedAmount,
  subcentsOf,
} from "../../../src/core/numeric/cents";

describe("money in whole hundredths of a cent", () => {
  it("rounds the decimal that was typed, halves up", () => {
    // 1.005 and 0.00005 lie just beside themselves in binary.
    expect([1.005, 0.00005, 14.9, 0.085 * 100].map(subcentsOf)).toEqual([10050, 1, 149000, 85000]);
    expect([10050, 49, 50, 149].map(roundedAmount)).toEqual([1.01, 0, 0.01, 0.01]);
    expect(amountOf(1490)).toBe(14.9);
  });

  it("refuses what whole numbers cannot hold", () => {
    expect(() => subcentsOf(1e12)).toThrow("too large to be exact");
    expect(safeSubcents(subcentsOf(1e11))).toBe(1e15);
  });

  it("are exact up to 450 thousand million, and an error beyond", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 1e12 }), (cents) => {
        expect(BigInt(subcentsOf(cents / 100))).toBe(BigInt(cents) * 100n);
        expect(roundedAmount(cents * 100)).toBe(cents / 100);
      }),
    );
    expect(subcentsOf(450e9)).toBe(450e13);
    expect(() => subcentsOf(451e9)).toThrow("too large to be exact");
    // Half of 2^53 - 1 is the last sum that two of its kind can be added to exactly.
    expect(safeSubcents((2 ** 53 - 2) / 2)).toBe(4503599627370495);
    expect(() => safeSubcents(2 ** 52)).toThrow("too large to be exact");
  });

  it("rounds subcents halves up, exactly", () => {
    fc.assert(
      fc.property(fc.nat(1e9), (subcents) => {
        expect(roundedAmount(subcents)).toBe(Number((BigInt(subcents) + 50n) / 100n) / 100);
      }),
    );
  });

  it("makes lines that add up to the rounded total, each within a cent", () => {
    const lines = fc.array(fc.integer({ min: 0, max: 1e7 }), { minLength: 1, maxLength: 12 });
    fc.assert(
      fc.property(lines, (subcents) => {
        const rounded = roundedLines(subcents);
        const total = subcents.reduce((sum, line) => sum + line, 0);
        const cents = rounded.map((line) => Math.round(line * 100));
        expect(cents.reduce((sum, line) => sum + line, 0)).toBe(Math.round(total / 100));
        cents.forEach((line, i) => {
          expect(Math.abs(line - (subcents[i] ?? 0) / 100)).toBeLessThanOrEqual(1);
        });
      }),
    );
    expect(roundedLines([0, 0])).toEqual([0, 0]);
    // By hand: 1.10, 2.30 and 4.70 cents are 8.10, so 8; down they are 7, and the third lost most.
    expect(roundedLines([110, 230, 470])).toEqual([0.01, 0.02, 0.05]);
    // 4.20 and 1.90 cents are 6.10: the second lost most although it is the smaller.
    expect(roundedLines([420, 190])).toEqual([0.04, 0.02]);
    // Three halves are 4.50 cents and so 5: the earlier two are rounded up.
    expect(roundedLines([150, 150, 150])).toEqual([0.02, 0.02, 0.01]);
  });

  it("shares an amount out to the cent", () => {
    expect(sharedAmount(10, [1, 1, 1])).toEqual([3.34, 3.33, 3.33]);
    // 0.1 + 0.2 lies beside 0.30 in binary.
    expect(sharedAmount(0.1 + 0.2, [2, 1])).toEqual([0.2, 0.1]);
    expect(sharedAmount(0.05, [1, 0, 1])).toEqual([0.03, 0, 0.02]);
    expect(() => sharedAmount(10, [0])).toThrow("shares must hold at least one number above 0");
    expect(() => sharedAmount(1, [0], "pieces")).toThrow("pieces must hold at least one number above 0");
  });
});
