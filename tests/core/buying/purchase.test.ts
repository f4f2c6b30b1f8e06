import { describe, expect, it } from "vitest";
import { bagsOf, coverOf, goodsBySupplier, intervalsOf, type Offer } from "../../../src/core/buying/purchase";

const offers: readonly Offer[] = [
  { supplier: 1, pieces: 10, price: 300 },
  { supplier: 0, pieces: 50, price: 900 },
  { supplier: 1, pieces: 100, price: 1700 },
];

describe("intervalsOf", () => {
  const free = (threshold: number) => ({ supplier: 2, threshold, charge: 0 });
  it.each([
    ["nothing asked", { charge: 0, minimum: 0, freeFrom: Infinity }, [free(0)]],
    ["a minimum alone", { charge: 0, minimum: 80, freeFrom: 50 }, [free(80)]],
    ["a charge without end", { charge: 7, minimum: 20, freeFrom: Infinity }, [{ ...free(20), charge: 7 }]],
    ["a charge up to 90", { charge: 7, minimum: 20, freeFrom: 90 }, [{ ...free(20), charge: 7 }, free(90)]],
    ["free from below the minimum", { charge: 7, minimum: 20, freeFrom: 20 }, [free(20)]],
  ])("%s", (_, terms, intervals) => {
    expect(intervalsOf(terms, 2)).toEqual(intervals);
  });
});

describe("covers", () => {
  it("adds up chains, goods of an item and goods of all", () => {
    const chain = { offer: 2, bags: 1, before: { offer: 0, bags: 3, before: undefined } };
    expect(bagsOf(offers, chain)).toEqual([3, 0, 1]);
    expect(bagsOf(offers, undefined)).toEqual([0, 0, 0]);
    // 3 x 300 + 1700 at supplier 1.
    expect(goodsBySupplier(offers, [3, 0, 1], 2)).toEqual([0, 2600]);
    const wanted = [0, 1].map(() => ({ need: 1, offers }));
    const bags = [
      [3, 0, 1],
      [0, 2, 0],
    ];
    expect(coverOf(wanted, bags, 2)).toEqual({ bags, goods: [1800, 2600] });
  });
});
