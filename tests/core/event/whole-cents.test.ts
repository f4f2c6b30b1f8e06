import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nearestCent, sumOfCents, wholeCents } from "../../../src/core/event/whole-cents";

describe("wholeCents", () => {
  it("C13: gives the cents that are left over to the largest remainders", () => {
    // By hand: 27303 whole cents, three more go to .99, .87, .81.
    expect(wholeCents([104.0799, 27.9987, 52.4981, 88.4853])).toEqual([104.08, 28, 52.5, 88.48]);
  });

  it("gives a tie to the first, also where binary dust would not", () => {
    // By hand: three equal thirds of 10.00.
    expect(wholeCents([10 / 3, 10 / 3, 10 / 3])).toEqual([3.34, 3.33, 3.33]);
    expect(wholeCents([0.105, 1.005, 0.005])).toEqual([0.11, 1.01, 0]);
  });

  it("adds up to the rounded total, each within a cent of its amount", () => {
    fc.assert(
      fc.property(fc.array(fc.double({ min: 0, max: 1e6, noNaN: true }), { maxLength: 40 }), (amounts) => {
        const cents = wholeCents(amounts);
        const total = amounts.reduce((sum, amount) => sum + amount, 0);
        expect(Math.abs(sumOfCents(cents) - total)).toBeLessThanOrEqual(0.005 + 1e-6);
        cents.forEach((cent, index) => {
          expect(Math.abs(cent - (amounts[index] ?? 0))).toBeLessThan(0.01 + 1e-6);
        });
      }),
    );
  });
});

it("rounds a single amount half a cent away from zero", () => {
  expect([nearestCent(1.005), nearestCent(-1.005), nearestCent(0)]).toEqual([1.01, -1.01, 0]);
});
