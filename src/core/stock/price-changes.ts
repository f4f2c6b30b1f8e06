import { roundedAmount } from "../numeric/cents";
import type { Item } from "./item";
import { listingKey, readPriceList, type Listing, type PriceRow } from "./price-list";

/** What became of a row of a price list. */
export type PriceChangeKind = "dearer" | "cheaper" | "new" | "gone";

/** A row that changed. Prices are for a bag, in the sheet's currency; 0 where there is none. */
export interface PriceChange extends Item {
  readonly supplier: string;
  readonly bag: number;
  readonly kind: PriceChangeKind;
  readonly oldPrice: number;
  readonly newPrice: number;
  /** New over old price less 1, as a share; 0 for new and gone rows. */
  readonly change: number;
}

/**
 * PRICE_CHANGES: what differs between two price lists, matched by supplier, size, colour and bag. Sold-out rows count as
 * not on the list.
 *
 * @param oldList the list before
 * @param newList the list now
 * @returns dearer rows, the steepest first, then cheaper ones, then new ones, then gone ones, each in the order of its list
 * @throws `#VALUE!` naming the row, see `readPriceList`
 */
export function priceChanges(
  oldList: readonly PriceRow[],
  newList: readonly PriceRow[],
): readonly PriceChange[] {
  const before = available(oldList, "old_list");
  const now = available(newList, "new_list");
  const changed = [...now].flatMap(([key, listing]) => {
    const old = before.get(key);
    return old && old.price !== listing.price ? [change(listing, old, listing)] : [];
  });
  const ofKind = (kind: PriceChangeKind): readonly PriceChange[] =>
    changed.filter((row) => row.kind === kind);
  return [
    ...ofKind("dearer").toSorted((a, b) => b.change - a.change),
    ...ofKind("cheaper").toSorted((a, b) => a.change - b.change),
    ...[...now].flatMap(([key, listing]) => (before.has(key) ? [] : [change(listing, undefined, listing)])),
    ...[...before].flatMap(([key, listing]) => (now.has(key) ? [] : [change(listing, listing, undefined)])),
  ];
}

function available(rows: readonly PriceRow[], argument: string): ReadonlyMap<string, Listing> {
  const listings = readPriceList(rows, argument).filter((listing) => listing.isAvailable);
  return new Map(listings.map((listing) => [listingKey(listing), listing]));
}

function change(item: Listing, before: Listing | undefined, now: Listing | undefined): PriceChange {
  const ratio = before && now ? now.price / before.price - 1 : 0;
  const kind = !before ? "new" : !now ? "gone" : ratio > 0 ? "dearer" : "cheaper";
  return {
    supplier: item.supplier,
    printed: item.printed,
    colour: item.colour,
    bag: item.bag,
    kind,
    oldPrice: roundedAmount(before?.price ?? 0),
    newPrice: roundedAmount(now?.price ?? 0),
    change: ratio,
  };
}
