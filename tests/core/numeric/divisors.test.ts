import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { greatestCommonDivisor } from "../../../src/core/numeric/divisors";

describe("greatestCommonDivisor", () => {
  it("is the largest number that divides both, by trying all", () => {
    const whole = fc.integer({ min: 1, max: 200 });
    fc.assert(
      fc.property(whole, whole, (a, b) => {
        let most = 1;
        for (let n = 1; n <= a; n += 1) if (a % n === 0 && b % n === 0) most = n;
        expect(greatestCommonDivisor(a, b)).toBe(most);
      }),
    );
  });

  it("is the other number where one is 0", () => {
    expect([greatestCommonDivisor(0, 12), greatestCommonDivisor(12, 0), greatestCommonDivisor(0, 0)]).toEqual(
      [12, 12, 0],
    );
  });
});
