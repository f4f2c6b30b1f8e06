import { entryAt, present } from "../numeric/entry-at";
import type { ItemCovers, Pricing } from "./item-covers";
import type { BagChain, Offer } from "./purchase";

/** A way to cover an item. */
export interface CoverOption {
  /** Value of its goods at each active supplier, subcents. */
  readonly goods: readonly number[];
  /** Paid to all suppliers, subcents. */
  readonly paid: number;
  /** What it costs under the reduced prices above the best cover. */
  readonly excess: number;
  readonly chain: BagChain | undefined;
}

/** What options are listed for. */
export interface OptionQuery {
  /** Prices under which covers are compared. */
  readonly reduced: Pricing;
  /** @returns place of a supplier in `goods`, or -1 where it is not active */
  readonly placeOf: (supplier: number) => number;
  /** Length of `goods`. */
  readonly places: number;
  /** Largest excess. */
  readonly slack: number;
  /** Called for each step; false stops. */
  readonly step: () => boolean;
}

/** Some bags of an item, and what is missing still. */
interface PartCover extends CoverOption {
  readonly missing: number;
  readonly reduced: number;
}

/**
 * Every cover of an item without a needless bag whose reduced price is within the slack of the best, one for each vector of
 * goods: dynamic programming over offers of active suppliers, pruned by the best completion; what is bought elsewhere
 * matters by its price alone.
 *
 * @param item whose tables are small (`isLarge` is false)
 * @param query what is asked
 * @returns the options, or undefined where the steps ran out
 */
export function coverOptions(item: ItemCovers, query: OptionQuery): readonly CoverOption[] | undefined {
  const { reduced, placeOf, slack, step } = query;
  const { units } = item;
  const prices = item.leastPrices(reduced);
  const best = present(prices[units]);
  const parts = partCovers(item, query, Float64Array.from(prices), best);
  if (parts === undefined) return undefined;
  const last = new Int32Array(units + 1);
  const elsewhere = item.leastPrices(
    (offer) => (placeOf(offer.supplier) < 0 ? reduced(offer) : Infinity),
    last,
  );
  const options = new Map<string, PartCover>();
  for (const part of parts) {
    if (!step()) return undefined;
    const full = part.reduced + present(elsewhere[part.missing]);
    const excess = full - best;
    const key = part.goods.join(" ");
    if (!(excess <= slack) || full >= (options.get(key)?.reduced ?? Infinity)) continue;
    options.set(key, { ...part, ...completed(item, part, last), missing: 0, reduced: full, excess });
  }
  return [...options.values()];
}

/** Bags from active suppliers that a cover within the slack can begin with, cheapest of each vector and rest. */
function partCovers(
  item: ItemCovers,
  { reduced, placeOf, places, slack, step }: OptionQuery,
  least: Float64Array,
  best: number,
): Iterable<PartCover> | undefined {
  const { units, sizes } = item;
  const { offers } = item.wanted;
  const start: PartCover = {
    missing: units,
    reduced: 0,
    paid: 0,
    excess: 0,
    goods: new Array<number>(places).fill(0),
    chain: undefined,
  };
  let parts = new Map<string, PartCover>([["", start]]);
  for (const index of largestFirst(sizes)) {
    const offer = entryAt(offers, index);
    const place = placeOf(offer.supplier);
    const price = place >= 0 ? reduced(offer) : Infinity;
    const size = present(sizes[index]);
    // Most offers are in no cover within the slack, which one bag of it beside the best rest shows.
    const alone = price + present(least[Math.max(0, units - size)]);
    if (!(alone - best <= slack)) continue;
    const next = new Map<string, PartCover>();
    for (const part of parts.values()) {
      const most = Math.ceil(part.missing / size);
      for (let bags = 0; bags <= most; bags += 1) {
        if (!step()) return undefined;
        const missing = Math.max(0, part.missing - bags * size);
        const soFar = part.reduced + bags * price;
        const excess = soFar + present(least[missing]) - best;
        if (excess > slack) break;
        const goods = bags === 0 ? part.goods : withBags(part.goods, place, offer, bags);
        const key = `${missing} ${goods.join(" ")}`;
        if (soFar >= (next.get(key)?.reduced ?? Infinity)) continue;
        const paid = part.paid + bags * offer.price;
        const chain = bags === 0 ? part.chain : { offer: index, bags, before: part.chain };
        next.set(key, { missing, reduced: soFar, paid, excess, goods, chain });
      }
    }
    parts = next;
  }
  return parts.values();
}

function largestFirst(sizes: readonly number[]): readonly number[] {
  return sizes.map((_, index) => index).sort((a, b) => present(sizes[b]) - present(sizes[a]));
}

function withBags(goods: readonly number[], place: number, offer: Offer, bags: number): readonly number[] {
  return goods.map((value, i) => (i === place ? value + bags * offer.price : value));
}

/** Bags and money with the cheapest bags from elsewhere for what is missing. */
function completed(
  { sizes, wanted }: ItemCovers,
  part: PartCover,
  last: Int32Array,
): Pick<CoverOption, "chain" | "paid"> {
  let { chain, paid } = part;
  for (let missing = part.missing; missing > 0;) {
    const offer = present(last[missing]);
    const bags = chain?.offer === offer ? chain.bags + 1 : 1;
    chain = { offer, bags, before: chain?.offer === offer ? chain.before : chain };
    paid += present(wanted.offers[offer]).price;
    missing -= present(sizes[offer]);
  }
  return { chain, paid };
}
