import * as fc from "fast-check";
import { describe, expect, it } from "vitest";
import { marginInWords, marginOf, PRICE_BASES, sellPrice } from "../../../src/core/price/sell";
import { lowestCents, nearestCents } from "./exact-cents";

const cents = (from: number, to: number) => fc.integer({ min: from, max: to });
const bases = fc.constantFrom(...PRICE_BASES);

describe("sellPrice", () => {
  it.each([
    // The two readings of 40 % on 100: arithmetic by definition.
    [100, 0.4, "price", 166.67],
    [100, 0.4, "cost", 140],
    // Usual examples of business mathematics (from memory).
    [5, 0.3, "cost", 6.5],
    [5, 0.3, "price", 7.14],
    [29.99, 0.25, "cost", 37.49],
    [50, 0.1, "cost", 55],
    [80, 0.6, "cost", 128],
    // A keystone price doubles the cost, which is half of the price (from memory); a markup may be above 1.
    [40, 1, "cost", 80],
    [40, 0.5, "price", 80],
    [40, 2.5, "cost", 140],
    [0, 0.4, "price", 0],
  ] as const)("%d at %d of %s is %d", (cost, margin, basis, price) => {
    expect(sellPrice(cost, margin, basis)).toBe(price);
  });

  it("takes the margin as a share of the price by default", () => {
    expect(sellPrice(60, 0.4)).toBe(100);
  });

  it("agrees with exact arithmetic to the cent", () => {
    fc.assert(
      fc.property(cents(0, 1e6), cents(0, 9000), bases, (cost, permyriad, basis) => {
        const [times, over] = basis === "cost" ? [10000 + permyriad, 10000] : [10000, 10000 - permyriad];
        expect(sellPrice(cost / 100, permyriad / 10000, basis)).toBe(nearestCents(cost, times, over) / 100);
        expect(sellPrice(cost / 100, permyriad / 10000, basis, 0.01)).toBe(
          lowestCents(cost, times, over) / 100,
        );
      }),
    );
  });

  it.each([
    // By hand, on 166.67: the next step up.
    [1, 167],
    [0.5, 167],
    [0.05, 166.7],
    [5, 170],
    [25, 175],
    [166.67, 166.67],
  ])("steps up to a multiple of %d", (roundTo, price) => {
    expect(sellPrice(100, 0.4, "price", roundTo)).toBe(price);
  });

  it("does not step up from a multiple", () => {
    // 100 x 1.1 and 9 / (1 - 0.9) are a bit above 110 and 90 in binary doubles.
    expect(sellPrice(100, 0.1, "cost", 5)).toBe(110);
    expect(sellPrice(9, 0.9, "price", 10)).toBe(90);
  });

  it.each([
    // By hand, on 166.67: the next price up that ends so.
    [undefined, 0.99, 166.99],
    [undefined, 0.5, 167.5],
    [undefined, 9, 169],
    [undefined, 4.99, 174.99],
    [undefined, 95, 195],
    [undefined, 0, 167],
    [5, 4.99, 169.99],
    [50, 49, 199],
    [1, 0.67, 166.67],
  ])("steps of %s ending in %d", (roundTo, ending, price) => {
    expect(sellPrice(100, 0.4, "price", roundTo, ending)).toBe(price);
  });

  it("never earns less than the margin where it steps, nor wastes a whole step", () => {
    fc.assert(
      fc.property(cents(1, 1e7), cents(0, 95), bases, cents(1, 10000), (cost, percent, basis, step) => {
        const [times, over] = basis === "cost" ? [100 + percent, 100] : [100, 100 - percent];
        const lowest = lowestCents(cost, times, over);
        const price = Math.round(sellPrice(cost / 100, percent / 100, basis, step / 100) * 100);
        expect(price % step).toBe(0);
        expect(price).toBeGreaterThanOrEqual(lowest);
        expect(price - step).toBeLessThan(lowest);
        expect(marginOf(price, cost, basis)).toBeGreaterThanOrEqual(percent / 100 - 1e-12);
      }),
    );
  });

  it("finds the lowest price with an ending that brute force finds", () => {
    fc.assert(
      fc.property(cents(0, 20000), cents(1, 3000), cents(0, 2999), (cost, step, end) => {
        fc.pre(end < step);
        let price = end;
        while (price < cost) price += step;
        expect(sellPrice(cost / 100, 0, "cost", step / 100, end / 100)).toBe(price / 100);
      }),
    );
  });

  it("never falls as the cost or the margin rises", () => {
    fc.assert(
      fc.property(
        cents(0, 1e7),
        cents(0, 1e5),
        cents(0, 80),
        cents(0, 19),
        bases,
        (cost, more, percent, extra, basis) => {
          for (const rounding of [[], [5], [5, 4.99], [undefined, 9]] as const) {
            const price = sellPrice(cost / 100, percent / 100, basis, ...rounding);
            expect(sellPrice((cost + more) / 100, percent / 100, basis, ...rounding)).toBeGreaterThanOrEqual(
              price,
            );
            expect(sellPrice(cost / 100, (percent + extra) / 100, basis, ...rounding)).toBeGreaterThanOrEqual(
              price,
            );
          }
        },
      ),
    );
  });

  it.each([
    [[-1, 0.4], "cost must be 0 or more, found -1"],
    [[1, -0.1], "margin must be 0 or more, found -0.1"],
    [
      [1, 1],
      'margin must be below 1 as a share of the price, found 1; a markup on the cost needs basis "cost"',
    ],
    [[1, 0.4, "price", 0], "round_to must be 0.01 or more, found 0"],
    [[1, 0.4, "price", 0.125], "round_to must be whole cents, found 0.125"],
    [[1, 0.4, "price", undefined, -1], "ending must be 0 or more, found -1"],
    [[1, 0.4, "price", undefined, 0.995], "ending must be whole cents, found 0.995"],
    [[1, 0.4, "price", 5, 9], "ending must be below round_to, 5, found 9"],
    [[2e9, 0.4], "an amount is beyond 1000000000"],
  ] as const)("refuses %j", (given, sentence) => {
    expect(() => sellPrice(...(given as unknown as Parameters<typeof sellPrice>))).toThrow(sentence);
  });
});

describe("marginOf", () => {
  it.each([
    // By definition: a price of 100 leaves 40 over 60, two thirds of it; 125 for 100 is a markup of 25 %.
    [100, 60, "price", 0.4],
    [100, 60, "cost", 2 / 3],
    [125, 100, "cost", 0.25],
    [125, 100, "price", 0.2],
    [80, 100, "price", -0.25],
    [80, 0, "price", 1],
    [0, 80, "cost", -1],
  ] as const)("%d for %d as a share of %s is %d", (price, cost, basis, share) => {
    expect(marginOf(price, cost, basis)).toBeCloseTo(share, 14);
  });

  it("undoes sellPrice within the rounding to a cent", () => {
    fc.assert(
      fc.property(cents(100, 1e8), cents(0, 95), bases, (cost, percent, basis) => {
        const price = sellPrice(cost / 100, percent / 100, basis);
        const halfCent = 0.005 / (basis === "price" ? price : cost / 100);
        expect(Math.abs(marginOf(price, cost / 100, basis) - percent / 100)).toBeLessThanOrEqual(
          halfCent + 1e-12,
        );
      }),
    );
  });

  it("makes margin and markup inverse to each other", () => {
    fc.assert(
      fc.property(cents(1, 1e8), cents(1, 1e8), (price, cost) => {
        // m = k/(1 + k), from the definitions.
        const markup = marginOf(price, cost, "cost");
        expect(marginOf(price, cost, "price") * (1 + markup)).toBeCloseTo(markup, 6);
      }),
    );
  });

  it.each([
    [0, 1, "price", "price is 0, so no share of it can be taken"],
    [1, 0, "cost", "cost is 0, so no share of it can be taken"],
    [-1, 1, "price", "price must be 0 or more, found -1"],
    [1, -1, "price", "cost must be 0 or more, found -1"],
    [1e9, 1e-308, "cost", "cost is too small for a share of it"],
  ] as const)("refuses %d for %d as a share of %s", (price, cost, basis, sentence) => {
    expect(() => marginOf(price, cost, basis)).toThrow(sentence);
  });
});

describe("marginInWords", () => {
  it.each([
    [100, 60, "margin 40.00 % of price, markup 66.67 % on cost"],
    [100, 0, "margin 100.00 % of price, no cost"],
    [0, 60, "no margin, the price is 0"],
  ])("names both for %d and %d", (price, cost, words) => {
    expect(marginInWords(price, cost)).toBe(words);
  });
});
