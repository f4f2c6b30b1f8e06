import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { coverOptions } from "../../../src/core/buying/cover-options";
import { ItemCovers } from "../../../src/core/buying/item-covers";
import type { Offer } from "../../../src/core/buying/purchase";

/** Every way to cover the need in which no bag could be left out. */
function coversOf(need: number, offers: readonly Offer[]): readonly (readonly number[])[] {
  const all: (readonly number[])[] = [];
  const visit = (bags: readonly number[], missing: number): void => {
    const next = offers[bags.length];
    if (next === undefined) {
      const isNeeded = offers.every(({ pieces }, i) => !bags[i] || missing + pieces > 0);
      if (missing <= 0 && isNeeded) all.push(bags);
      return;
    }
    const most = Math.ceil(Math.max(0, need) / next.pieces);
    for (let count = 0; count <= most; count += 1) visit([...bags, count], missing - count * next.pieces);
  };
  visit([], need);
  return all;
}

const offer = fc.record({
  supplier: fc.integer({ min: 0, max: 2 }),
  pieces: fc.integer({ min: 1, max: 12 }),
  price: fc.integer({ min: 1, max: 400 }),
});

describe("coverOptions", () => {
  it("lists the cheapest way to cover for every value of goods at active suppliers, within the slack", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 1, max: 25 }),
        fc.array(offer, { minLength: 1, maxLength: 4 }),
        fc.array(fc.boolean(), { minLength: 3, maxLength: 3 }),
        fc.array(fc.constantFrom(0, 0.25, 0.5, 1), { minLength: 3, maxLength: 3 }),
        fc.integer({ min: 0, max: 300 }),
        (need, offers, isActive, factors, slack) => {
          const active = isActive.flatMap((is, supplier) => (is ? [supplier] : []));
          const reduced = (listed: Offer): number => listed.price * (factors[listed.supplier] ?? 1);
          const options = coverOptions(new ItemCovers({ need, offers }), {
            reduced,
            placeOf: (supplier) => active.indexOf(supplier),
            places: active.length,
            slack,
            step: () => true,
          });
          const all = coversOf(need, offers).map((bags) => {
            const sum = (of: (listed: Offer) => number): number =>
              offers.reduce((total, listed, i) => total + of(listed) * (bags[i] ?? 0), 0);
            return {
              goods: active.map((supplier) => sum((one) => (one.supplier === supplier ? one.price : 0))),
              cost: sum(reduced),
            };
          });
          const least = Math.min(...all.map(({ cost }) => cost));
          for (const { goods, paid, excess, chain } of options ?? []) {
            const bags = offers.map(() => 0);
            for (let link = chain; link; link = link.before)
              bags[link.offer] = (bags[link.offer] ?? 0) + link.bags;
            const sum = (of: (listed: Offer) => number): number =>
              offers.reduce((total, listed, i) => total + of(listed) * (bags[i] ?? 0), 0);
            expect(sum((listed) => listed.pieces)).toBeGreaterThanOrEqual(need);
            expect(sum((listed) => listed.price)).toBe(paid);
            expect(goods).toEqual(
              active.map((supplier) => sum((one) => (one.supplier === supplier ? one.price : 0))),
            );
            expect(sum(reduced) - least).toBeCloseTo(excess, 6);
            expect(excess).toBeLessThanOrEqual(slack + 1e-9);
          }
          for (const { goods, cost } of all) {
            if (cost - least > slack) continue;
            const option = options?.find((one) => one.goods.join() === goods.join());
            expect(option?.excess).toBeLessThanOrEqual(cost - least + 1e-9);
          }
        },
      ),
    );
  });

  it("stops listing when it is told to", () => {
    const offers = [{ supplier: 0, pieces: 5, price: 7 }];
    const covers = new ItemCovers({ need: 50, offers });
    let left = 3;
    const optionsOf = (step: () => boolean) =>
      coverOptions(covers, { reduced: ({ price }) => price, placeOf: () => 0, places: 1, slack: 100, step });
    expect(optionsOf(() => (left -= 1) >= 0)).toBeUndefined();
    expect(optionsOf(() => true)).toHaveLength(1);
  });
});
