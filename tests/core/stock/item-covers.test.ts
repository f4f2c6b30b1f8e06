import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { ItemCovers, type Offer } from "../../../src/core/stock/item-covers";

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
});
