import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ItemCovers } from "../../../src/core/buying/item-covers";
import type { Offer } from "../../../src/core/buying/purchase";

/** Cheapest price that covers the need, by trying every number of bags of every offer. */
function cheapest(need: number, offers: readonly Offer[]): number {
  if (need <= 0) return 0;
  const [first, ...others] = offers;
  if (first === undefined) return Infinity;
  let best = Infinity;
  for (let bags = 0; bags * first.pieces < need + first.pieces; bags += 1) {
    best = Math.min(best, bags * first.price + cheapest(need - bags * first.pieces, others));
  }
  return best;
}

const offer = fc.record({
  supplier: fc.integer({ min: 0, max: 2 }),
  pieces: fc.integer({ min: 1, max: 12 }),
  price: fc.integer({ min: 1, max: 400 }),
});

describe("ItemCovers", () => {
  it("finds the cheapest cover that trying everything finds", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 30 }),
        fc.array(offer, { minLength: 1, maxLength: 3 }),
        (need, offers) => {
          const { price, bags } = new ItemCovers({ need, offers }).best((listed) => listed.price);
          expect(price).toBe(cheapest(need, offers));
          const pieces = offers.reduce((sum, listed, index) => sum + listed.pieces * (bags[index] ?? 0), 0);
          const paid = offers.reduce((sum, listed, index) => sum + listed.price * (bags[index] ?? 0), 0);
          expect(pieces).toBeGreaterThanOrEqual(need);
          expect(paid).toBe(price);
        },
      ),
    );
  });

  it("leaves out offers that may not be bought", () => {
    const offers = [
      { supplier: 0, pieces: 10, price: 5 },
      { supplier: 1, pieces: 10, price: 9 },
    ];
    const covers = new ItemCovers({ need: 15, offers });
    const only = covers.best((listed) => (listed.supplier === 0 ? Infinity : listed.price));
    expect(only.price).toBe(18);
    expect(only.bags).toEqual([0, 2]);
    expect(covers.best(() => Infinity).price).toBe(Infinity);
  });

  /** Prices by set of suppliers, each set planned by itself. */
  const setBySet = (
    need: number,
    offers: readonly Offer[],
    optional: readonly number[],
    isOpen: (s: number) => boolean,
  ) =>
    Array.from({ length: 2 ** optional.length }, (_, mask) =>
      cheapest(
        need,
        offers.filter(({ supplier }) => {
          const bit = optional.indexOf(supplier);
          return bit < 0 ? isOpen(supplier) : ((mask >> bit) & 1) === 1;
        }),
      ),
    );

  it("prices every set of suppliers as if planned by itself", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 25 }),
        fc.array(offer, { minLength: 1, maxLength: 4 }),
        fc.subarray([0, 1, 2]),
        fc.array(fc.boolean(), { minLength: 3, maxLength: 3 }),
        (need, offers, optional, open) => {
          const sold = optional.filter((supplier) => offers.some((one) => one.supplier === supplier));
          const isOpen = (supplier: number): boolean => open[supplier] === true;
          expect([...new ItemCovers({ need, offers }).priceBySet(sold, isOpen)]).toEqual(
            setBySet(need, offers, sold, isOpen),
          );
        },
      ),
    );
  });

  it("does the same for needs that no table is kept for", () => {
    // 30,001 pieces in bags of 7 and 5 have no common unit. By hand: a bag of 7 at 14.00 is 2.00 a piece, one of 5 at 11.00
    // is 2.20; 7 x 4285 = 29,995 leaves 6, which is one more bag of 7.
    const offers = [
      { supplier: 0, pieces: 7, price: 1400 },
      { supplier: 1, pieces: 5, price: 1100 },
      { supplier: 2, pieces: 5, price: 1000 },
    ];
    const covers = new ItemCovers({ need: 30_001, offers });
    expect(covers.isLarge).toBe(true);
    const best = covers.best(({ price }) => price);
    // 7 a + 5 c = 30,001 has solutions, and a piece costs 2.00 in either bag.
    expect(best.price).toBe(6_000_200);
    expect([7 * (best.bags[0] ?? 0) + 5 * (best.bags[2] ?? 0), best.bags[1]]).toEqual([30_001, 0]);
    expect(covers.best(({ supplier, price }) => (supplier === 2 ? Infinity : price))).toEqual({
      price: 4286 * 1400,
      bags: [4286, 0, 0],
    });
    expect(covers.best(() => Infinity)).toEqual({ price: Infinity, bags: [0, 0, 0] });
    // Without the bags of 5 at 10.00: sets of suppliers 0 and 1, supplier 2 closed.
    expect([...covers.priceBySet([0, 1], () => false)]).toEqual([
      Infinity,
      4286 * 1400,
      6001 * 1100,
      4286 * 1400,
    ]);
    expect([...covers.priceBySet([1], (supplier) => supplier === 0)]).toEqual([4286 * 1400, 4286 * 1400]);
  });

  it("keeps a table up to 20,000 units", () => {
    const sizeOf = (need: number): ItemCovers =>
      new ItemCovers({ need, offers: [{ supplier: 0, pieces: 10, price: 1 }] });
    expect([sizeOf(200_000).isLarge, sizeOf(200_001).isLarge]).toEqual([false, true]);
  });
});
