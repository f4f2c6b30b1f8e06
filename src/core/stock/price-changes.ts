import { roundedAmount } from "../numeric/cents";
import { orNone } from "../numeric/tally";
import { nameKey } from "../palette/names";
import type { Doubtful } from "./doubtful";
import { grouped } from "./grouped";
import { sizeKey, type Item } from "./item";
import { listingKey, listingOf, priceConflicts, type Listing, type PriceRow } from "./price-list";

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

/** A row of a list that cannot be compared. */
export interface UncomparedRow extends Partial<Item> {
  readonly supplier?: string | undefined;
  readonly bag?: number | undefined;
  /** Why, with its place. */
  readonly what: string;
}

/** What differs between two price lists. */
export interface PriceComparison {
  /** Dearer rows, the steepest first, then cheaper ones, then new ones, then gone ones, each in the order of its list. */
  readonly changes: readonly PriceChange[];
  /** Rows that cannot be read, or stand at two prices. */
  readonly uncompared: readonly UncomparedRow[];
  /** Suppliers of the old list that the new one does not name, with how many rows they had. */
  readonly absent: readonly { readonly supplier: string; readonly rows: number }[];
}

/**
 * PRICE_CHANGES: what differs between two price lists, matched by supplier, size, colour, type and bag. Sold-out rows count as
 * not on the list. Only suppliers that the new list names are compared: a list from one supplier says nothing of another.
 *
 * @param oldList the list before
 * @param newList the list now
 * @returns what changed, and what could not be compared
 */
export function priceChanges(
  oldList: readonly Doubtful<PriceRow>[],
  newList: readonly Doubtful<PriceRow>[],
): PriceComparison {
  const old = readable(oldList, "old_list");
  const now = readable(newList, "new_list");
  const named = new Set(newList.flatMap(({ cells }) => nameKey(cells.supplier ?? "")));
  const bySupplier = grouped([...old.offers.values()], ({ supplierKey }) => supplierKey);
  const absent = [...bySupplier]
    .filter(([key]) => !named.has(key))
    .map(([, rows]) => ({ supplier: rows[0].supplier, rows: rows.length }));
  const changed = [...now.offers].flatMap(([key, listing]) => {
    const before = old.offers.get(key);
    return before && before.price !== listing.price ? [change(listing, before, listing)] : [];
  });
  const ofKind = (kind: PriceChangeKind): readonly PriceChange[] =>
    changed.filter((row) => row.kind === kind);
  const news = [...now.offers].filter(([key, listing]) => !old.offers.has(key) && !old.mayHold(listing));
  const gone = [...old.offers].filter(
    ([key, listing]) => named.has(listing.supplierKey) && !now.offers.has(key) && !now.mayHold(listing),
  );
  return {
    changes: [
      ...ofKind("dearer").toSorted((a, b) => b.change - a.change),
      ...ofKind("cheaper").toSorted((a, b) => a.change - b.change),
      ...news.map(([, listing]) => change(listing, undefined, listing)),
      ...gone.map(([, listing]) => change(listing, listing, undefined)),
    ],
    uncompared: [...old.uncompared, ...now.uncompared],
    absent,
  };
}

interface Readable {
  readonly offers: ReadonlyMap<string, Listing>;
  readonly uncompared: readonly UncomparedRow[];
  /** Whether a row that cannot be compared may be an offer. */
  readonly mayHold: (listing: Listing) => boolean;
}

function readable(rows: readonly Doubtful<PriceRow>[], argument: string): Readable {
  const uncompared: UncomparedRow[] = [];
  const listings: Listing[] = [];
  for (const { cells, doubts, value, place } of rows) {
    const listing = value === undefined ? doubts.join("; ") : listingOf(value, place);
    if (typeof listing !== "string") listings.push(listing);
    else {
      const { supplier, printed, colour, bag, type } = cells;
      uncompared.push({
        ...(supplier !== undefined && { supplier }),
        ...(printed !== undefined && { printed }),
        ...(colour !== undefined && { colour }),
        ...(bag !== undefined && { bag }),
        ...(type !== undefined && { type }),
        what: listing,
      });
    }
  }
  const torn = new Set<string>();
  for (const { listing, sentence } of priceConflicts(listings, argument)) {
    torn.add(listingKey(listing));
    const { supplier, printed, colour, type, bag } = listing;
    uncompared.push({ supplier, printed, colour, type, bag, what: sentence });
  }
  const offers = listings.filter((listing) => listing.isAvailable && !torn.has(listingKey(listing)));
  return {
    offers: new Map(offers.map((listing) => [listingKey(listing), listing])),
    uncompared,
    mayHold: (listing) => uncompared.some((row) => mayBeOffer(row, listing)),
  };
}

function mayBeOffer({ supplier, printed, colour, bag }: UncomparedRow, listing: Listing): boolean {
  return (
    (supplier === undefined || nameKey(supplier) === listing.supplierKey) &&
    (printed === undefined || sizeKey(printed) === sizeKey(listing.printed)) &&
    (colour === undefined || nameKey(colour) === nameKey(listing.colour)) &&
    (bag === undefined || bag === listing.bag)
  );
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
    oldPrice: roundedAmount(orNone(before?.price)),
    newPrice: roundedAmount(orNone(now?.price)),
    change: ratio,
  };
}
