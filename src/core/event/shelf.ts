import type { StockRow } from "../stock/item-rows";
import { itemKey, mayBe } from "../stock/item";
import type { ItemNeed } from "./item-needs";
import type { Job } from "./job";
import type { Problem } from "../problem";
import { itemOf, itemProblems } from "./price-lines";

/** What lies on the shelf of the items that a job needs. */
export interface Shelf {
  readonly rows: readonly StockRow[];
  /** Balloons and worth of one by item key; the worth is undefined where it is today's price. */
  readonly held: ReadonlyMap<string, { readonly count: number; readonly worth: Worth }>;
  readonly problems: readonly Problem[];
}

/** Worth of the balloons of an item on the shelf: of those with a value typed, and how many have none. */
export interface Worth {
  /** Money of all balloons whose value was typed. */
  readonly typed: number;
  /** Balloons that are worth today's cheapest price each. */
  readonly unpriced: number;
}

/**
 * Reads the stock. A row that cannot be read stops the items that it is or may be.
 *
 * @param job the tables
 * @param needs what the job needs
 * @returns rows to take from, and problems
 */
export function shelfOf(job: Job, needs: readonly ItemNeed[]): Shelf {
  const problems: Problem[] = [];
  const held = new Map<string, { count: number; worth: Worth }>();
  const rows = job.stock.flatMap((line, index): readonly StockRow[] => {
    const { cells, doubts, place } = line;
    const item = itemOf(cells);
    const { count } = cells;
    const missing = item === undefined ? "printed and colour" : "count";
    if (doubts.length > 0 || item === undefined || count === undefined) {
      const met = needs.filter(({ item: needed }) => mayBe(cells, needed));
      const sentences = doubts.length > 0 ? doubts : [`${place}: ${missing} must be given, found nothing`];
      for (const what of sentences) problems.push(...itemProblems("stock", line, what, met));
      return [];
    }
    const key = itemKey(item);
    const before = held.get(key) ?? { count: 0, worth: { typed: 0, unpriced: 0 } };
    const value = cells["value each"];
    const worth =
      value === undefined
        ? { ...before.worth, unpriced: before.worth.unpriced + count }
        : { ...before.worth, typed: before.worth.typed + value * count };
    held.set(key, { count: before.count + count, worth });
    return [{ ...item, row: index + 1, pieces: count }];
  });
  return { rows, held, problems };
}
