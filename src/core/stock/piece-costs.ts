import { sharedAmount } from "../numeric/cents";
import { entryAt, present } from "../numeric/entry-at";
import { sum } from "../numeric/sums";
import { countOf, tally } from "../numeric/tally";
import type { Demand } from "../palette/needs";
import { grouped } from "./grouped";
import { itemKey, type Item } from "./item";

/** What a purchase comes to: the costs of its items and, with delivery, all of it. */
export interface Purchased {
  readonly lines: readonly (Item & { readonly cost: number })[];
  readonly total: number;
}

/** What a row of pieces costs in bags. */
export interface PieceCost {
  /** Row of the piece. */
  readonly row: number;
  /** Sheet's currency. */
  readonly cost: number;
}

/**
 * The bag cost of an event shared by its pieces: every item's cost by what each piece takes of it, delivery in proportion
 * to goods. Whole cents that add up to the plan's total, by largest remainders.
 *
 * @param demands what the pieces take, from `pieceDemands`
 * @param plan what the pooled needs cost, from `buyPlan`
 * @returns one cost per row of pieces that takes anything, in order
 */
export function pieceCosts(demands: readonly Demand[], plan: Purchased): readonly PieceCost[] {
  const costs = tally(plan.lines.map((line) => [itemKey(line), line.cost]));
  const each = new Map(
    [...grouped(demands, itemKey)].map(([key, rows]) => {
      const count = sum(rows.map((demand) => demand.count));
      return [key, count > 0 ? countOf(costs, key) / count : 0];
    }),
  );
  const rows = [...grouped(demands, (demand) => demand.row)].map(([row, taken]) => ({
    row,
    weight: sum(taken.map((demand) => demand.count * present(each.get(itemKey(demand))))),
  }));
  if (!rows.some(({ weight }) => weight > 0)) return rows.map(({ row }) => ({ row, cost: 0 }));
  const shares = sharedAmount(
    plan.total,
    rows.map(({ weight }) => weight),
    "pieces",
  );
  return rows.map(({ row }, place) => ({ row, cost: entryAt(shares, place) }));
}
