import { cheapestCover, coverSteps, greatestCommonDivisor } from "./bag-plan";

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

/** What a bag of an offer costs in a calculation; Infinity where it may not be bought. */
export type Pricing = (offer: Offer) => number;

/** A best cover: its price under the pricing asked for, and bags per offer. */
export interface PricedCover {
  readonly price: number;
  readonly bags: readonly number[];
}

/** Bags of one offer, then those taken before. */
export interface BagChain {
  readonly offer: number;
  readonly bags: number;
  readonly before: BagChain | undefined;
}

/** A way to cover an item, as the search over thresholds sees it. */
export interface CoverOption {
  /** Spent at each watched supplier, subcents. */
  readonly spent: readonly number[];
  /** Paid to all suppliers, subcents. */
  readonly paid: number;
  /** What it costs under the reduced pricing above the best cover. */
  readonly excess: number;
  readonly chain: BagChain | undefined;
}

/** Units above which an item is planned by `cheapestCover` alone. */
const LARGEST_TABLE = 20_000;

/** The covers of one item, for many pricings of the same offers. */
export class ItemCovers {
  private readonly units: number;
  private readonly sizes: readonly number[];
  private readonly largestFirst: readonly number[];
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
    this.largestFirst = wanted.offers
      .map((_, index) => index)
      .sort((a, b) => (this.sizes[b] ?? 0) - (this.sizes[a] ?? 0));
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
      const usable = offers.flatMap((offer, index) => (price(offer) < Infinity ? [index] : []));
      const bags = offers.map(() => 0);
      if (usable.length === 0) return { price: Infinity, bags };
      const kinds = usable.flatMap((index) => {
        const offer = offers[index];
        return offer ? [{ pieces: offer.pieces, price: price(offer) }] : [];
      });
      const cover = cheapestCover(need, kinds);
      usable.forEach((index, place) => (bags[index] = cover.bags[place] ?? 0));
      return { price: cover.price, bags };
    }
    this.last ??= new Int32Array(this.units + 1);
    const { last } = this;
    const least = this.leastPrices(price, last);
    const bags = offers.map(() => 0);
    const total = least[this.units] ?? Infinity;
    if (total === Infinity) return { price: Infinity, bags };
    for (let missing = this.units; missing > 0;) {
      const offer = last[missing] ?? 0;
      bags[offer] = (bags[offer] ?? 0) + 1;
      missing -= this.sizes[offer] ?? this.units;
    }
    return { price: total, bags };
  }

  /** Least price for every number of units missing; the table is used again by the next call. */
  private leastPrices(price: Pricing, last?: Int32Array): Float64Array {
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
    const size = this.sizes[index] ?? 1;
    const { units } = this;
    for (let missing = 1; missing <= units; missing += 1) {
      const next = (least[missing > size ? missing - size : 0] ?? 0) + price;
      if (next < (least[missing] ?? Infinity)) {
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
      offers.flatMap((offer, index) => (offer.supplier === supplier ? [index] : [])),
    );
    const tables = optional.map(() => new Float64Array(this.units + 1));
    const visit = (bit: number, mask: number, least: Float64Array): void => {
      const withIt = tables[bit];
      if (withIt === undefined) {
        prices[mask] = least[this.units] ?? Infinity;
        return;
      }
      visit(bit + 1, mask, least);
      withIt.set(least);
      for (const index of byOptional[bit] ?? []) this.admit(withIt, index, offers[index]?.price ?? Infinity);
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

  /**
   * Every cover without a needless bag whose reduced price is within `slack` of the best, one for each vector of spending.
   *
   * @param reduced pricing under which covers are compared
   * @param watched place of a supplier in `spent`, or -1
   * @param places length of `spent`
   * @param slack largest excess
   * @param spend called for each step, false stops
   * @returns the options, or undefined where the steps ran out
   */
  options(
    reduced: Pricing,
    watched: (supplier: number) => number,
    places: number,
    slack: number,
    spend: () => boolean,
  ): readonly CoverOption[] | undefined {
    const { offers } = this.wanted;
    const best = this.leastPrices(reduced)[this.units] ?? Infinity;
    const least = Float64Array.from(this.least ?? []);
    interface State extends CoverOption {
      readonly missing: number;
      readonly reduced: number;
    }
    const start: State = {
      missing: this.units,
      reduced: 0,
      paid: 0,
      excess: 0,
      spent: new Array<number>(places).fill(0),
      chain: undefined,
    };
    let states = new Map<string, State>([["", start]]);
    for (const index of this.largestFirst) {
      const offer = offers[index];
      const place = offer ? watched(offer.supplier) : -1;
      const price = offer && place >= 0 ? reduced(offer) : Infinity;
      const size = this.sizes[index] ?? 1;
      // Most offers are in no cover within the slack, which one look at the rest beside a single bag shows.
      const alone = price + (least[Math.max(0, this.units - size)] ?? 0);
      if (offer === undefined || !(alone - best <= slack)) continue;
      const next = new Map<string, State>();
      for (const state of states.values()) {
        const most = Math.ceil(state.missing / size);
        for (let bags = 0; bags <= most; bags += 1) {
          if (!spend()) return undefined;
          const missing = Math.max(0, state.missing - bags * size);
          const soFar = state.reduced + bags * price;
          const excess = soFar + (least[missing] ?? 0) - best;
          if (excess > slack) break;
          const spent =
            bags === 0
              ? state.spent
              : state.spent.map((sum, i) => (i === place ? sum + bags * offer.price : sum));
          const key = `${missing} ${spent.join(" ")}`;
          if (soFar >= (next.get(key)?.reduced ?? Infinity)) continue;
          const paid = state.paid + bags * offer.price;
          const chain = bags === 0 ? state.chain : { offer: index, bags, before: state.chain };
          next.set(key, { missing, reduced: soFar, paid, excess, spent, chain });
        }
      }
      states = next;
    }
    // What is bought where nothing is watched matters by its price alone: the cheapest completes each of the others.
    const last = new Int32Array(this.units + 1);
    const others = this.leastPrices(
      (offer) => (watched(offer.supplier) < 0 ? reduced(offer) : Infinity),
      last,
    );
    const options = new Map<string, State>();
    for (const state of states.values()) {
      if (!spend()) return undefined;
      const full = state.reduced + (others[state.missing] ?? 0);
      const excess = full - best;
      const key = state.spent.join(" ");
      if (!(excess <= slack) || full >= (options.get(key)?.reduced ?? Infinity)) continue;
      let { chain, paid } = state;
      for (let missing = state.missing; missing > 0;) {
        const offer = last[missing] ?? 0;
        const bags = chain?.offer === offer ? chain.bags + 1 : 1;
        chain = { offer, bags, before: chain?.offer === offer ? chain.before : chain };
        paid += offers[offer]?.price ?? 0;
        missing -= this.sizes[offer] ?? this.units;
      }
      options.set(key, { ...state, missing: 0, reduced: full, paid, excess, chain });
    }
    return [...options.values()];
  }
}
