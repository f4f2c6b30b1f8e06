import { type Bag, cheapestCover } from "../buying/cheapest-cover";
import { invalid } from "../calc-error";
import { roundedAmount, subcentsOf } from "../numeric/cents";
import { entryAt } from "../numeric/entry-at";

/** Bags to buy for one item. */
export interface BagPlan {
  /** Bags of each size, in the order of the sizes. */
  readonly bags: readonly number[];
  /** Price of all bags in the sheet's currency, rounded to the cent. */
  readonly cost: number;
  /** Pieces bought beyond the count. */
  readonly leftOver: number;
}

/** Pieces in the largest bag that is believed; a date typed for a size (46,000 and more) lies above it. */
export const LARGEST_BAG = 10_000;

/**
 * BAG_PLAN, BAG_COST: the cheapest bags that hold at least `count` pieces. Ties: fewest pieces left over, then fewest
 * bags, then the size that stands earlier. Exact, for any count; see `cheapestCover`.
 *
 * @param count pieces needed, whole, 0 or more
 * @param sizes pieces per bag, whole, 1 to 10,000
 * @param prices price per bag in the sheet's currency, above 0, one per size; exact to a hundredth of a cent
 * @returns bags per size, cost, pieces left over
 * @throws `#VALUE!` for a size or price out of range or lists of different lengths, `#NUM!` where the cost is too large
 */
export function bagPlan(count: number, sizes: readonly number[], prices: readonly number[]): BagPlan {
  if (sizes.length !== prices.length) {
    throw invalid("prices", `be ${sizes.length} cells like sizes`, { written: `${prices.length}` });
  }
  const bags = sizes.map((pieces, index): Bag => {
    requireBagSize(`sizes cell ${index + 1}`, pieces);
    const price = entryAt(prices, index);
    if (!(price > 0)) throw invalid(`prices cell ${index + 1}`, "be above 0", price);
    return { pieces, price: subcentsOf(price) };
  });
  const cover = cheapestCover(count, bags);
  return { bags: cover.bags, cost: roundedAmount(cover.price), leftOver: cover.pieces - count };
}

/**
 * Refuses sizes of bags that are not whole pieces from 1 to `LARGEST_BAG`.
 *
 * @param argument worksheet parameter with its cell or row
 * @param pieces pieces per bag
 * @throws `#VALUE!`
 */
export function requireBagSize(argument: string, pieces: number): void {
  if (Number.isInteger(pieces) && pieces >= 1 && pieces <= LARGEST_BAG) return;
  const looksLikeDate = pieces > 36_000 && pieces < 60_000;
  throw invalid(
    argument,
    `be a whole number of pieces from 1 to ${LARGEST_BAG}`,
    pieces,
    looksLikeDate ? "this is a date; type one size per cell" : undefined,
  );
}
