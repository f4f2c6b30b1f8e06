import { describe, expect, it } from "vitest";
import { Incumbent } from "../../../src/core/buying/incumbent";
import { chooseSuppliers } from "../../../src/core/buying/choose-suppliers";
import { PurchaseProblem } from "../../../src/core/buying/purchase-problem";
import { StepBudget } from "../../../src/core/buying/step-budget";
import { addAndDrop, supplierSets } from "../../../src/core/buying/supplier-sets";
import { PURCHASE_STEPS } from "../../../src/core/stock/buy-plan";
import { randomPurchase } from "./purchase-model";

const problemOf = (wanted: PurchaseProblem["wanted"], terms: PurchaseProblem["terms"]) =>
  new PurchaseProblem(wanted, terms, new StepBudget(PURCHASE_STEPS));
const shape = {
  items: 4,
  suppliers: 4,
  bags: [10, 25, 50],
  mostNeeded: 100,
  offersPerItem: 4,
  threshold: 50,
};

describe("supplierSets", () => {
  it("has the sets that sell everything, with their bounds", () => {
    // Supplier 0 alone sells the second item; 1 and 2 may be left out.
    const wanted = [
      {
        need: 50,
        offers: [0, 1, 2].map((supplier) => ({ supplier, pieces: 50, price: 900 - 100 * supplier })),
      },
      { need: 10, offers: [{ supplier: 0, pieces: 10, price: 300 }] },
    ];
    const terms = [
      { charge: 500, minimum: 1000, freeFrom: 5000 },
      { charge: 40, minimum: 0, freeFrom: Infinity },
      { charge: 0, minimum: 2000, freeFrom: Infinity },
    ];
    const { sets, optional, bound } = supplierSets(problemOf(wanted, terms));
    expect([optional, bound]).toEqual([[1, 2], Infinity]);
    // Goods and least charges, or the least orders with their charges: 1200 + 0, 1100 + 40, 1000, 1000 + 40; at least
    // 1500, 1540, 3500, 3540.
    expect(sets.map(({ open, least }) => [open, least])).toEqual([
      [[true, false, false], 1500],
      [[true, true, false], 1540],
      [[true, false, true], 3500],
      [[true, true, true], 3540],
    ]);
  });

  it("bounds every set from below, whatever plan buys from all of its suppliers", () => {
    for (let seed = 0; seed < 60; seed += 1) {
      const { wanted, terms } = randomPurchase(seed, shape);
      const best = chooseSuppliers(wanted, terms, PURCHASE_STEPS);
      const problem = problemOf(wanted, terms);
      const { sets } = supplierSets(problem);
      const used = sets.filter(({ open }) =>
        open.every((isOpen, supplier) => {
          const isConstrained = problem.constrained.includes(supplier);
          const isUsed = (best.goods[supplier] ?? 0) > 0;
          return isConstrained ? isOpen === isUsed : isOpen;
        }),
      );
      expect(used).toHaveLength(1);
      expect(used[0]?.least).toBeLessThanOrEqual(best.price);
    }
  });

  it("closes suppliers that are too many to combine, and bounds what that gives up", () => {
    const { wanted, terms } = randomPurchase(3, { ...shape, items: 20, suppliers: 16, offersPerItem: 12 });
    const { sets, optional, bound } = supplierSets(problemOf(wanted, terms));
    expect(optional.length).toBeLessThanOrEqual(12);
    expect(sets.length).toBeGreaterThan(0);
    const best = chooseSuppliers(wanted, terms, PURCHASE_STEPS);
    expect(bound).toBeLessThanOrEqual(best.price);
  });
});

describe("addAndDrop", () => {
  it("finds a plan, never below the best", () => {
    for (let seed = 0; seed < 60; seed += 1) {
      const { wanted, terms } = randomPurchase(seed, shape);
      const problem = problemOf(wanted, terms);
      const incumbent = new Incumbent(problem);
      addAndDrop(problem, incumbent, supplierSets(problem));
      const best = chooseSuppliers(wanted, terms, PURCHASE_STEPS).price;
      expect(incumbent.price).toBeGreaterThanOrEqual(best);
      expect(incumbent.price).toBeLessThan(1.5 * best);
    }
  });
});
