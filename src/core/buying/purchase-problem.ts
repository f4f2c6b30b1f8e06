import { overflow } from "../calc-error";
import { greatestCommonDivisor } from "../numeric/divisors";
import { present } from "../numeric/entry-at";
import { sum } from "../numeric/sums";
import { ItemCovers, type Pricing } from "./item-covers";
import {
  coverOf,
  type Cover,
  type Interval,
  intervalsOf,
  type Offer,
  type SupplierTerms,
  type Wanted,
} from "./purchase";
import type { StepBudget } from "./step-budget";

/** Every item covered by itself at the least price. */
export interface SeparateCovers {
  /** Sum of `prices`. */
  readonly price: number;
  /** Least price of every item under the prices asked for. */
  readonly prices: readonly number[];
  readonly cover: Cover;
}

/** An offer with its place. */
export interface PlacedOffer {
  readonly item: number;
  readonly index: number;
  readonly offer: Offer;
}

const MOST_COVER_STEPS = 4e8;

/** What is bought, from whom, and how many steps may be taken over it. */
export class PurchaseProblem {
  readonly items: readonly ItemCovers[];
  /** Suppliers that sell something and ask a charge or a minimum order. */
  readonly constrained: readonly number[];
  /** Subcents that all prices are multiples of. */
  readonly grid: number;
  private readonly bySupplier: readonly (readonly PlacedOffer[])[];
  private readonly intervals: readonly (readonly Interval[])[];

  /**
   * @param wanted items with at least one offer each
   * @param terms per supplier
   * @param budget steps that are taken from
   * @throws `#NUM!` where covering each item by itself is too much already
   */
  constructor(
    readonly wanted: readonly Wanted[],
    readonly terms: readonly SupplierTerms[],
    readonly budget: StepBudget,
  ) {
    this.items = wanted.map((item) => new ItemCovers(item));
    if (sum(this.items.map((item) => item.coverSteps)) > MOST_COVER_STEPS)
      throw overflow("needs and bag sizes together are too large");
    this.intervals = terms.map(intervalsOf);
    const bySupplier = terms.map((): PlacedOffer[] => []);
    wanted.forEach(({ offers }, item) => {
      offers.forEach((offer, index) => present(bySupplier[offer.supplier]).push({ item, index, offer }));
    });
    this.bySupplier = bySupplier;
    this.constrained = terms.flatMap(({ charge, minimum }, supplier) =>
      this.offersOf(supplier).length > 0 && charge + minimum > 0 ? [supplier] : [],
    );
    const prices = wanted.flatMap((item) => item.offers.map((offer) => offer.price));
    this.grid = [...prices, ...terms.map(({ charge }) => charge)].reduce(greatestCommonDivisor, 0);
  }

  /** @returns offers of a supplier, item by item */
  offersOf(supplier: number): readonly PlacedOffer[] {
    return present(this.bySupplier[supplier]);
  }

  /** @returns intervals of a supplier */
  intervalsOf(supplier: number): readonly Interval[] {
    return present(this.intervals[supplier]);
  }

  /**
   * The next price at or above a bound: prices are multiples of the grid.
   *
   * @param bound subcents
   * @returns subcents, a rounding below `bound` forgiven
   */
  onGrid(bound: number): number {
    return this.grid * Math.ceil((bound - roundingOf(bound)) / this.grid);
  }

  /**
   * Prices at the suppliers that may be bought from.
   *
   * @param open per supplier
   * @param multipliers per supplier, what is taken off each unit of its prices; none where left out
   * @returns the pricing
   */
  pricing(open: readonly boolean[], multipliers: readonly number[] = open.map(() => 0)): Pricing {
    return ({ supplier, price }) =>
      open[supplier] ? price * (1 - present(multipliers[supplier])) : Infinity;
  }

  /**
   * The best cover of every item by itself.
   *
   * @param pricing of the offers
   * @returns covers, their prices under it, and the goods at the prices listed
   */
  cover(pricing: Pricing): SeparateCovers {
    const best = this.items.map((item) => {
      this.budget.take(item.coverSteps);
      return item.best(pricing);
    });
    const prices = best.map(({ price }) => price);
    const bags = best.map((cover) => cover.bags);
    return {
      price: prices.reduce((total, price) => total + price, 0),
      prices,
      cover: coverOf(this.wanted, bags, this.terms.length),
    };
  }
}

/**
 * What sums of prices may be off by.
 *
 * @param price subcents
 * @returns subcents
 */
export function roundingOf(price: number): number {
  return 1e-9 * Math.abs(price) + 1e-6;
}
