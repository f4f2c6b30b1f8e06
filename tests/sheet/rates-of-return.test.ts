import { describe, expect, it } from "vitest";
import { internalRate, modifiedRate } from "../../src/sheet/rates-of-return";

const row = (...cells: readonly (number | string | boolean | null)[]) => [cells];

describe("MIRR", () => {
  const payments = [-120_000, 39_000, 30_000, 21_000, 37_000, 46_000];

  // Microsoft's page MIRR gives whole percent; the digits are its formula worked out.
  it.each([
    [6, 0.12, 0.1261],
    [4, 0.12, -0.048],
    [6, 0.14, 0.1348],
  ])("over %i payments, invested again at %d, is %d", (count, reinvest, rate) => {
    expect(modifiedRate(row(...payments.slice(0, count)), 0.1, reinvest)).toBeCloseTo(rate, 4);
  });

  it("leaves blanks and texts out, and takes rates of -1 and earnings of 0", () => {
    expect(modifiedRate(row(-100, null, "x", 121), 0.1, 0.2)).toBeCloseTo(0.21, 12);
    // Paid at once, so that the rate does not matter: 4 for 5.
    expect(modifiedRate(row(-5, 4), -1, 0.2)).toBeCloseTo(-0.2, 12);
    expect(modifiedRate(row(-5, -3), 0.1, 0.2)).toBe(-1);
  });

  it("is not there without payments of a person's own", () => {
    expect(() => modifiedRate(row(5, 3), 0.1, 0.2)).toThrow("#DIV/0!");
    expect(() => modifiedRate(row(-5), 0.1, 0.2)).toThrow("#DIV/0!");
    expect(() => modifiedRate(row(null), 0.1, 0.2)).toThrow("#DIV/0!");
    expect(() => modifiedRate([[-5, { error: "#N/A" }]], 0.1, 0.2)).toThrow("#N/A");
    expect(() => modifiedRate(row(-5, 3), "x", 0.2)).toThrow("#VALUE!");
  });
});

describe("IRR", () => {
  const payments = [-70_000, 12_000, 15_000, 18_000, 21_000, 26_000];
  const worth = (rate: number, of: readonly number[]): number =>
    of.reduce((sum, payment, period) => sum + payment / (1 + rate) ** period, 0);

  // Microsoft's page IRR: -2.1 %, 8.7 %, and -44.4 % after two years from a guess of -10 %.
  it.each([
    [5, undefined, -0.021],
    [6, undefined, 0.087],
    [3, -0.1, -0.444],
  ] as const)("over %i payments from %d is %d", (count, guess, rate) => {
    const given = payments.slice(0, count);
    const found = internalRate(null, row(...given), guess ?? null) as number;
    expect(found).toBeCloseTo(rate, 3);
    expect(worth(found, given)).toBeCloseTo(0, 6);
  });

  it("goes on from a rate that is near", () => {
    const found = internalRate(0.0866, row(...payments)) as number;
    expect(worth(found, payments)).toBeCloseTo(0, 6);
    // Newton's method leaves the rates there are: what is near stands.
    expect(internalRate(7, row(-1, 1e-9))).toBe(7);
  });

  it("wants something paid and something earned", () => {
    expect(() => internalRate(null, row(1, 2))).toThrow("#NUM!");
    expect(() => internalRate(null, row(-1, -2))).toThrow("#NUM!");
    expect(() => internalRate(null, row(-1, 2), -1)).toThrow("#VALUE!");
    expect(() => internalRate(null, [[{ error: "#REF!" }, 2]])).toThrow("#REF!");
  });
});
