import fc from "fast-check";
import loadHighs from "highs";
import { describe, expect, it } from "vitest";
import { type Bag, cheapestCover, coverSteps } from "../../../src/core/buying/cheapest-cover";
import { randomFrom } from "./purchase-model";

/** Cheapest cover by trying every mix, as [price, pieces, bags]. */
function bruteForce(count: number, bags: readonly Bag[]): readonly number[] {
  let best: readonly number[] = [Infinity, Infinity, Infinity];
  const visit = (kind: number, price: number, pieces: number, taken: number): void => {
    if (pieces >= count || kind === bags.length) {
      const found = [price, pieces, taken];
      const first = found.findIndex((value, i) => value !== best[i]);
      if (pieces >= count && (found[first] ?? 0) < (best[first] ?? 0)) best = found;
      return;
    }
    const bag = bags[kind] ?? { pieces: 1, price: 0 };
    for (let n = 0; n <= Math.ceil((count - pieces) / bag.pieces); n += 1)
      visit(kind + 1, price + n * bag.price, pieces + n * bag.pieces, taken + n);
  };
  visit(0, 0, 0, 0);
  return best;
}

const bagKinds = (most: number): fc.Arbitrary<readonly Bag[]> =>
  fc.array(fc.record({ pieces: fc.integer({ min: 1, max: most }), price: fc.integer({ min: 1, max: 40 }) }), {
    minLength: 1,
    maxLength: 4,
  });

/** Price, pieces, bags of the best cover by dynamic programming piece by piece, without any shortcut. */
function byTable(count: number, bags: readonly Bag[]): readonly number[] {
  const rows: (readonly number[])[] = [[0, 0, 0]];
  for (let n = 1; n <= count; n += 1) {
    const ways = bags.map((bag) => {
      const [price = 0, pieces = 0, taken = 0] = rows[Math.max(0, n - bag.pieces)] ?? [];
      return [price + bag.price, pieces + bag.pieces, taken + 1];
    });
    rows.push(
      ways.reduce((a, b) => ((a.map((x, i) => x - (b[i] ?? 0)).find((d) => d !== 0) ?? 0) > 0 ? b : a)),
    );
  }
  return rows[count] ?? [];
}

const triple = (count: number, bags: readonly Bag[]): readonly number[] => {
  const cover = cheapestCover(count, bags);
  const total = (of: (bag: Bag) => number): number =>
    cover.bags.reduce((sum, taken, i) => sum + taken * (bags[i] ? of(bags[i]) : 0), 0);
  expect([total(({ price }) => price), total(({ pieces }) => pieces)]).toEqual([cover.price, cover.pieces]);
  return [cover.price, cover.pieces, cover.bags.reduce((sum, taken) => sum + taken, 0)];
};

describe("cheapestCover", () => {
  it("equals brute force in price, pieces left over and number of bags", () => {
    fc.assert(
      fc.property(fc.integer({ min: 0, max: 60 }), bagKinds(20), (count, bags) => {
        expect(triple(count, bags)).toEqual(bruteForce(count, bags));
      }),
      { numRuns: 1000 },
    );
  });

  it("gives a count of hundreds and thousands what plain dynamic programming gives, ties included", () => {
    const priced = bagKinds(30);
    // Many bags at one price a piece or a little above make ties.
    const tied = fc.array(
      fc
        .tuple(fc.integer({ min: 1, max: 40 }), fc.constantFrom(0, 0, 1))
        .map(([pieces, more]) => ({ pieces, price: 2 * pieces + more })),
      { minLength: 1, maxLength: 5 },
    );
    fc.assert(
      fc.property(fc.integer({ min: 30, max: 3000 }), fc.oneof(priced, tied), (count, bags) => {
        expect(triple(count, bags)).toEqual(byTable(count, bags));
      }),
      { numRuns: 500 },
    );
  });

  it("equals a MILP solver for thousands", async () => {
    const highs = await loadHighs();
    const random = randomFrom(22);
    for (let turn = 0; turn < 40; turn += 1) {
      const bags = Array.from({ length: 2 + random(4) }, (): Bag => {
        const pieces = 5 + random(150);
        return { pieces, price: Math.round(9 * pieces ** 0.93 * (0.9 + random(21) / 100)) };
      });
      const count = 1 + random(40_000);
      const sum = (of: (bag: Bag) => number): string => bags.map((bag, i) => `${of(bag)} x${i}`).join(" + ");
      const { Status, ObjectiveValue } = highs.solve(
        `Minimize\n cost: ${sum((bag) => bag.price)}\nSubject To\n c: ${sum((bag) => bag.pieces)} >= ${count}\nGenerals\n ${bags
          .map((_, i) => `x${i}`)
          .join(" ")}\nEnd\n`,
        { output_flag: false, mip_rel_gap: 0, mip_abs_gap: 1e-6 },
      );
      expect([turn, Status, cheapestCover(count, bags).price]).toEqual([
        turn,
        "Optimal",
        Math.round(ObjectiveValue),
      ]);
    }
  }, 60_000);

  it("takes prices that are not whole, as a bound does", () => {
    fc.assert(
      fc.property(
        fc.integer({ min: 30, max: 2000 }),
        bagKinds(30),
        fc.double({ min: 0.01, max: 1, noNaN: true }),
        (count, bags, factor) => {
          const reduced = bags.map((bag) => ({ ...bag, price: bag.price * factor }));
          const [price = 0] = byTable(count, bags);
          expect(cheapestCover(count, reduced).price).toBeCloseTo(price * factor, 6);
        },
      ),
    );
  });

  it("takes bags that cost nothing", () => {
    expect(
      triple(10_000, [
        { pieces: 7, price: 0 },
        { pieces: 6, price: 0 },
        { pieces: 50, price: 1 },
      ]),
      // 7 x 1426 + 6 x 3 = 10,000 exactly, and 6 bags of 7 would be 7 of 6.
    ).toEqual([0, 10_000, 1429]);
  });

  it("keeps prices exact that no product of whole numbers holds", () => {
    // 4e11 x 10,000 is beyond 2^53. A bag of 7 is a trifle dearer a piece than one of 10,000, so the sum is to be 100,001:
    // 7 x 7143 = 50,001 is the least multiple of 7 that ends in 0001.
    const bags = [
      { pieces: 10_000, price: 4e11 },
      { pieces: 7, price: 28e7 + 1 },
    ];
    expect(cheapestCover(100_001, bags)).toEqual({
      bags: [5, 7143],
      price: 4_000_040_007_143,
      pieces: 100_001,
    });
  });
});

describe("coverSteps", () => {
  it("counts what is missing, or residues twice round, times the kinds", () => {
    const bags = [
      { pieces: 3, price: 2 },
      { pieces: 7, price: 4 },
    ];
    expect(coverSteps(1e9, bags)).toBe(2 * 7 * 2);
    expect(coverSteps(5, bags)).toBe(5 * 2);
    // All in bags of ten: 90 are nine units, and the bag of the better value, 50, is five.
    expect(
      coverSteps(90, [
        { pieces: 50, price: 4 },
        { pieces: 20, price: 2 },
      ]),
    ).toBe(9 * 2);
    expect([coverSteps(0, bags), coverSteps(-5, bags), coverSteps(10, [])]).toEqual([0, 0, 0]);
  });

  it("does not grow with the count", () => {
    fc.assert(
      fc.property(bagKinds(30), fc.integer({ min: 1, max: 1000 }), (bags, more) => {
        expect(coverSteps(1e6 + more, bags)).toBe(coverSteps(1e6, bags));
      }),
    );
  });
});
