import { describe, expect, it } from "vitest";
import { chooseSuppliers } from "../../../src/core/buying/choose-suppliers";
import { cheapestFrom } from "../../../src/core/buying/incumbent";
import { goodsBySupplier } from "../../../src/core/buying/purchase";
import { thresholdReasons } from "../../../src/core/buying/threshold-reasons";
import { PURCHASE_STEPS } from "../../../src/core/stock/buy-plan";
import { randomPurchase } from "./purchase-model";

describe("thresholdReasons", () => {
  it("has a reason for every item that could be had for less, and for no other, in proved plans", () => {
    let found = 0;
    for (let seed = 0; seed < 200; seed += 1) {
      const { wanted, terms } = randomPurchase(seed, {
        items: 5,
        suppliers: 3,
        bags: [10, 25, 50],
        mostNeeded: 120,
        offersPerItem: 4,
        threshold: 60,
      });
      const plan = chooseSuppliers(wanted, terms, PURCHASE_STEPS);
      expect(plan.bound).toBe(plan.price);
      const separate = cheapestFrom(wanted, terms.length, (supplier) => (plan.goods[supplier] ?? 0) > 0);
      const paid = (item: number, bags: readonly number[] = []): number =>
        goodsBySupplier(wanted[item]?.offers ?? [], bags, terms.length).reduce(
          (sum, value) => sum + value,
          0,
        );
      const dearer = wanted.flatMap((_, item) =>
        paid(item, plan.bags[item]) > paid(item, separate.bags[item]) ? [item] : [],
      );
      const reasons = thresholdReasons(wanted, terms, plan);
      expect([seed, [...new Set(reasons.map(({ item }) => item))]]).toEqual([seed, dearer]);
      for (const { supplier, threshold, kind } of reasons) {
        expect(plan.goods[supplier]).toBeGreaterThanOrEqual(threshold);
        expect(threshold).toBe(terms[supplier]?.[kind === "minimum order" ? "minimum" : "freeFrom"]);
      }
      found += reasons.length;
    }
    expect(found).toBeGreaterThan(50);
  });
});
