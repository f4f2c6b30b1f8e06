import { sum } from "../numeric/sums";
import { countOf } from "../numeric/tally";
import { lookAlikesAmong } from "../palette/names";
import { piecesByItem, type NeedRow, type StockRow } from "./item-rows";
import { grouped } from "./grouped";
import { itemKey, type Item } from "./item";

/** One item of the stock table after a job. */
export interface StockAfterLine extends Item {
  readonly before: number;
  readonly bought: number;
  readonly used: number;
  readonly after: number;
  /** Pieces that were needed and not there. */
  readonly short: number;
  readonly status: string;
}

/**
 * STOCK_AFTER: what lies in the store when the job is done. Rows of one item are added up; items that were only bought or
 * only needed get a row as well.
 *
 * @param stock pieces before the job
 * @param needs pieces the job takes
 * @param bought pieces that came in
 * @returns items in the order of stock, then of what was bought, then of needs; never below 0, what is missing is `short`
 */
export function stockAfter(
  stock: readonly StockRow[],
  needs: readonly NeedRow[],
  bought: readonly StockRow[] = [],
): readonly StockAfterLine[] {
  const held = piecesByItem(stock);
  const came = piecesByItem(bought);
  const taken = grouped(needs, itemKey);
  const alikeOf = lookAlikesAmong([...stock, ...bought].map((row) => row.colour));
  return [...grouped<Item, string>([...stock, ...bought, ...needs], itemKey)].map(([key, [item]]) => {
    const before = countOf(held, key);
    const arrived = countOf(came, key);
    const needed = sum((taken.get(key) ?? []).map((row) => row.count));
    const used = Math.min(needed, before + arrived);
    const short = needed - used;
    const alike = short > 0 ? alikeOf(item.colour).map((name) => `looks like "${name.trim()}"`) : [];
    return {
      printed: item.printed,
      colour: item.colour.trim(),
      before,
      bought: arrived,
      used,
      after: before + arrived - used,
      short,
      status: [short > 0 ? `short by ${short}` : "ok", ...alike].join("; "),
    };
  });
}
