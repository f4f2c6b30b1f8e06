import { present } from "../numeric/entry-at";

/** A kind of bag of one item at one supplier. */
export interface Offer {
  /** Number of the supplier, from 0. */
  readonly supplier: number;
  /** Usable pieces in a bag, whole, 1 or more. */
  readonly pieces: number;
  /** Price of a bag, whole subcents, above 0. */
  readonly price: number;
}

/** An item to buy: at least `need` pieces out of any offers. */
export interface Wanted {
  /** Whole, 1 or more. */
  readonly need: number;
  readonly offers: readonly Offer[];
}

/** What a supplier asks beside the prices, in whole subcents. */
export interface SupplierTerms {
  /** Paid once where anything is bought for less than `freeFrom`. */
  readonly charge: number;
  /** Least value of goods of an order. */
  readonly minimum: number;
  /** Value of goods from which the charge is waived; Infinity where it never is. */
  readonly freeFrom: number;
}

/** What to buy where. */
export interface PurchasePlan {
  /** Bags per item and offer. */
  readonly bags: readonly (readonly number[])[];
  /** Value of the goods ordered from each supplier, subcents. */
  readonly goods: readonly number[];
  /** Delivery per supplier, subcents. */
  readonly charges: readonly number[];
  /** Goods and delivery, subcents. */
  readonly price: number;
}

/** Bags that hold every item, whatever suppliers ask beside the prices. */
export type Cover = Pick<PurchasePlan, "bags" | "goods">;

/** Bags of one offer, then those taken before. */
export interface BagChain {
  readonly offer: number;
  readonly bags: number;
  readonly before: BagChain | undefined;
}

/**
 * An interval of the value of goods in which a supplier delivers at one charge, as in procurement under total quantity
 * discounts (Goossens, Maas, Spieksma and van de Klundert, Eur. J. Oper. Res. 178 (2007) 603, from memory).
 */
export interface Interval {
  readonly supplier: number;
  /** Least value of goods, subcents. */
  readonly threshold: number;
  /** Delivery charge, subcents. */
  readonly charge: number;
}

/**
 * The intervals that a supplier's terms leave: with the charge from the minimum order on, and free of charge where that is
 * ever so.
 *
 * @param terms of the supplier, subcents
 * @param supplier number of the supplier
 * @returns one or two intervals, the one with the charge first
 */
export function intervalsOf(
  { charge, minimum, freeFrom }: SupplierTerms,
  supplier: number,
): readonly Interval[] {
  if (charge === 0) return [{ supplier, threshold: minimum, charge: 0 }];
  const free = { supplier, threshold: Math.max(minimum, freeFrom), charge: 0 };
  if (freeFrom <= minimum) return [free];
  const paid = { supplier, threshold: minimum, charge };
  return freeFrom < Infinity ? [paid, free] : [paid];
}

/**
 * Bags per offer of a chain.
 *
 * @param offers of the item
 * @param chain bags taken, one link for each offer at most
 * @returns bags in the order of the offers
 */
export function bagsOf(offers: readonly Offer[], chain: BagChain | undefined): readonly number[] {
  const bags = offers.map(() => 0);
  for (let taken = chain; taken; taken = taken.before) {
    bags[taken.offer] = present(bags[taken.offer]) + taken.bags;
  }
  return bags;
}

/**
 * Value of one item's bags at each supplier.
 *
 * @param offers of the item
 * @param bags per offer
 * @param suppliers how many there are
 * @returns subcents per supplier
 */
export function goodsBySupplier(
  offers: readonly Offer[],
  bags: readonly number[],
  suppliers: number,
): number[] {
  const goods = new Array<number>(suppliers).fill(0);
  offers.forEach(({ supplier, price }, offer) => {
    goods[supplier] = present(goods[supplier]) + price * present(bags[offer]);
  });
  return goods;
}

/**
 * A cover from the bags of every item.
 *
 * @param wanted items
 * @param bags per item and offer
 * @param suppliers how many there are
 * @returns the bags with the value of the goods at each supplier
 */
export function coverOf(
  wanted: readonly Wanted[],
  bags: readonly (readonly number[])[],
  suppliers: number,
): Cover {
  const goods = new Array<number>(suppliers).fill(0);
  wanted.forEach(({ offers }, item) => {
    goodsBySupplier(offers, present(bags[item]), suppliers).forEach((value, supplier) => {
      goods[supplier] = present(goods[supplier]) + value;
    });
  });
  return { bags, goods };
}
