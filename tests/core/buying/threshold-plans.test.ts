import { describe, expect, it } from "vitest";
import { Incumbent } from "../../../src/core/buying/incumbent";
import { PurchaseProblem } from "../../../src/core/buying/purchase-problem";
import { StepBudget } from "../../../src/core/buying/step-budget";
import { ThresholdBound } from "../../../src/core/buying/threshold-bound";
import { bestThresholdPlan } from "../../../src/core/buying/threshold-plans";
import { priceOfPlan, randomPurchase } from "./purchase-model";

/** The best price at which every item is covered and supplier 0 gets at least its minimum, by trying every cover. */
function bruteForce(wanted: PurchaseProblem["wanted"], terms: PurchaseProblem["terms"]): number {
  let best = Infinity;
  const bags = wanted.map(({ offers }) => offers.map(() => 0));
  const visit = (item: number, index: number): void => {
    const row = bags[item];
    if (row === undefined) {
      const isBoughtFrom = wanted.some(({ offers }, i) =>
        offers.some((offer, j) => offer.supplier === 0 && (bags[i]?.[j] ?? 0) > 0),
      );
      if (isBoughtFrom) best = Math.min(best, priceOfPlan({ wanted, terms }, bags));
      return;
    }
    if (index === row.length) {
      visit(item + 1, 0);
      return;
    }
    for (let count = 0; count <= 8; count += 1) {
      row[index] = count;
      visit(item, index + 1);
    }
    row[index] = 0;
  };
  visit(0, 0);
  return best;
}

function searchOf(seed: number, steps: number) {
  const { wanted } = randomPurchase(seed, {
    items: 2,
    suppliers: 2,
    bags: [10, 25],
    mostNeeded: 40,
    offersPerItem: 2,
    threshold: 0,
  });
  const terms = [
    { charge: 0, minimum: 400, freeFrom: Infinity },
    { charge: 0, minimum: 0, freeFrom: Infinity },
  ];
  const problem = new PurchaseProblem(wanted, terms, new StepBudget(steps));
  const incumbent = new Incumbent(problem);
  const bounds = new ThresholdBound(problem, incumbent, [true, true], [0, 0]);
  const active = [{ supplier: 0, threshold: 400, charge: 0 }];
  const dual = bounds.maximise(active, 0);
  return { wanted, terms, search: { problem, incumbent, bounds, intervals: active, active, dual } };
}

describe("bestThresholdPlan", () => {
  it("finds the best plan that reaches the threshold, by brute force", () => {
    let bound = 0;
    for (let seed = 0; seed < 40; seed += 1) {
      const { wanted, terms, search } = searchOf(seed, 1e8);
      if (!wanted.some(({ offers }) => offers.some(({ supplier }) => supplier === 0))) continue;
      expect(bestThresholdPlan(search, 1e5, Infinity)).toBe("none better");
      // Plans that buy nothing from supplier 0 are of another set; the relaxed cover may be one.
      const plan = search.incumbent.tidied();
      const best = bruteForce(wanted, terms);
      if ((plan.goods[0] ?? 0) > 0) expect([seed, plan.price]).toEqual([seed, best]);
      else expect(plan.price).toBeLessThanOrEqual(best);
      expect(plan.price).toBe(priceOfPlan({ wanted, terms }, plan.bags));
      if ((plan.goods[0] ?? 0) > 0) bound += 1;
    }
    expect(bound).toBeGreaterThan(20);
  });

  it("is cut where steps run out or the beam is narrow", () => {
    const { search } = searchOf(1, 2000);
    expect(bestThresholdPlan(search, 1e5, Infinity)).toBe("cut");
    expect(bestThresholdPlan(searchOf(1, 1e8).search, 1e5, 0)).toBe("cut");
  });
});
