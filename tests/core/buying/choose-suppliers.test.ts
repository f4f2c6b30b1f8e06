import { beforeAll, describe, expect, it } from "vitest";
import { chooseSuppliers } from "../../../src/core/buying/choose-suppliers";
import { PURCHASE_STEPS } from "../../../src/core/stock/buy-plan";
import { loadSolver, priceOfPlan, randomPurchase, type Purchase, type Shape } from "./purchase-model";

const shape = (items: number, suppliers: number, more: Partial<Shape> = {}): Shape => ({
  items,
  suppliers,
  bags: [10, 25, 50, 100],
  mostNeeded: 150,
  offersPerItem: 4,
  threshold: 80,
  ...more,
});

/** The best price by trying every number of bags of every offer. */
function bruteForce({ wanted, terms }: Purchase, mostBags: number): number {
  const offers = wanted.flatMap((item, i) => item.offers.map((offer, j) => ({ offer, i, j })));
  const bags = wanted.map((item) => item.offers.map(() => 0));
  let best = Infinity;
  const visit = (place: number): void => {
    const at = offers[place];
    if (at === undefined) {
      best = Math.min(best, priceOfPlan({ wanted, terms }, bags));
      return;
    }
    for (let count = 0; count <= mostBags; count += 1) {
      const row = bags[at.i];
      if (row) row[at.j] = count;
      visit(place + 1);
    }
    const row = bags[at.i];
    if (row) row[at.j] = 0;
  };
  visit(0);
  return best;
}

/** Mutation tests run these once for every change, so they take fewer cases. */
const share = Number(process.env["SHARE_OF_CASES"] ?? 1);

let solve: (purchase: Purchase) => number;
beforeAll(async () => {
  solve = await loadSolver();
});

describe("chooseSuppliers", () => {
  it("equals trying everything on the smallest cases", () => {
    const small = shape(2, 2, { bags: [5, 10], mostNeeded: 12, offersPerItem: 2, threshold: 200 });
    for (let seed = 0; seed < 150; seed += 1) {
      const purchase = randomPurchase(seed, small);
      const choice = chooseSuppliers(purchase.wanted, purchase.terms, PURCHASE_STEPS);
      expect([seed, choice.price, choice.bound]).toEqual([
        seed,
        priceOfPlan(purchase, choice.bags),
        choice.price,
      ]);
      // Ten bags of an offer are enough to reach every threshold of these cases.
      expect([seed, choice.price]).toEqual([seed, Math.min(choice.price, bruteForce(purchase, 10))]);
    }
  });

  // A general-purpose MILP solver (HiGHS) is given the same purchase, its optimality gap set to nothing.
  it.each([
    ["1 item, thresholds above it", 150, shape(1, 2, { bags: [5, 10, 25], mostNeeded: 40, threshold: 150 })],
    ["3 items, 3 suppliers", 120, shape(3, 3)],
    ["4 items, odd bags", 70, shape(4, 3, { bags: [7, 20, 48, 97], offersPerItem: 5 })],
    ["6 items, 5 suppliers", 40, shape(6, 5, { bags: [25, 50, 100], threshold: 60 })],
    ["10 items, 6 suppliers", 20, shape(10, 6, { bags: [20, 50, 97, 100], offersPerItem: 7, threshold: 40 })],
  ])(
    "equals the solver: %s, %i cases",
    (_, cases, of) => {
      for (let seed = 1000; seed < 1000 + Math.ceil(cases * share); seed += 1) {
        const purchase = randomPurchase(seed, of);
        const choice = chooseSuppliers(purchase.wanted, purchase.terms, PURCHASE_STEPS);
        expect([seed, choice.price, choice.bound, priceOfPlan(purchase, choice.bags)]).toEqual([
          seed,
          ...Array<number>(3).fill(solve(purchase)),
        ]);
      }
    },
    120_000,
  );

  // Cases where thresholds bind so that plans share no states: seed, the optimum of HiGHS 1.15.3, its gap set to nothing,
  // and millions of steps that may be spent, a twentieth more than when this was written: that a change makes the search
  // slower is seen here, since it finds the same plans.
  const binding: readonly (readonly [
    items: number,
    suppliers: number,
    offersPerItem: number,
    threshold: number,
    mostNeeded: number,
    cases: readonly (readonly [seed: number, optimum: number, work: number])[],
  ])[] = [
    [
      8,
      3,
      6,
      60,
      300,
      [
        [179, 9779, 6.04],
        [1063, 15_189, 0.31],
        [1136, 12_181, 0.0964],
      ],
    ],
    [
      12,
      4,
      6,
      60,
      300,
      [
        [76, 21_365, 1.94],
        [80, 23_572, 45.8],
        [97, 15_867, 3.06],
        [110, 25_595, 13.3],
        [154, 27_165, 3],
        [158, 17_471, 26],
        [198, 23_610, 4.71],
        [1354, 25_517, 0.0507],
        [1396, 22_066, 0.0652],
      ],
    ],
    [
      15,
      5,
      8,
      50,
      150,
      [
        [1076, 16_444, 0.137],
        [1106, 13_140, 0.0939],
        [1340, 15_697, 0.366],
      ],
    ],
    [
      20,
      4,
      6,
      60,
      300,
      [
        [1207, 33_306, 3.5],
        [1325, 49_678, 0.0804],
      ],
    ],
    [
      30,
      4,
      8,
      40,
      300,
      [
        [10, 42_567, 2.81],
        [14, 48_862, 5.27],
        [16, 55_198, 4.2],
        [27, 35_480, 6.64],
        [39, 49_567, 3.09],
        [49, 50_401, 7.26],
        [52, 48_491, 2.8],
        [55, 47_411, 174],
        [57, 61_138, 7.12],
        [1135, 46_337, 1.24],
        [1166, 61_230, 1.47],
        [1356, 49_754, 8.32],
      ],
    ],
    [
      30,
      6,
      8,
      30,
      300,
      [
        [1038, 42_099, 1.21],
        [1118, 47_784, 4.35],
        [1154, 55_343, 0.522],
        [1229, 52_439, 2.74],
        [1299, 56_039, 1.89],
      ],
    ],
    [30, 4, 8, 80, 300, [[13, 65_698, 47.4]]],
    [60, 5, 8, 20, 300, [[1153, 86_605, 0.704]]],
  ];
  describe.each(binding)(
    "where several thresholds bind: %i items, %i suppliers",
    (items, suppliers, offersPerItem, threshold, mostNeeded, cases) => {
      const purchaseOf = (seed: number): Purchase =>
        randomPurchase(seed, shape(items, suppliers, { mostNeeded, offersPerItem, threshold }));

      it.each(cases)("equals the solver's optimum: seed %i", (seed, optimum, work) => {
        const purchase = purchaseOf(seed);
        const choice = chooseSuppliers(purchase.wanted, purchase.terms, PURCHASE_STEPS);
        expect([choice.price, choice.bound, priceOfPlan(purchase, choice.bags)]).toEqual(
          Array<number>(3).fill(optimum),
        );
        expect(choice.steps / 1e6).toBeLessThan(work);
      });

      it("keeps the rules and states a bound that holds where the steps run out", () => {
        for (const [seed, optimum] of cases) {
          const purchase = purchaseOf(seed);
          for (const mostSteps of [0, 2e4, 1e5, 3e5, 1e6, 2e6]) {
            const choice = chooseSuppliers(purchase.wanted, purchase.terms, mostSteps);
            const where = `seed ${seed}, ${mostSteps} steps`;
            expect(priceOfPlan(purchase, choice.bags), where).toBe(choice.price);
            expect(choice.price, where).toBeGreaterThanOrEqual(optimum);
            expect(choice.bound, where).toBeLessThanOrEqual(optimum);
            // What is begun may be ended: a look at all items, a few swaps.
            expect(choice.steps, where).toBeLessThan(mostSteps + 3e5);
          }
        }
      });
    },
  );

  it("proves the best plan for 300 items and 12 suppliers, no dearer than the solver's", () => {
    const large = shape(300, 12, { mostNeeded: 300, offersPerItem: 12 });
    // Seed, thresholds, the price that HiGHS 1.15.3 ends with in 2 to 35 s at its usual gap of a ten-thousandth, and millions
    // of steps that may be spent, as above.
    for (const [seed, threshold, theirs, work] of [
      [0, 5, 433_096, 0.055],
      [5, 20, 468_148, 20.4],
      [2, 60, 792_562, 0.6],
      [4, 60, 578_395, 1.23],
      [7, 60, 979_856, 0.255],
      [11, 60, 596_061, 2.96],
    ] as const) {
      const purchase = randomPurchase(seed, { ...large, threshold });
      const choice = chooseSuppliers(purchase.wanted, purchase.terms, PURCHASE_STEPS);
      expect(priceOfPlan(purchase, choice.bags)).toBe(choice.price);
      expect([seed, choice.bound]).toEqual([seed, choice.price]);
      expect(choice.price).toBeLessThanOrEqual(theirs);
      // Theirs is within their gap of the best, so ours cannot lie far below it.
      expect(choice.price).toBeGreaterThanOrEqual(theirs * (1 - 1e-4));
      expect(choice.steps / 1e6, `seed ${seed}`).toBeLessThan(work);
    }
  });

  it("states a bound that holds and a plan that keeps the rules where suppliers are too many to combine", () => {
    for (let seed = 0; seed < 6; seed += 1) {
      const purchase = randomPurchase(seed, shape(20, 16, { offersPerItem: 12, threshold: 5 }));
      const choice = chooseSuppliers(purchase.wanted, purchase.terms, PURCHASE_STEPS);
      expect(priceOfPlan(purchase, choice.bags)).toBe(choice.price);
      expect(choice.bound).toBeLessThanOrEqual(choice.price);
      const best = solve(purchase);
      expect(choice.bound).toBeLessThanOrEqual(best);
      expect(choice.price).toBeGreaterThanOrEqual(best);
    }
  }, 120_000);

  it("plans a large need with odd bags", () => {
    const wanted = [
      {
        need: 1_000_003,
        offers: [
          { supplier: 0, pieces: 97, price: 900 },
          { supplier: 1, pieces: 100, price: 940 },
        ],
      },
    ];
    const terms = [0, 1].map(() => ({ charge: 500, minimum: 0, freeFrom: 1000 }));
    const choice = chooseSuppliers(wanted, terms, PURCHASE_STEPS);
    expect([choice.price, choice.bound]).toEqual(Array(2).fill(solve({ wanted, terms })));
  });

  it("refuses needs that no table can hold", () => {
    const offers = Array.from({ length: 150 }, (_, i) => ({ supplier: 0, pieces: 101 + i, price: 101 + i }));
    const wanted = Array.from({ length: 200 }, () => ({ need: 20_000, offers }));
    expect(() => chooseSuppliers(wanted, [{ charge: 1, minimum: 0, freeFrom: 2 }], PURCHASE_STEPS)).toThrow(
      "too large",
    );
  });

  it("buys nothing for nothing", () => {
    expect(chooseSuppliers([], [], PURCHASE_STEPS)).toMatchObject({ price: 0, bound: 0 });
    expect(chooseSuppliers([], [{ charge: 5, minimum: 10, freeFrom: 20 }], PURCHASE_STEPS)).toMatchObject({
      price: 0,
      goods: [0],
      charges: [0],
    });
  });
});
