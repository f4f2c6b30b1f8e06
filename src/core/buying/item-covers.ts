import { greatestCommonDivisor } from "../numeric/divisors";
import { present } from "../numeric/entry-at";
import { cheapestCover, coverSteps } from "./cheapest-cover";
import type { Offer, Wanted } from "./purchase";

/** What a bag of an offer costs in a calculation; Infinity where it may not be bought. */
export type Pricing = (offer: Offer) => number;

/** A best cover: its price under the pricing asked for, and bags per offer. */
export interface PricedCover {
  readonly price: number;
  readonly bags: readonly number[];
}

/** Units above which an item is planned by `cheapestCover` alone. */
const LARGEST_TABLE = 20_000;

/**
 * The covers of one item, for many pricings of the same offers: a covering knapsack by dynamic programming over the pieces
 * missing. Source: Kellerer, Pferschy and Pisinger, Knapsack Problems (2004), ch. 8.
 */
export class ItemCovers {
  /** The need in the largest measure that all bags are whole in. */
  readonly units: number;
  /** Units in a bag of each offer. */
  readonly sizes: readonly number[];
  /** Steps that one cover takes. */
  readonly coverSteps: number;
  private least: Float64Array | undefined;
  private last: Int32Array | undefined;

  constructor(readonly wanted: Wanted) {
    const unit = wanted.offers.reduce((divisor, offer) => greatestCommonDivisor(divisor, offer.pieces), 0);
    this.units = Math.ceil(wanted.need / unit);
    this.sizes = wanted.offers.map((offer) => offer.pieces / unit);
    this.coverSteps = this.isLarge
      ? coverSteps(wanted.need, wanted.offers) + wanted.offers.length
      : this.units * this.sizes.length;
  }

  /** True where covers other than the best are out of reach. */
  get isLarge(): boolean {
    return this.units > LARGEST_TABLE;
  }

  /** Steps that `priceBySet` takes for that many optional suppliers. */
  tableSteps(suppliers: number): number {
    const each = this.isLarge ? this.coverSteps : this.coverSteps / Math.max(1, suppliers);
    return each * 2 ** suppliers;
  }

  /**
   * @param price of each offer
   * @returns the cheapest cover; price Infinity where nothing may be bought
   */
  best(price: Pricing): PricedCover {
    const { offers, need } = this.wanted;
    if (this.isLarge) {
      const priced = offers.map((offer, index) => ({ index, pieces: offer.pieces, price: price(offer) }));
      const usable = priced.filter((kind) => kind.price < Infinity);
      const bags = offers.map(() => 0);
      if (usable.length === 0) return { price: Infinity, bags };
      const cover = cheapestCover(need, usable);
      usable.forEach(({ index }, place) => (bags[index] = present(cover.bags[place])));
      return { price: cover.price, bags };
    }
    this.last ??= new Int32Array(this.units + 1);
    const { last } = this;
    const least = this.leastPrices(price, last);
    const bags = offers.map(() => 0);
    const total = present(least[this.units]);
    if (total === Infinity) return { price: Infinity, bags };
    for (let missing = this.units; missing > 0;) {
      const offer = present(last[missing]);
      bags[offer] = present(bags[offer]) + 1;
      missing -= present(this.sizes[offer]);
    }
    return { price: total, bags };
  }

  /**
   * Least price for every number of units missing.
   *
   * @param price of each offer
   * @param last where given, takes the offer of a bag of each best cover
   * @returns prices by units missing; the table is used again by the next call
   */
  leastPrices(price: Pricing, last?: Int32Array): Float64Array {
    this.least ??= new Float64Array(this.units + 1);
    const least = this.least.fill(Infinity);
    least[0] = 0;
    this.wanted.offers.forEach((offer, index) => {
      this.admit(least, index, price(offer), last);
    });
    return least;
  }

  private admit(least: Float64Array, index: number, price: number, last?: Int32Array): void {
    if (price === Infinity) return;
    const size = present(this.sizes[index]);
    const { units } = this;
    for (let missing = 1; missing <= units; missing += 1) {
      const next = present(least[missing > size ? missing - size : 0]) + price;
      if (next < present(least[missing])) {
        least[missing] = next;
        if (last) last[missing] = index;
      }
    }
  }

  /**
   * Cheapest price for every set of optional suppliers.
   *
   * @param optional numbers of the suppliers that may be left out and sell this item
   * @param isOpen tells of the other suppliers which ones may be bought from
   * @returns prices by bit mask over `optional`, Infinity where a set does not sell the item
   */
  priceBySet(optional: readonly number[], isOpen: (supplier: number) => boolean): Float64Array {
    const { offers } = this.wanted;
    const prices = new Float64Array(2 ** optional.length);
    if (this.isLarge) {
      for (let mask = 0; mask < prices.length; mask += 1) {
        const place = (supplier: number): number => optional.indexOf(supplier);
        prices[mask] = this.best(({ supplier, price }) => {
          const bit = place(supplier);
          return (bit < 0 ? isOpen(supplier) : (mask >> bit) & 1) ? price : Infinity;
        }).price;
      }
      return prices;
    }
    const byOptional = optional.map((supplier) =>
      [...offers.entries()].filter(([, offer]) => offer.supplier === supplier),
    );
    const tables = optional.map(() => new Float64Array(this.units + 1));
    const visit = (bit: number, mask: number, least: Float64Array): void => {
      const withIt = tables[bit];
      if (withIt === undefined) {
        prices[mask] = present(least[this.units]);
        return;
      }
      visit(bit + 1, mask, least);
      withIt.set(least);
      for (const [index, offer] of present(byOptional[bit])) this.admit(withIt, index, offer.price);
      visit(bit + 1, mask | (1 << bit), withIt);
    };
    visit(
      0,
      0,
      this.leastPrices(({ supplier, price }) =>
        !optional.includes(supplier) && isOpen(supplier) ? price : Infinity,
      ),
    );
    return prices;
  }
}
