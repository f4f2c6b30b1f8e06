import { present } from "../numeric/entry-at";
import { cheapestCover } from "./cheapest-cover";
import { coverOf, type Cover, type PurchasePlan, type Wanted } from "./purchase";
import type { PurchaseProblem } from "./purchase-problem";
import { type TopUp, TopUps } from "./top-ups";

const NO_TOP_UP: TopUp = { sum: 0, counts: new Map() };

/** The best plan so far, as branch and bound calls it, and what plans are measured by. */
export class Incumbent {
  /** Its cover before bags were added to reach thresholds. */
  base: Cover = { bags: [], goods: [] };
  private plan: PurchasePlan | undefined;
  private readonly topUps = new Map<number, TopUps>();

  constructor(private readonly problem: PurchaseProblem) {}

  /** Subcents; Infinity before the first plan. */
  get price(): number {
    return this.plan?.price ?? Infinity;
  }

  /**
   * The least value of bags that a supplier's goods can be filled up with.
   *
   * @param supplier number
   * @param amount subcents that are missing, any sign
   * @returns value and bags by price
   */
  topUp(supplier: number, amount: number): TopUp {
    return this.topUpsOf(supplier).reach(amount);
  }

  /** @returns false where top-ups of a supplier need not be the least */
  isExact(supplier: number): boolean {
    return this.topUpsOf(supplier).isExact;
  }

  private topUpsOf(supplier: number): TopUps {
    let topUps = this.topUps.get(supplier);
    if (topUps === undefined) {
      topUps = new TopUps(this.problem.offersOf(supplier).map(({ offer }) => offer.price));
      this.topUps.set(supplier, topUps);
    }
    return topUps;
  }

  /** Bags that a supplier's goods are filled up with, and its charge, in the cheaper of its intervals. */
  private filled(supplier: number, goods: number): { readonly topUp: TopUp; readonly charge: number } {
    let best = { topUp: NO_TOP_UP, charge: Infinity };
    for (const { threshold, charge } of this.problem.intervalsOf(supplier)) {
      const topUp = this.topUp(supplier, threshold - goods);
      if (topUp.sum + charge < best.topUp.sum + best.charge) best = { topUp, charge };
    }
    return best;
  }

  /**
   * Price of goods with the top-ups and charges that they need.
   *
   * @param goods subcents per supplier
   * @returns subcents
   */
  priceOf(goods: readonly number[]): number {
    let price = goods.reduce((total, value) => total + value, 0);
    for (const supplier of this.problem.constrained) {
      const value = present(goods[supplier]);
      if (value === 0) continue;
      const { topUp, charge } = this.filled(supplier, value);
      price += topUp.sum + charge;
    }
    return price;
  }

  /**
   * Takes a cover, filled up to the cheaper interval of each supplier it buys from, where that is cheaper than the best.
   *
   * @param cover of all items
   */
  propose(cover: Cover): void {
    const price = this.priceOf(cover.goods);
    if (price < this.price) this.accept(cover, price);
  }

  private accept(cover: Cover, price: number): void {
    this.base = cover;
    const goods = [...cover.goods];
    const charges = goods.map(() => 0);
    const bags = cover.bags.map((row) => [...row]);
    for (const supplier of this.problem.constrained) {
      const value = present(goods[supplier]);
      if (value === 0) continue;
      const { topUp, charge } = this.filled(supplier, value);
      goods[supplier] = value + topUp.sum;
      charges[supplier] = charge;
      const offers = this.problem.offersOf(supplier);
      for (const [priceEach, count] of topUp.counts) {
        const { item, index } = present(offers.find(({ offer }) => offer.price === priceEach));
        const row = present(bags[item]);
        row[index] = present(row[index]) + count;
      }
    }
    this.plan = { bags, goods, charges, price };
  }

  /** @returns the best plan, with fewest pieces left over and fewest bags per item where that costs the same */
  tidied(): PurchasePlan {
    const { plan } = this;
    if (plan === undefined) return { bags: [], goods: [], charges: [], price: 0 };
    const cover = cheapestFrom(
      this.problem.wanted,
      this.problem.terms.length,
      (supplier) => present(plan.goods[supplier]) > 0,
    );
    const price = this.priceOf(cover.goods);
    if (price <= plan.price) this.accept(cover, price);
    return this.plan ?? plan;
  }
}

/**
 * The cheapest cover of every item by itself, ties by fewest pieces, then fewest bags.
 *
 * @param wanted items
 * @param suppliers how many there are
 * @param isOpen tells whom may be bought from; each item must be sold by one of them
 * @returns the covers, charges and minimum orders apart
 */
export function cheapestFrom(
  wanted: readonly Wanted[],
  suppliers: number,
  isOpen: (supplier: number) => boolean,
): Cover {
  const rows = wanted.map(({ need, offers }) => {
    const row = offers.map(() => 0);
    const usable = offers.flatMap((offer, index) => (isOpen(offer.supplier) ? [{ ...offer, index }] : []));
    const { bags } = cheapestCover(need, usable);
    usable.forEach(({ index }, place) => (row[index] = present(bags[place])));
    return row;
  });
  return coverOf(wanted, rows, suppliers);
}
