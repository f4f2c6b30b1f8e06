import { CalcError, invalid } from "../calc-error";
import { roundedAmount, subcentsOf } from "../numeric/cents";
import { entryAt } from "../numeric/entry-at";
import { nameKey } from "../palette/names";
import { toSi } from "../units";
import { requireBagSize } from "./bag-plan";
import { grouped } from "./grouped";
import { itemKey, itemWords, typedSizeKey, type Item } from "./item";

/** A row of a price list. */
export interface PriceRow extends Item {
  readonly row: number;
  readonly supplier: string;
  /** Pieces in a bag, whole. */
  readonly bag: number;
  /** In the sheet's currency, 0 or more. */
  readonly price: number;
  /** What the price is for; a bag where it is not said. */
  readonly per?: "bag" | "piece" | undefined;
  /** Share of usable balloons in a bag, above 0 up to 1. */
  readonly good?: number | undefined;
  /** False where the row is sold out. */
  readonly available?: boolean | undefined;
}

/** A row of a price list, checked and made ready to compute with. */
export interface Listing extends Item {
  readonly row: number;
  readonly supplier: string;
  readonly supplierKey: string;
  readonly key: string;
  readonly bag: number;
  /** Whole pieces to count on in a bag: the usable share rounded down, at least 1. */
  readonly usable: number;
  /** Price of a bag, whole subcents, at least 1: an order is told by what its goods cost. */
  readonly price: number;
  /** True where it costs nothing. */
  readonly isFree: boolean;
  /** True where the row says what its price is for. */
  readonly isPriceOfSaid: boolean;
  readonly isAvailable: boolean;
}

const OFF_BY = 10;
/** Price of one 11 in latex balloon. Source: common practice, no source, in euros; dearer currencies differ by less than `OFF_BY`. */
const USUAL_EACH = 0.2;
const USUAL_SIZE = toSi(11, "in");

/**
 * Checks a price list.
 *
 * @param rows rows of the list
 * @param argument worksheet parameter, for the sentences
 * @returns one listing per row; rows that repeat another at the same price stay
 * @throws `#VALUE!` naming the row for a bag, price or share out of range, and both rows where the same supplier, size,
 * colour and bag stand at two prices
 */
export function readPriceList(rows: readonly PriceRow[], argument = "price_list"): readonly Listing[] {
  const listings = rows.map((row) => readListing(row, `${argument} row ${row.row}`));
  const [conflict] = priceConflicts(listings, argument);
  if (conflict) throw new CalcError("#VALUE!", conflict.sentence);
  return listings;
}

/**
 * Checks one row of a price list.
 *
 * @param row the row
 * @param place how sentences name it
 * @returns what it offers
 * @throws `#VALUE!` for a bag, price or share out of range
 */
export function readListing(row: PriceRow, place: string): Listing {
  requireBagSize(`${place}: bag`, row.bag);
  if (!(row.price >= 0)) throw invalid(`${place}: price`, "be 0 or more", row.price);
  const good = row.good ?? 1;
  if (!(good > 0 && good <= 1)) throw invalid(`${place}: good`, "be above 0 and at most 1", good);
  const price = subcentsOf(bagPrice(row));
  if (price === 0 && row.price > 0)
    throw invalid(`${place}: price`, "be a hundredth of a cent or more", row.price);
  return {
    row: row.row,
    supplier: row.supplier.trim(),
    supplierKey: nameKey(row.supplier),
    key: itemKey(row),
    printed: row.printed,
    colour: row.colour.trim(),
    type: row.type,
    code: row.code,
    bag: row.bag,
    usable: usablePieces(row),
    price: Math.max(1, price),
    isFree: price === 0,
    isPriceOfSaid: row.per !== undefined,
    isAvailable: row.available !== false,
  };
}

/**
 * What a bag costs.
 *
 * @param row a price for the bag or for a piece of it
 * @returns price of the bag, sheet's currency
 */
export function bagPrice({ price, bag, per }: Pick<PriceRow, "price" | "bag" | "per">): number {
  return per === "piece" ? price * bag : price;
}

/**
 * Pieces of a bag to count on: the usable share rounded down.
 *
 * @param row a bag with its usable share, all of it where it is not said
 * @returns whole number, at least 1
 */
export function usablePieces({ bag, good = 1 }: Pick<PriceRow, "bag" | "good">): number {
  return Math.max(1, Math.floor(bag * good + 1e-9));
}

/**
 * Checks one row of a price list without throwing.
 *
 * @param row the row
 * @param place how sentences name it
 * @returns what it offers, or the sentence that says why not
 */
export function listingOf(row: PriceRow, place: string): Listing | string {
  try {
    return readListing(row, place);
  } catch (error) {
    if (error instanceof CalcError) return error.message;
    throw error;
  }
}

/** An offer that stands at two prices. */
export interface PriceConflict {
  readonly listing: Listing;
  readonly sentence: string;
}

/**
 * Offers of one supplier, item and bag that stand at two prices: nobody can tell which one holds.
 *
 * @param listings a checked list
 * @param argument worksheet parameter, for the sentences
 * @returns the later row of each pair
 */
export function priceConflicts(
  listings: readonly Listing[],
  argument = "price_list",
): readonly PriceConflict[] {
  const seen = new Map<string, Listing>();
  return listings.flatMap((listing) => {
    const key = listingKey(listing);
    const other = seen.get(key);
    if (other === undefined) seen.set(key, listing);
    if (other === undefined || other.price === listing.price) return [];
    return [{ listing, sentence: twoPrices(`${argument} row ${listing.row}`, other, listing) }];
  });
}

function twoPrices(place: string, other: Listing, listing: Listing): string {
  const written = `${roundedAmount(listing.price)} and ${roundedAmount(other.price)} for a bag of ${listing.bag} ${itemWords(listing)}`;
  return invalid(`${place}: price`, `be the same as in row ${other.row}`, { written }).message;
}

/**
 * What listings are matched by: supplier, item and bag.
 *
 * @param listing a checked row
 * @returns equal texts for the same offer
 */
export function listingKey(listing: Listing): string {
  return [listing.supplierKey, listing.key, listing.bag].join("\n");
}

/**
 * Rows whose price per piece is ten times off the median of their printed size and type, free ones apart: a bag price taken for a piece price, or
 * the other way round.
 *
 * @param listings a checked list
 * @returns remark by row of the list
 */
export function priceRemarks(listings: readonly Listing[]): ReadonlyMap<number, string> {
  const remarks = new Map<number, string>();
  const priced = listings.filter(({ isFree }) => !isFree);
  for (const ofSize of grouped(priced, typedSizeKey).values()) {
    const each = ofSize.map((listing) => listing.price / listing.bag).sort((a, b) => a - b);
    const half = each.length >> 1;
    const middle = entryAt(each, half);
    const median = each.length % 2 === 1 ? middle : (middle + entryAt(each, half - 1)) / 2;
    for (const listing of ofSize) {
      const ratio = listing.price / listing.bag / median;
      const isHigh = ratio >= OFF_BY;
      if (!isHigh && ratio > 1 / OFF_BY) continue;
      const doubt = isHigh ? "is it the price of a bag" : "is it the price of a piece";
      const times = isHigh ? `${Math.round(ratio)} times` : `1/${Math.round(1 / ratio)} of`;
      remarks.set(listing.row, `price_list row ${listing.row} is ${times} the usual price a piece, ${doubt}`);
    }
  }
  return remarks;
}

/**
 * Latex balloons that cost less than a tenth of the usual price of their size, by the rubber that a size takes: most often the
 * price of one balloon where a bag's was meant, and then in the whole list, so that no row of it stands out.
 * Source: common practice, no source; rubber goes by the square of the size.
 *
 * @param listings a checked list
 * @returns remark by row of the list; none for rows that say what their price is for, or that cost nothing
 */
export function lowPrices(listings: readonly Listing[]): ReadonlyMap<number, string> {
  return new Map(
    listings.flatMap(({ row, printed, type = "latex", bag, price, isFree, isPriceOfSaid }) => {
      const each = roundedAmount(price) / bag;
      const least = (USUAL_EACH / OFF_BY) * (printed / USUAL_SIZE) ** 2;
      if (isFree || isPriceOfSaid || type !== "latex" || each >= least) return [];
      const sentence = `price_list row ${row} is ${Number(each.toPrecision(2))} for one balloon, is it the price of a piece; type per`;
      return [[row, sentence] as const];
    }),
  );
}
