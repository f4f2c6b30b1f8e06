import { describe, expect, it } from "vitest";
import { balance, isFarFrom, swapCovers } from "../../../src/core/buying/better-plans";
import { chooseSuppliers } from "../../../src/core/buying/choose-suppliers";
import { Incumbent } from "../../../src/core/buying/incumbent";
import { PurchaseProblem } from "../../../src/core/buying/purchase-problem";
import { StepBudget } from "../../../src/core/buying/step-budget";
import { ThresholdBound } from "../../../src/core/buying/threshold-bound";
import { PURCHASE_STEPS } from "../../../src/core/stock/buy-plan";
import { priceOfPlan, randomPurchase } from "./purchase-model";

function start(seed: number) {
  const { wanted } = randomPurchase(seed, {
    items: 12,
    suppliers: 2,
    bags: [10, 25, 50, 100],
    mostNeeded: 300,
    offersPerItem: 6,
    threshold: 0,
  });
  const each = wanted.reduce((sum, { need }) => sum + need * 6, 0);
  const terms = [0, 1].map(() => ({ charge: 0, minimum: Math.round(each * 0.9), freeFrom: Infinity }));
  const problem = new PurchaseProblem(wanted, terms, new StepBudget(PURCHASE_STEPS));
  const incumbent = new Incumbent(problem);
  const bounds = new ThresholdBound(problem, incumbent, [true, true], [0, 0]);
  const active = terms.map(({ minimum }, supplier) => ({ supplier, threshold: minimum, charge: 0 }));
  const dual = bounds.maximise(active, 0);
  return { wanted, terms, problem, incumbent, bounds, active, dual };
}

describe("better plans", () => {
  it("are never dearer, keep the rules and do not fall below the best", () => {
    let [balanced, swapped] = [0, 0];
    for (let seed = 0; seed < 30; seed += 1) {
      const { wanted, terms, problem, incumbent, bounds, active, dual } = start(seed);
      const first = incumbent.price;
      balance(problem, incumbent, bounds, active, dual, dual.value);
      const second = incumbent.price;
      swapCovers(problem, incumbent, bounds);
      const third = incumbent.price;
      expect([first >= second, second >= third]).toEqual([true, true]);
      const plan = incumbent.tidied();
      expect(priceOfPlan({ wanted, terms }, plan.bags)).toBe(plan.price);
      expect(plan.price).toBeGreaterThanOrEqual(chooseSuppliers(wanted, terms, PURCHASE_STEPS).price);
      if (second < first) balanced += 1;
      if (third < second) swapped += 1;
    }
    expect(balanced).toBeGreaterThan(5);
    expect(swapped).toBeGreaterThan(5);
  });

  it("are looked for where the best plan lies far above the bound and steps are left", () => {
    const { problem, incumbent } = start(0);
    const { price } = incumbent;
    expect([isFarFrom(problem, incumbent, price), isFarFrom(problem, incumbent, price / 2)]).toEqual([
      false,
      true,
    ]);
    problem.budget.take(PURCHASE_STEPS);
    expect(isFarFrom(problem, incumbent, price / 2)).toBe(false);
  });
});
