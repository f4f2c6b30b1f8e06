import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { nearestCent, sumOfCents, wholeCents } from "../../../src/core/event/whole-cents";

const amount = fc.double({ min: 0, max: 10_000, noNaN: true });

describe("wholeCents", () => {
  it("C13: shares 273.06 over four pieces (by hand: 27303 whole cents, three more to .99, .87, .81)", () => {
    expect(wholeCents([104.0799, 27.9987, 52.4981, 88.4853])).toEqual([104.08, 28, 52.5, 88.48]);
  });

  it("gives the odd cent of equal amounts to the first (by hand: 1.00 in thirds)", () => {
    expect(wholeCents([1 / 3, 1 / 3, 1 / 3])).toEqual([0.34, 0.33, 0.33]);
    // 0.003 + 0.042 is 0.045 on paper, though a little more in binary: 0.09 in all.
    expect(wholeCents([0.045, 0.003 + 0.042])).toEqual([0.05, 0.04]);
    expect(wholeCents([0.105, 1.005, 0.005])).toEqual([0.11, 1.01, 0]);
  });

  it("has nothing to share where there is nothing", () => {
    expect(wholeCents([])).toEqual([]);
    expect(wholeCents([0, 0])).toEqual([0, 0]);
  });

  it("adds up to the rounded total, each within a cent of its own amount", () => {
    fc.assert(
      fc.property(fc.array(amount, { minLength: 1, maxLength: 30 }), (amounts) => {
        const shared = wholeCents(amounts);
        const exact = amounts.reduce((sum, one) => sum + one, 0) * 100;
        const cents = shared.reduce((sum, one) => sum + Math.round(one * 100), 0);
        expect(Math.abs(cents - exact)).toBeLessThanOrEqual(0.5 + 1e-6);
        shared.forEach((one, index) => {
          expect(Math.abs(one - (amounts[index] ?? 0))).toBeLessThan(0.01 + 1e-9);
          expect(Math.round(one * 100) / 100).toBe(one);
        });
      }),
    );
  });

  it("never gives a larger amount fewer cents than a smaller one", () => {
    fc.assert(
      fc.property(fc.array(amount, { minLength: 2, maxLength: 12 }), (amounts) => {
        const sorted = amounts.toSorted((one, other) => one - other);
        const shared = wholeCents(sorted);
        // Equal amounts may differ by the one cent that the first of them gets.
        for (let index = 1; index < sorted.length; index += 1) {
          const [less = 0, more = 0] = [sorted[index - 1], sorted[index]];
          if (more - less > 1e-7) expect(shared[index] ?? 0).toBeGreaterThanOrEqual(shared[index - 1] ?? 0);
        }
      }),
    );
  });
});

describe("nearestCent", () => {
  it.each([
    [1.575, 1.58], // C7: half a cent up
    [150.835, 150.84], // P6: away from zero
    [-150.835, -150.84],
    [71.3727, 71.37], // P1
    [20.1255, 20.13], // P3
    [1.005, 1.01],
    [0, 0],
  ])("rounds %s to %s (by hand)", (exact, cents) => {
    expect(nearestCent(exact)).toBe(cents);
  });

  it("has no minus zero, which a cell would show", () => {
    expect(Object.is(nearestCent(-0.001), 0)).toBe(true);
  });
});

describe("sumOfCents", () => {
  it("P4: adds up five lines of an offer to the cent", () => {
    expect(sumOfCents([588.67, 142.74, 286.44, 805.2, 318.78])).toBe(2141.83);
  });

  it("has no binary dust (0.1 + 0.2 is 0.3)", () => {
    expect(sumOfCents([0.1, 0.2])).toBe(0.3);
    expect(sumOfCents([])).toBe(0);
  });
});
