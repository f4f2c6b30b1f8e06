import { entryAt, present } from "../numeric/entry-at";
import { cheapestFrom } from "./incumbent";
import { goodsBySupplier, type PurchasePlan, type SupplierTerms, type Wanted } from "./purchase";

/** Why an item costs more than its cheapest bags at the suppliers that are bought from. */
export interface ThresholdReason {
  /** Number of the item. */
  readonly item: number;
  readonly supplier: number;
  readonly kind: "minimum order" | "free delivery";
  /** Value of goods that is reached only so, subcents. */
  readonly threshold: number;
  /** True where a bag could be left out, false where other bags would be cheaper. */
  readonly isMoreThanNeeded: boolean;
}

/**
 * Why a plan buys more, or dearer, than its items need by themselves: for thresholds of suppliers that it reaches only so.
 *
 * @param wanted items
 * @param terms per supplier, subcents
 * @param plan covers all items
 * @returns reasons in the order of the items; a proved plan has one for every item that could be had for less
 */
export function thresholdReasons(
  wanted: readonly Wanted[],
  terms: readonly SupplierTerms[],
  plan: PurchasePlan,
): readonly ThresholdReason[] {
  const separate = cheapestFrom(wanted, terms.length, (supplier) => present(plan.goods[supplier]) > 0);
  return wanted.flatMap((wish, item) => {
    const bags = entryAt(plan.bags, item);
    const taken = goodsBySupplier(wish.offers, bags, terms.length);
    const alone = goodsBySupplier(wish.offers, entryAt(separate.bags, item), terms.length);
    if (total(taken) <= total(alone)) return [];
    const isMoreThanNeeded = wish.offers.some(
      ({ pieces }, offer) => present(bags[offer]) > 0 && piecesIn(wish, bags) - pieces >= wish.need,
    );
    return terms.flatMap(({ charge, minimum, freeFrom }, supplier): readonly ThresholdReason[] => {
      const goods = present(plan.goods[supplier]);
      const without = goods - present(taken[supplier]) + present(alone[supplier]);
      const isReached = (threshold: number): boolean => without < threshold && threshold <= goods;
      const reason = { item, supplier, isMoreThanNeeded };
      if (isReached(minimum)) return [{ ...reason, kind: "minimum order", threshold: minimum }];
      return charge > 0 && isReached(freeFrom)
        ? [{ ...reason, kind: "free delivery", threshold: freeFrom }]
        : [];
    });
  });
}

function total(goods: readonly number[]): number {
  return goods.reduce((sum, value) => sum + value, 0);
}

function piecesIn({ offers }: Wanted, bags: readonly number[]): number {
  return offers.reduce((sum, { pieces }, offer) => sum + pieces * present(bags[offer]), 0);
}
