import { sum } from "../numeric/sums";
import { countOf } from "../numeric/tally";
import { grouped } from "./grouped";
import { type Item, itemKey, itemWords } from "./item";
import { type NeedRow, piecesByItem, type StockRow } from "./item-rows";
import type { Listing } from "./price-list";

/** What is wanted of one item, and where it can be had. */
export interface Wish {
  /** Of the item, see `itemKey`. */
  readonly key: string;
  readonly item: Item;
  /** Pieces needed, at hand, and taken of those. */
  readonly needed: number;
  readonly held: number;
  readonly fromStock: number;
  /** All offers on the price list, and those that can be bought where anything must be. */
  readonly listed: readonly Listing[];
  readonly offered: readonly Listing[];
}

/** What is needed and can be had nowhere. */
export interface Shortage extends Item {
  /** Pieces that are missing. */
  readonly pieces: number;
  /** `nobody sells 11 in Gold, 20 short`. */
  readonly sentence: string;
}

/**
 * What is wanted of each item, in the order in which it is first needed.
 *
 * @param needs balloons needed, rows of one item are added up
 * @param listings offers of the price list
 * @param stock balloons at hand, rows of one item are added up
 */
export function wishesOf(
  needs: readonly NeedRow[],
  listings: readonly Listing[],
  stock: readonly StockRow[],
): readonly Wish[] {
  const byItem = grouped(listings, (listing) => listing.key);
  const inStock = piecesByItem(stock);
  return [...grouped(needs, itemKey)].map(([key, rows]): Wish => {
    const needed = sum(rows.map((row) => row.count));
    const held = countOf(inStock, key);
    const fromStock = Math.min(needed, held);
    const listed = byItem.get(key) ?? [];
    const offered = needed > fromStock ? distinctOffers(listed) : [];
    return { key, item: rows[0], needed, held, fromStock, listed, offered };
  });
}

/** Offers that can be bought; of the same bag listed twice the first. */
function distinctOffers(listed: readonly Listing[]): readonly Listing[] {
  const available = listed.filter((listing) => listing.isAvailable);
  const same = grouped(available, (listing) => `${listing.supplierKey}\n${listing.bag}`);
  return [...same.values()].map(([first]) => first);
}

/** What a line says of where its item is had: empty where it is bought. */
export function availability(wish: Wish): string {
  const open = openNeed(wish);
  if (open === 0) return wish.fromStock > 0 ? "from stock" : "nothing needed";
  if (wish.offered.length > 0) return "";
  const sellers = sellersOf(wish);
  return sellers === "" ? `nobody sells it, ${open} short` : `sold out at ${sellers}, ${open} short`;
}

/** The shortage of an item, or none. */
export function shortageOf(wish: Wish): readonly Shortage[] {
  const pieces = openNeed(wish);
  if (pieces === 0 || wish.offered.length > 0) return [];
  const name = itemWords(wish.item);
  const sellers = sellersOf(wish);
  const sentence =
    sellers === ""
      ? `nobody sells ${name}, ${pieces} short`
      : `${name} is sold out at ${sellers}, ${pieces} short`;
  return [{ ...plainItem(wish.item), pieces, sentence }];
}

function openNeed({ needed, fromStock }: Wish): number {
  return needed - fromStock;
}

/** Suppliers who list an item, as a sentence names them. */
function sellersOf({ listed }: Wish): string {
  return [...new Set(listed.map((listing) => listing.supplier))].join(", ");
}

/** The item that a row of needs names, without the row. */
export function plainItem({ printed, colour, type, code }: Item): Item {
  return {
    printed,
    colour: colour.trim(),
    ...(type !== undefined && { type }),
    ...(code !== undefined && { code }),
  };
}
