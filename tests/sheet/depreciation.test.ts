import { describe, expect, it } from "vitest";
import { decliningBalance } from "../../src/sheet/depreciation";

describe("DB", () => {
  // Microsoft's page DB: 1,000,000 to 100,000 in 6 years, 7 months in the first.
  it.each([
    [1, 186_083.33],
    [2, 259_639.42],
    [3, 176_814.44],
    [4, 120_410.64],
    [5, 81_999.64],
    [6, 55_841.76],
    [7, 15_845.1],
  ])("in year %i is %d", (period, lost) => {
    expect(decliningBalance(1_000_000, 100_000, 6, period, 7)).toBeCloseTo(lost, 2);
  });

  it("takes whole months, and a year of them where none are given", () => {
    expect(decliningBalance(1000, 100, 6, 1)).toBe(319);
    expect(decliningBalance(1000, 100, 6, 1, 12.9)).toBe(319);
    expect(decliningBalance(1000, 100, 6, 1, 6)).toBe(159.5);
    // What Excel stored for a period and a half.
    expect(decliningBalance(12, 10, 4, 4.5, 2)).toBeCloseTo(0.48879979875, 12);
    expect(decliningBalance(0, 10, 4, 1)).toBe(0);
    expect(decliningBalance(1000, 0, 4, 2)).toBe(0);
  });

  it.each([
    [-1, 0, 4, 1, 12],
    [1, -1, 4, 1, 12],
    [1, 0, 0, 1, 12],
    [1, 0, 4, 0, 12],
    [1, 0, 4, 1, 0],
    [1, 0, 4, 1, 13],
    [1, 0, 4, 5, 12],
    [1, 0, 4, 6, 11],
  ])(
    "of %d to %d in %d years is nothing in year %d with %d months",
    (cost, salvage, life, period, months) => {
      expect(() => decliningBalance(cost, salvage, life, period, months)).toThrow("#NUM!");
    },
  );

  it("takes no longer for a long life", () => {
    expect(decliningBalance(1000, 100, 1e15, 1e14)).toBe(0);
  });
});
