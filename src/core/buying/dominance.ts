import { present } from "../numeric/entry-at";
import type { Incumbent } from "./incumbent";
import type { Interval } from "./purchase";

/** Goods at each active supplier and what was paid in all. */
export interface Priced {
  readonly goods: readonly number[];
  readonly paid: number;
}

/** Entries at either end that each is compared with: the cheapest and the latest are the ones that dominate most. */
const COMPARED = 24;

/**
 * Leaves out entries that another can be made into by a top-up for no more money, as far as comparisons with a few show.
 * Source: dominance in dynamic programming, Kellerer, Pferschy and Pisinger, Knapsack Problems (2004), section 3.4.
 *
 * @param entries states or options
 * @param active thresholds, in the order of the goods
 * @param incumbent knows the top-ups
 * @param step called for each entry; false stops
 * @returns entries that remain, cheapest first, or all as they came where the steps ran out
 */
export function withoutDominated<Entry extends Priced>(
  entries: readonly Entry[],
  active: readonly Interval[],
  incumbent: Incumbent,
  step: () => boolean,
): readonly Entry[] {
  if (entries.length < 2) return entries;
  const dominates = (one: Entry, other: Entry): boolean => {
    let least = one.paid;
    for (let i = 0; i < active.length; i += 1)
      least += Math.max(0, present(other.goods[i]) - present(one.goods[i]));
    if (least > other.paid) return false;
    const price = active.reduce(
      (total, { supplier }, i) =>
        total + incumbent.topUp(supplier, present(other.goods[i]) - present(one.goods[i])).sum,
      one.paid,
    );
    return price <= other.paid;
  };
  const kept: Entry[] = [];
  for (const entry of entries.toSorted((a, b) => a.paid - b.paid)) {
    if (!step()) return entries;
    const isDominated =
      kept.slice(0, COMPARED).some((other) => dominates(other, entry)) ||
      kept.slice(-COMPARED).some((other) => dominates(other, entry));
    if (!isDominated) kept.push(entry);
  }
  return kept;
}
