import { overflow } from "../calc-error";
import { maximiseConcave } from "../numeric/concave";
import { Heap } from "../numeric/heap";
import { cheapestCover, greatestCommonDivisor } from "./bag-plan";
import {
  ItemCovers,
  type BagChain,
  type CoverOption,
  type Offer,
  type Pricing,
  type Wanted,
} from "./item-covers";
import { NearBestSearch } from "./near-best";
import { TopUps, type TopUp } from "./top-up";

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
export interface SupplierChoice {
  /** Bags per item and offer. */
  readonly bags: readonly (readonly number[])[];
  /** Goods per supplier, subcents. */
  readonly goods: readonly number[];
  /** Delivery per supplier, subcents. */
  readonly charges: readonly number[];
  /** Goods and delivery, subcents. */
  readonly price: number;
  /** No plan is cheaper than this, subcents; equal to `price` where the plan is proved best. */
  readonly bound: number;
  /** Work that it took, in steps of some 4 ns. */
  readonly steps: number;
}

/** Suppliers that may be left out and are weighed in every combination; more are cut down and the gap is stated. */
const MOST_OPTIONAL = 12;
/** Steps of two to three seconds. */
const MOST_STEPS = 4e8;
/** Steps for tables over sets of suppliers. */
const MOST_TABLE_STEPS = 1e9;
/** What a step of another kind takes in these. */
const OPTION_STEPS = 250;
const PAIR_STEPS = 20;
const SWAP_STEPS = 250;
const MOST_SWAPS = 100_000;
const NO_TOP_UP: TopUp = { sum: 0, counts: new Map() };
const LOOKS = 24;
const GAUGES = 12;
const BINDING = 1e-9;
const FIRST_SLACK = 1e-5;
/** States followed at first, in the hope that the bound is met, and at last. */
const WIDTHS = [100, 1000, 10_000, Infinity];
/** Steps of listing the ways of all items above which pairs are out of reach. */
const MOST_WAY_STEPS = 20_000;
/** Pairs grow so fast with the slack that it is widened slowly. */
const PAIRED_GROWTH = 1.4;
/** A best plan further above the bound than this part of it is bettered by balancing. */
const FAR = 1e-5;
const BALANCE_ROUNDS = 60;
/** Part of its prices that a supplier is balanced from, where the multiplier leaves next to nothing of them. */
const LEAST_FACTOR = 0.05;
/** Least change of the logarithm of a factor. */
const LEAST_BALANCE_STEP = 1e-3;
/** Part of a floor that is aimed at where top-ups are free. */
const BALANCE_AIM = 0.99;
/** Part of the slack that pairs begin with. */
const FIRST_PARTS = 64;
/** Steps by pairs for a good plan, whatever its distance. */
const NEAR_PAIRS = 1e6;
const SEEDS = 2;
const ROUNDS = 4;
const MOST_POINTS = 100;

type Plan = Omit<SupplierChoice, "bound" | "steps">;

/** A way to take a supplier: goods for at least `floor`, at that delivery charge. */
interface Mode {
  readonly supplier: number;
  readonly floor: number;
  readonly charge: number;
}

/** A set of suppliers that sells everything. */
interface SupplierSet {
  readonly open: readonly boolean[];
  /** The goods alone, each item covered by itself. */
  readonly price: number;
  /** No plan that buys from all fussy suppliers of the set is cheaper. */
  readonly least: number;
  /** A guess at the price, thresholds included. */
  readonly likely: number;
}

interface Cover {
  readonly bags: readonly (readonly number[])[];
  /** Goods per supplier. */
  readonly goods: readonly number[];
}

/**
 * Chooses suppliers and bags: the least goods plus delivery such that every item is covered and every supplier bought from
 * gets at least its minimum order. More than needed may be bought where that reaches a minimum or free delivery for less;
 * only items that are wanted anyway are bought for it.
 *
 * Exact: for every set of suppliers the items fall apart into covering knapsacks, whose sum bounds the set from below; sets
 * are taken in the order of their bounds. Thresholds tie the items of a set together again: Lagrange multipliers on what
 * must be spent give a bound, and a search over what is spent, limited to what the bound leaves possible, gives the best:
 * state by state where plans share states, else as a pair of halves of the items. Good plans come first, by looks under
 * multipliers that balance the suppliers, and by swaps. Beyond 12 suppliers that can be left out, or two to three seconds'
 * work, `bound` says how much cheaper a plan could be at most.
 *
 * @param wanted items with at least one offer each
 * @param terms per supplier
 * @param mostSteps steps after which what is not yet proved is stated as a gap
 * @returns the plan and a bound
 * @throws `#NUM!` where covering each item by itself is too much already
 */
export function chooseSuppliers(
  wanted: readonly Wanted[],
  terms: readonly SupplierTerms[],
  mostSteps = MOST_STEPS,
): SupplierChoice {
  return new Search(wanted, terms, mostSteps).run();
}

class Search {
  private readonly items: readonly ItemCovers[];
  private readonly open: boolean[];
  private readonly fussy: readonly number[];
  private readonly grid: number;
  /** Ways to take each supplier. */
  private readonly modes: readonly (readonly Mode[])[];
  private readonly queue = new Heap<() => void>();
  private readonly topUps = new Map<number, TopUps>();
  /** Multipliers of the last way looked at: those of the next are mostly near. */
  private readonly warm: number[];
  private best: Plan | undefined;
  /** The best plan without top-ups. */
  private untopped: Cover = { bags: [], goods: [] };
  private bound = Infinity;
  private steps = 0;

  constructor(
    private readonly wanted: readonly Wanted[],
    private readonly terms: readonly SupplierTerms[],
    private readonly mostSteps: number,
  ) {
    this.items = wanted.map((item) => new ItemCovers(item));
    if (this.items.reduce((sum, item) => sum + item.coverSteps, 0) > MOST_STEPS) {
      throw overflow("needs and bag sizes together are too large");
    }
    this.open = terms.map(() => true);
    this.modes = terms.map(modesOf);
    this.warm = terms.map(() => 0);
    const sells = new Set(wanted.flatMap((item) => item.offers.map((offer) => offer.supplier)));
    this.fussy = terms.flatMap(({ charge, minimum }, supplier) =>
      sells.has(supplier) && charge + minimum > 0 ? [supplier] : [],
    );
    const prices = wanted.flatMap((item) => item.offers.map((offer) => offer.price));
    this.grid = [...prices, ...terms.map(({ charge }) => charge)].reduce(greatestCommonDivisor, 0);
  }

  run(): SupplierChoice {
    const optional = this.optionalSuppliers();
    const openTo = (mask: number): boolean[] =>
      this.open.map((isOpen, supplier) => {
        const bit = optional.indexOf(supplier);
        return isOpen && (bit < 0 || ((mask >> bit) & 1) === 1);
      });
    const prices = this.pricesBySet(optional);
    const sets = [...prices.keys()]
      .filter((mask) => (prices[mask] ?? Infinity) < Infinity)
      .map((mask) => this.pricedSet(openTo(mask), prices[mask] ?? Infinity));
    this.plant(sets, (supplier) => optional.includes(supplier));
    for (const set of sets) {
      this.push(set.least, () => {
        this.openSet(set);
      });
    }
    // Best first: nothing is looked at whose bound lies above the price of the best plan.
    for (let next = this.queue.pop(); next && next.key < this.bestPrice; next = this.queue.pop()) {
      if (this.steps > this.mostSteps) {
        this.bound = Math.min(this.bound, next.key);
        break;
      }
      next.value();
    }
    const best = this.tidied();
    return { ...best, bound: Math.min(best.price, this.bound), steps: this.steps };
  }

  /** Queues work that cannot give a plan below `bound`. */
  private push(bound: number, work: () => void): void {
    const key = this.onGrid(bound);
    if (key < this.bestPrice) this.queue.push(key, work);
  }

  /** Prices lie on a grid, so a bound between its steps counts as the next step. */
  private onGrid(bound: number): number {
    return this.grid * Math.ceil((bound - 1e-9 * Math.abs(bound) - 1e-6) / this.grid);
  }

  private get bestPrice(): number {
    return this.best?.price ?? Infinity;
  }

  /** Fussy suppliers that may be left out, after closing the least useful ones where there are too many to combine. */
  private optionalSuppliers(): readonly number[] {
    let optional = this.dispensable();
    if (this.isTooMuch(optional)) {
      const mandatory = this.open.map((_, supplier) => !optional.includes(supplier));
      this.bound = this.pricedSet(mandatory, this.cover(this.pricing(this.open)).price).least;
    }
    while (this.isTooMuch(optional)) {
      const { goods } = this.cover(this.pricing(this.open)).cover;
      const value = (supplier: number): number =>
        (goods[supplier] ?? 0) - (this.terms[supplier]?.charge ?? 0);
      const least = optional.reduce((a, b) => (value(b) < value(a) ? b : a));
      this.open[least] = false;
      optional = this.dispensable();
    }
    return optional;
  }

  private dispensable(): readonly number[] {
    const sole = new Set(
      this.wanted.flatMap(({ offers }) => {
        const sellers = new Set(
          offers.map((offer) => offer.supplier).filter((supplier) => this.open[supplier]),
        );
        return sellers.size === 1 ? [...sellers] : [];
      }),
    );
    return this.fussy.filter((supplier) => this.open[supplier] && !sole.has(supplier));
  }

  private isTooMuch(optional: readonly number[]): boolean {
    if (optional.length > MOST_OPTIONAL) return true;
    const steps = this.items.reduce(
      (sum, item) => sum + item.tableSteps(this.ownOf(item, optional).length),
      0,
    );
    return optional.length > 0 && steps > MOST_TABLE_STEPS;
  }

  private ownOf(item: ItemCovers, optional: readonly number[]): readonly number[] {
    return optional.filter((supplier) => item.wanted.offers.some((offer) => offer.supplier === supplier));
  }

  /** Price of the goods for every set of optional suppliers, by bit mask; Infinity where a set does not sell everything. */
  private pricesBySet(optional: readonly number[]): Float64Array {
    const prices = new Float64Array(2 ** optional.length);
    for (const item of this.items) {
      const own = this.ownOf(item, optional);
      const table = item.priceBySet(own, (supplier) => this.open[supplier] === true);
      const bitsOfOwn = own.map((supplier) => optional.indexOf(supplier));
      for (let mask = 0; mask < prices.length; mask += 1) {
        let place = 0;
        for (let i = 0; i < bitsOfOwn.length; i += 1) place |= ((mask >> (bitsOfOwn[i] ?? 0)) & 1) << i;
        prices[mask] = (prices[mask] ?? 0) + (table[place] ?? Infinity);
      }
    }
    return prices;
  }

  private pricedSet(open: readonly boolean[], price: number): SupplierSet {
    const suppliers = this.fussy.filter((supplier) => open[supplier]);
    const share = price / Math.max(1, open.filter(Boolean).length);
    let least = price;
    let floors = 0;
    let likely = price;
    for (const supplier of suppliers) {
      const modes = this.modes[supplier] ?? [];
      least += Math.min(...modes.map((mode) => mode.charge));
      floors += Math.min(...modes.map((mode) => mode.floor + mode.charge));
      likely += Math.min(...modes.map((mode) => Math.max(0, mode.floor - share) + mode.charge));
    }
    return { open, price, least: Math.max(least, floors), likely };
  }

  /** Finds good plans to measure others by: from the likeliest sets on, one supplier more or less as long as that helps. */
  private plant(sets: readonly SupplierSet[], isOptional: (supplier: number) => boolean): void {
    const name = (open: readonly boolean[]): string => open.map(Number).join("");
    const byName = new Map(sets.map((set) => [name(set.open), set]));
    const seen = new Set<SupplierSet>();
    let from: SupplierSet | undefined;
    const look = (set: SupplierSet | undefined): void => {
      if (set === undefined || seen.has(set) || set.least >= this.bestPrice) return;
      seen.add(set);
      const before = this.bestPrice;
      this.enter(this.cover(this.pricing(set.open)).cover);
      if (this.bestPrice < before) from = set;
    };
    for (const set of sets.toSorted((a, b) => a.likely - b.likely).slice(0, SEEDS)) look(set);
    for (let round = 0; from && round < ROUNDS; round += 1) {
      const { open }: SupplierSet = from;
      from = undefined;
      for (const supplier of this.fussy.filter(isOptional)) {
        look(byName.get(name(open.with(supplier, !open[supplier]))));
      }
    }
  }

  private pricing(open: readonly boolean[], factors?: readonly number[]): Pricing {
    return ({ supplier, price }) => (open[supplier] ? price * (factors?.[supplier] ?? 1) : Infinity);
  }

  /** Prices less what multipliers, one per supplier, take off them. */
  private reduced(open: readonly boolean[], multipliers: readonly number[]): Pricing {
    return this.pricing(
      open,
      multipliers.map((part) => 1 - part),
    );
  }

  /** Multipliers of some modes as one per supplier, 0 for the others. */
  private spread(modes: readonly Mode[], multipliers: readonly number[]): readonly number[] {
    const all = this.terms.map(() => 0);
    modes.forEach(({ supplier }, i) => (all[supplier] = multipliers[i] ?? 0));
    return all;
  }

  /** The best cover of every item by itself. */
  private cover(pricing: Pricing): {
    readonly price: number;
    readonly prices: readonly number[];
    readonly cover: Cover;
  } {
    const goods = this.terms.map(() => 0);
    const prices: number[] = [];
    const bags = this.items.map((item) => {
      this.steps += item.coverSteps;
      const best = item.best(pricing);
      prices.push(best.price);
      best.bags.forEach((count, index) => {
        const offer = item.wanted.offers[index];
        if (count > 0 && offer) goods[offer.supplier] = (goods[offer.supplier] ?? 0) + count * offer.price;
      });
      return best.bags;
    });
    return { price: prices.reduce((sum, price) => sum + price, 0), prices, cover: { bags, goods } };
  }

  private topUp(supplier: number, amount: number): TopUp {
    let topUps = this.topUps.get(supplier);
    if (topUps === undefined) {
      topUps = new TopUps(this.offersOf(supplier).map(({ offer }) => offer.price));
      this.topUps.set(supplier, topUps);
    }
    return topUps.reach(amount);
  }

  private offersOf(
    supplier: number,
  ): readonly { readonly item: number; readonly index: number; readonly offer: Offer }[] {
    return this.wanted.flatMap(({ offers }, item) =>
      offers.flatMap((offer, index) => (offer.supplier === supplier ? [{ item, index, offer }] : [])),
    );
  }

  /** What a supplier's goods are filled up to, and its delivery charge, in the cheaper of its modes. */
  private filled(supplier: number, spent: number): { readonly topUp: TopUp; readonly charge: number } {
    let best = { topUp: NO_TOP_UP, charge: Infinity };
    for (const { floor, charge } of this.modes[supplier] ?? []) {
      const topUp = this.topUp(supplier, floor - spent);
      if (topUp.sum + charge < best.topUp.sum + best.charge) best = { topUp, charge };
    }
    return best;
  }

  /** Price of goods with the top-ups and charges that they need. */
  private priceOf(goods: readonly number[]): number {
    let price = 0;
    for (const spent of goods) price += spent;
    for (const supplier of this.fussy) {
      const spent = goods[supplier] ?? 0;
      if (spent === 0) continue;
      const { topUp, charge } = this.filled(supplier, spent);
      price += topUp.sum + charge;
    }
    return price;
  }

  /** Takes a cover into the contest, filled up to the cheaper mode of each supplier it buys from. */
  private enter(cover: Cover): void {
    const price = this.priceOf(cover.goods);
    if (price >= this.bestPrice) return;
    this.untopped = cover;
    const goods = [...cover.goods];
    const charges = this.terms.map(() => 0);
    const bags = cover.bags.map((row) => [...row]);
    for (const supplier of this.fussy) {
      const spent = goods[supplier] ?? 0;
      if (spent === 0) continue;
      const { topUp, charge } = this.filled(supplier, spent);
      goods[supplier] = spent + topUp.sum;
      charges[supplier] = charge;
      const offers = this.offersOf(supplier);
      for (const [priceEach, count] of topUp.counts) {
        const place = offers.find(({ offer }) => offer.price === priceEach);
        const row = place && bags[place.item];
        if (row) row[place.index] = (row[place.index] ?? 0) + count;
      }
    }
    this.best = { bags, goods, charges, price };
  }

  /** Looks at one set of suppliers: its separate covers, then every way to take its suppliers. */
  private openSet({ open }: SupplierSet): void {
    const looks: Look[] = [];
    const work: SetWork = { open, looks };
    const suppliers = this.fussy.filter((supplier) => open[supplier]);
    // Each look bounds every way from below; suppliers not decided on take their cheapest way.
    const boundOf = (modes: readonly Mode[]): number => {
      const charges = modes.reduce((sum, mode) => sum + mode.charge, 0);
      const undecided = suppliers.slice(modes.length).map((supplier) => this.modes[supplier] ?? []);
      const bounds = looks.map(({ multipliers, price }) => {
        const paid = (mode: Mode): number => (multipliers[mode.supplier] ?? 0) * mode.floor;
        const decided = modes.reduce((sum, mode) => sum + paid(mode), price + charges);
        return undecided.reduce(
          (sum, ways) => sum + Math.min(...ways.map((mode) => paid(mode) + mode.charge)),
          decided,
        );
      });
      return Math.max(...bounds);
    };
    // Multipliers that served before dismiss most sets at one look.
    if (suppliers.some((supplier) => (this.warm[supplier] ?? 0) > 0)) {
      this.look(work, [...this.warm]);
      if (this.onGrid(boundOf([])) >= this.bestPrice) return;
    }
    const plain = this.look(
      work,
      this.terms.map(() => 0),
    );
    const extend = (modes: readonly Mode[]): void => {
      const supplier = suppliers[modes.length];
      if (supplier === undefined) {
        // Where the separate covers reach every floor they are the best plan of these modes, and `enter` has seen it.
        const isMissed = modes.some((mode) => (plain.cover.goods[mode.supplier] ?? 0) < mode.floor);
        if (isMissed) this.openModes(work, modes);
        return;
      }
      for (const mode of this.modes[supplier] ?? []) {
        const next = [...modes, mode];
        this.push(boundOf(next), () => {
          extend(next);
        });
      }
    };
    this.push(boundOf([]), () => {
      extend([]);
    });
  }

  /** Looks at the items of a set under multipliers, one per supplier, and keeps what was seen. */
  private look(work: SetWork, multipliers: readonly number[]): Look {
    const known = work.looks.find((look) => look.multipliers.every((part, i) => part === multipliers[i]));
    if (known) return known;
    const seen = this.cover(this.reduced(work.open, multipliers));
    this.enter(seen.cover);
    const look = { multipliers, ...seen };
    work.looks.push(look);
    return look;
  }

  /**
   * Looks at one way to take the suppliers. Only floors that bind are watched at first, since every watched supplier
   * multiplies the states; where a plan misses another floor, that one is watched too.
   */
  private openModes(
    work: SetWork,
    modes: readonly Mode[],
    watched: readonly Mode[] = modes.filter((mode) => mode.floor > 0),
    isChosen = false,
  ): void {
    const charges = modes.reduce((sum, mode) => sum + mode.charge, 0);
    const ascent = this.ascend(work, watched, charges);
    const bound = ascent.value + charges;
    const binding = watched.filter((_, i) => (ascent.multipliers[i] ?? 0) > BINDING);
    if (!isChosen && binding.length > 0 && binding.length < watched.length) {
      this.push(bound, () => {
        this.openModes(work, modes, binding, true);
      });
      return;
    }
    const pairing: Pairing = { isPossible: true, isServing: false, lift: 0 };
    const explore = (slack: number): void => {
      for (const width of WIDTHS) {
        if (this.bestPrice <= this.onGrid(bound)) return;
        // What lies at or above the best plan need not be told apart.
        const explored = Math.max(0, Math.min(slack, this.bestPrice - this.grid - bound));
        const goOn = (wider: number): void => {
          this.push(bound + explored + this.grid, () => {
            explore(wider);
          });
        };
        const outcome = pairing.isServing
          ? "cut"
          : this.explore(work, modes, watched, ascent, explored, width);
        if (outcome === "seen") {
          goOn(4 * slack + this.grid);
          return;
        }
        if (outcome !== "cut") {
          this.push(bound, () => {
            this.openModes(work, modes, [...watched, ...outcome], true);
          });
          return;
        }
        if (pairing.isPossible) {
          pairing.isServing = this.pair(work, modes, watched, ascent, explored, pairing);
          if (pairing.isServing) {
            goOn(PAIRED_GROWTH * slack + this.grid);
            return;
          }
        }
      }
      this.bound = Math.min(this.bound, this.onGrid(bound + pairing.lift));
    };
    this.push(bound, () => {
      this.balance(work, watched, ascent, bound);
      if (this.isFar(bound)) this.swap(this.waysSeen(work));
      explore(Math.max(this.onGrid(bound) - bound, bound * FIRST_SLACK));
    });
  }

  /**
   * Finds the best plan whose price is within `slack` of the bound as a pair of halves of the items. Where there is none,
   * one that lies further off is looked for.
   *
   * @param pairing what was seen before, written on
   * @returns true where no plan within the slack is better than the best
   */
  private pair(
    work: SetWork,
    modes: readonly Mode[],
    watched: readonly Mode[],
    ascent: Ascent,
    slack: number,
    pairing: Pairing,
  ): boolean {
    const floored = modes.filter((mode) => mode.floor > 0);
    const rates = floored.map((mode) => ascent.multipliers[watched.indexOf(mode)] ?? 0);
    const reduced = this.reduced(work.open, this.spread(floored, rates));
    // Where the multiplier is 1 a top-up makes all spending alike: what is spent there is left open, and the best that
    // is found is a bound of its own.
    const tied = floored.flatMap((mode, i) => {
      const rate = rates[i] ?? 0;
      return rate < 1 - BINDING ? [{ ...mode, rate }] : [];
    });
    const isRelaxed = tied.length < floored.length;
    const placeOf = (supplier: number): number => tied.findIndex((mode) => mode.supplier === supplier);
    const bound = ascent.value + modes.reduce((sum, mode) => sum + mode.charge, 0);
    const dust = 1e-9 * Math.abs(bound) + 1e-6;
    let left = MOST_WAY_STEPS;
    const step = (): boolean => {
      this.steps += OPTION_STEPS;
      left -= 1;
      return left >= 0 && this.steps <= this.mostSteps;
    };
    const options: (readonly CoverOption[])[] = [];
    pairing.isPossible = false;
    for (const covers of this.items) {
      if (covers.isLarge) return false;
      const ways = covers.options(reduced, placeOf, tied.length, slack + dust, step);
      if (ways === undefined) return false;
      const item = options.length;
      options.push(
        isRelaxed ? this.withCurrent(ways, item, reduced, tied) : this.undominated(ways, tied, step),
      );
    }
    const search = new NearBestSearch(
      options,
      tied.map(({ supplier, floor, rate }) => ({
        floor,
        rate,
        leastTopUp: this.topUp(supplier, 1).sum,
        topUp: (amount) => this.topUp(supplier, amount).sum,
      })),
    );
    let least = Infinity;
    const look = (excess: number, most: number, steps: number): boolean => {
      const before = search.steps;
      const { found, isCut } = search.run({
        excess: excess + dust,
        most: most + dust,
        step: this.grid,
        steps: Math.min(steps, (this.mostSteps - this.steps) / PAIR_STEPS),
      });
      this.steps += (search.steps - before) * PAIR_STEPS;
      least = found?.cost ?? Infinity;
      if (found) {
        let chain: ItemChain | undefined;
        for (const [item, way] of found.ways.entries()) {
          chain = { item, bags: options[item]?.[way]?.chain, before: chain };
        }
        this.enter(this.coverOf(chain));
      }
      return !isCut;
    };
    const swapAll = (): void => {
      const seen = this.waysSeen(work);
      this.swap(
        options.map((ways, item) => [
          ...(seen[item] ?? []),
          ...ways.map(({ chain }) => this.bagsOf(item, chain)),
        ]),
      );
    };
    const gap = (): number => this.bestPrice - this.grid - bound;
    const isSure = floored.every(({ supplier }) => this.topUps.get(supplier)?.isExact !== false);
    let isNear = true;
    for (
      let part = Math.max(slack / FIRST_PARTS, pairing.lift);
      ;
      part = Math.min(slack, part * PAIRED_GROWTH)
    ) {
      if (!look(part, Math.min(part, gap()), Infinity)) break;
      pairing.isPossible = true;
      if (isRelaxed && least < Infinity) {
        if (isSure) pairing.lift = least;
        if (this.bestPrice > this.onGrid(bound + least)) swapAll();
        pairing.isPossible = isSure && this.bestPrice <= this.onGrid(bound + least);
        return pairing.isPossible;
      }
      if (isSure) pairing.lift = part;
      if (part >= slack || gap() <= part) return isSure;
      // A good plan further off limits what is left to prove.
      isNear &&= look(part, gap(), NEAR_PAIRS);
    }
    if (!pairing.isPossible) swapAll();
    return false;
  }

  /** Lagrange multipliers in 0..1 on what must be spent, and the bound they give. */
  private ascend(work: SetWork, watched: readonly Mode[], charges: number): Ascent {
    const seen: Glance[] = [];
    const { point, value } = maximiseConcave(
      watched.length,
      (multipliers) => {
        const { price, prices, cover } = this.look(work, this.spread(watched, multipliers));
        const value = watched.reduce((sum, { floor }, i) => sum + (multipliers[i] ?? 0) * floor, price);
        seen.push({ multipliers, value, prices });
        return {
          value,
          slope: watched.map(({ supplier, floor }) => floor - (cover.goods[supplier] ?? 0)),
        };
      },
      this.grid / 2,
      (best) => seen.length < MOST_POINTS && this.steps <= this.mostSteps && best + charges < this.bestPrice,
      watched.map(({ supplier }) => this.warm[supplier] ?? 0),
    );
    watched.forEach(({ supplier }, i) => (this.warm[supplier] = point[i] ?? 0));
    return { multipliers: point, value, seen };
  }

  /**
   * Looks for a plan where the multipliers leave it open how much is spent at one supplier and how much at another: a
   * supplier's prices are raised where more than its floor is spent and lowered where less is, in steps that shrink with
   * every turn.
   */
  private balance(work: SetWork, watched: readonly Mode[], ascent: Ascent, bound: number): void {
    const factors = ascent.multipliers.map((multiplier) => Math.max(LEAST_FACTOR, 1 - multiplier));
    const steps = factors.map(() => 1);
    const signs = factors.map(() => 0);
    for (let round = 0; round < BALANCE_ROUNDS && this.isFar(bound); round += 1) {
      const multipliers = factors.map((factor) => 1 - factor);
      const { cover } = this.look(work, this.spread(watched, multipliers));
      for (const [i, { supplier, floor }] of watched.entries()) {
        // A top-up hits a floor best from some way below, and costs nothing extra where the multiplier is 1.
        const aim = (ascent.multipliers[i] ?? 0) < 1 ? floor : floor * BALANCE_AIM;
        const sign = Math.sign((cover.goods[supplier] ?? 0) - aim);
        const step = (steps[i] ?? 0) * (sign * (signs[i] ?? 0) < 0 ? 0.5 : 1.2);
        steps[i] = Math.min(1, Math.max(LEAST_BALANCE_STEP, step));
        factors[i] = Math.min(1, (factors[i] ?? 1) * Math.exp(sign * (steps[i] ?? 0)));
        signs[i] = sign;
      }
    }
  }

  /** True where the best plan is worth bettering before anything is proved. */
  private isFar(bound: number): boolean {
    return this.bestPrice - bound > FAR * bound && this.steps <= this.mostSteps;
  }

  /** Ways of an item, the one of the best plan instead of one that is as cheap and spends the same where it counts. */
  private withCurrent(
    ways: readonly CoverOption[],
    item: number,
    reduced: Pricing,
    tied: readonly Mode[],
  ): readonly CoverOption[] {
    const offers = this.wanted[item]?.offers ?? [];
    const costOf = (bags: readonly number[]): number =>
      offers.reduce((sum, offer, i) => sum + (bags[i] ? bags[i] * reduced(offer) : 0), 0);
    const now = this.untopped.bags[item] ?? [];
    const cost = costOf(now);
    const goods = this.goodsOf(item, now);
    return ways.map((way) => {
      const isAlike =
        Math.abs(cost - costOf(this.bagsOf(item, way.chain))) < BINDING * cost + BINDING &&
        tied.every(({ supplier }, place) => way.spent[place] === goods[supplier]);
      if (!isAlike) return way;
      let chain: BagChain | undefined;
      for (const [offer, count] of now.entries()) {
        if (count > 0) chain = { offer, bags: count, before: chain };
      }
      return { ...way, chain };
    });
  }

  /** Covers of every item that looks at a set have shown. */
  private waysSeen(work: SetWork): readonly (readonly (readonly number[])[])[] {
    return this.items.map((_, item) => {
      const seen = new Map<string, readonly number[]>();
      for (const { cover } of work.looks) {
        const bags = cover.bags[item] ?? [];
        seen.set(bags.join(" "), bags);
      }
      return [...seen.values()];
    });
  }

  /** Betters the best plan by covering an item, or two at once, in another way: bags per item, way and offer. */
  private swap(ways: readonly (readonly (readonly number[])[])[]): void {
    const others = ways.map((all, item) => all.map((bags) => ({ bags, goods: this.goodsOf(item, bags) })));
    const last = Math.min(this.mostSteps, this.steps + MOST_SWAPS * SWAP_STEPS);
    for (let before = Infinity; this.bestPrice < before && this.steps < last;) {
      before = this.bestPrice;
      const { bags, goods } = this.untopped;
      const moves: Move[] = others.flatMap((all, item) => {
        const now = this.goodsOf(item, bags[item] ?? []);
        return all
          .map((other) => ({
            item,
            bags: other.bags,
            shift: other.goods.map((sum, i) => sum - (now[i] ?? 0)),
          }))
          .filter(({ shift }) => shift.some((sum) => sum !== 0));
      });
      const isBetter = (made: readonly Move[]): boolean => {
        this.steps += SWAP_STEPS;
        const sums = goods.map((sum, i) => made.reduce((total, { shift }) => total + (shift[i] ?? 0), sum));
        if (this.priceOf(sums) >= this.bestPrice) return false;
        const rows = [...bags];
        for (const move of made) rows[move.item] = move.bags;
        this.enter({ bags: rows, goods: sums });
        return true;
      };
      if (moves.filter((move) => isBetter([move])).length > 0) continue;
      pairs: for (const [at, one] of moves.entries()) {
        for (const other of moves.slice(at + 1)) {
          if (this.steps >= last || (other.item !== one.item && isBetter([one, other]))) break pairs;
        }
      }
    }
  }

  /**
   * Finds the best plan whose price is within `slack` of the bound, item by item; a state is what has been spent so far at
   * each watched supplier, up to its floor.
   *
   * @param width most states that are followed
   * @returns `seen` where no plan within the slack can be better than the best, `cut` where states were dropped or the
   * steps ran out, or the floors that the best plan of the watched ones misses
   */
  private explore(
    work: SetWork,
    modes: readonly Mode[],
    watched: readonly Mode[],
    ascent: Ascent,
    slack: number,
    width: number,
  ): "seen" | "cut" | readonly Mode[] {
    const charges = modes.reduce((sum, mode) => sum + mode.charge, 0);
    const limit = ascent.value + slack;
    const dust = 1e-9 * Math.abs(limit) + 1e-6;
    const placeOf = (supplier: number): number => watched.findIndex((mode) => mode.supplier === supplier);
    const step = (): boolean => {
      this.steps += OPTION_STEPS;
      return this.steps <= this.mostSteps;
    };
    const choices: { readonly item: number; readonly options: readonly CoverOption[] }[] = [];
    const reduced = this.reduced(work.open, this.spread(watched, ascent.multipliers));
    for (const [item, covers] of this.items.entries()) {
      if (covers.isLarge) return "cut";
      const options = covers.options(reduced, placeOf, watched.length, slack + dust, step);
      if (options === undefined) return "cut";
      choices.push({ item, options: this.undominated(options, watched, step) });
    }
    choices.sort((a, b) => a.options.length - b.options.length);
    const gauges = this.gauges(ascent, choices);
    const places = watched.length;
    const floors = watched.map((mode) => mode.floor);
    const keyOf = keyMaker(floors, this.grid);
    const spent = watched.map(() => 0);
    const missing = watched.map(() => 0);
    const unreached = watched.map(() => 0);
    const reachable = this.reachable(choices, places);
    let isComplete = true;
    let states: readonly State[] = [{ spent: watched.map(() => 0), paid: 0, least: 0, chain: undefined }];
    for (const [at, { item, options }] of choices.entries()) {
      const next = new Map<number | string, State>();
      for (const state of states) {
        for (const option of options) {
          if (!step()) return "cut";
          const paid = state.paid + option.paid;
          for (let i = 0; i < places; i += 1) {
            const sum = Math.min((state.spent[i] ?? 0) + (option.spent[i] ?? 0), floors[i] ?? 0);
            spent[i] = sum;
            missing[i] = (floors[i] ?? 0) - sum;
            unreached[i] = Math.max(0, (missing[i] ?? 0) - (reachable[at + 1]?.[i] ?? 0));
          }
          let least = 0;
          for (const { multipliers, ahead } of gauges) {
            let bound = paid + (ahead[at + 1] ?? 0);
            for (let i = 0; i < places; i += 1) {
              const multiplier = multipliers[i] ?? 0;
              bound += multiplier * (missing[i] ?? 0) + (1 - multiplier) * (unreached[i] ?? 0);
            }
            if (bound > least) least = bound;
            if (bound > limit + dust) break;
          }
          if (least > limit + dust) continue;
          const key = keyOf(spent);
          if (paid >= (next.get(key)?.paid ?? Infinity)) continue;
          const chain = { item, bags: option.chain, before: state.chain };
          next.set(key, { spent: [...spent], paid, least, chain });
        }
      }
      const kept = this.undominated([...next.values()], watched, step);
      isComplete &&= kept.length <= width;
      states = isComplete ? kept : this.promising(kept, width);
    }
    let cheapest: State | undefined;
    let least = this.bestPrice;
    for (const state of states) {
      const price = watched.reduce(
        (sum, { supplier, floor }, i) => sum + this.topUp(supplier, floor - (state.spent[i] ?? 0)).sum,
        state.paid + charges,
      );
      if (price < least) {
        least = price;
        cheapest = state;
      }
    }
    if (cheapest) {
      const cover = this.coverOf(cheapest.chain);
      this.enter(cover);
      const missed = modes.filter(
        (mode) => (cover.goods[mode.supplier] ?? 0) < mode.floor && !watched.includes(mode),
      );
      if (this.bestPrice > least && missed.length > 0) return missed;
    }
    const isSure = watched.every(({ supplier }) => this.topUps.get(supplier)?.isExact !== false);
    return isComplete && isSure ? "seen" : "cut";
  }

  /**
   * Without entries that another can be made into by a top-up for no more money, as far as a short look shows: the cheapest
   * entries and the latest are the ones that oust most.
   */
  private undominated<Entry extends Pick<State, "spent" | "paid">>(
    entries: readonly Entry[],
    watched: readonly Mode[],
    step: () => boolean,
  ): readonly Entry[] {
    if (entries.length < 2) return entries;
    const ousts = (one: Entry, other: Entry): boolean => {
      let least = one.paid;
      for (const i of watched.keys()) least += Math.max(0, (other.spent[i] ?? 0) - (one.spent[i] ?? 0));
      if (least > other.paid) return false;
      const price = watched.reduce(
        (sum, { supplier }, i) => sum + this.topUp(supplier, (other.spent[i] ?? 0) - (one.spent[i] ?? 0)).sum,
        one.paid,
      );
      return price <= other.paid;
    };
    const kept: Entry[] = [];
    for (const entry of entries.toSorted((a, b) => a.paid - b.paid)) {
      if (!step()) return entries;
      const isOusted =
        kept.slice(0, LOOKS).some((other) => ousts(other, entry)) ||
        kept.slice(-LOOKS).some((other) => ousts(other, entry));
      if (!isOusted) kept.push(entry);
    }
    return kept;
  }

  private promising(states: readonly State[], width: number): readonly State[] {
    const least = (state: State): number => Math.round(state.least / this.grid);
    return states.toSorted((a, b) => least(a) - least(b) || a.paid - b.paid).slice(0, width);
  }

  /**
   * Multipliers by which states are judged: the best ones seen, and none at all. `ahead` is what the items from each place
   * on cost at least under them.
   */
  private gauges(
    ascent: Ascent,
    choices: readonly { readonly item: number }[],
  ): readonly { readonly multipliers: readonly number[]; readonly ahead: readonly number[] }[] {
    const byValue = ascent.seen.toSorted((a, b) => b.value - a.value);
    return [...byValue.slice(0, GAUGES), ...ascent.seen.slice(0, 1)].map(({ multipliers, prices }) => {
      const ahead = new Array<number>(choices.length + 1).fill(0);
      for (let at = choices.length - 1; at >= 0; at -= 1) {
        ahead[at] = (ahead[at + 1] ?? 0) + (prices[choices[at]?.item ?? 0] ?? 0);
      }
      return { multipliers, ahead };
    });
  }

  /** What the items from each place on can add at most to each watched supplier without a top-up. */
  private reachable(
    choices: readonly { readonly options: readonly CoverOption[] }[],
    places: number,
  ): readonly (readonly number[])[] {
    const sums = Array.from({ length: choices.length + 1 }, () => new Array<number>(places).fill(0));
    for (let at = choices.length - 1; at >= 0; at -= 1) {
      const options = choices[at]?.options ?? [];
      sums[at] = (sums[at + 1] ?? []).map(
        (sum, i) => sum + options.reduce((most, option) => Math.max(most, option.spent[i] ?? 0), 0),
      );
    }
    return sums;
  }

  /** Bags per offer of an item. */
  private bagsOf(item: number, chain: BagChain | undefined): readonly number[] {
    const bags = (this.wanted[item]?.offers ?? []).map(() => 0);
    for (let taken = chain; taken; taken = taken.before) {
      bags[taken.offer] = (bags[taken.offer] ?? 0) + taken.bags;
    }
    return bags;
  }

  /** What bags of an item cost at each supplier. */
  private goodsOf(item: number, bags: readonly number[]): readonly number[] {
    const goods = this.terms.map(() => 0);
    this.wanted[item]?.offers.forEach(({ supplier, price }, offer) => {
      goods[supplier] = (goods[supplier] ?? 0) + price * (bags[offer] ?? 0);
    });
    return goods;
  }

  /** The cover of a chain that takes in every item. */
  private coverOf(chain: ItemChain | undefined): Cover {
    const bags: (readonly number[])[] = this.wanted.map(() => []);
    for (let link = chain; link; link = link.before) bags[link.item] = this.bagsOf(link.item, link.bags);
    const goods = this.terms.map(() => 0);
    bags.forEach((row, item) => {
      this.goodsOf(item, row).forEach((sum, supplier) => (goods[supplier] = (goods[supplier] ?? 0) + sum));
    });
    return { bags, goods };
  }

  /** The best plan with fewest pieces left over and fewest bags per item, where that costs the same. */
  private tidied(): Plan {
    const { best } = this;
    if (best === undefined) return { bags: [], goods: [], charges: [], price: 0 };
    const goods = this.terms.map(() => 0);
    const bags = this.wanted.map(({ need, offers }) => {
      const row = offers.map(() => 0);
      const usable = offers.flatMap((offer, index) =>
        (best.goods[offer.supplier] ?? 0) > 0 ? [{ ...offer, index }] : [],
      );
      cheapestCover(need, usable).bags.forEach((count, place) => {
        const offer = usable[place];
        if (count === 0 || offer === undefined) return;
        row[offer.index] = count;
        goods[offer.supplier] = (goods[offer.supplier] ?? 0) + count * offer.price;
      });
      return row;
    });
    this.best = { ...best, price: best.price + 1 };
    this.enter({ bags, goods });
    return this.bestPrice <= best.price && this.best ? this.best : best;
  }
}

interface Ascent {
  readonly multipliers: readonly number[];
  /** The bound that they give, delivery apart. */
  readonly value: number;
  readonly seen: readonly Glance[];
}

/** A look as one way to take the suppliers sees it: multipliers of the watched ones and the bound they give. */
interface Glance {
  readonly multipliers: readonly number[];
  readonly value: number;
  readonly prices: readonly number[];
}

/** The items of a set under multipliers, one per supplier. */
interface Look {
  readonly multipliers: readonly number[];
  /** Sum of `prices`. */
  readonly price: number;
  /** Least price of every item. */
  readonly prices: readonly number[];
  readonly cover: Cover;
}

/** A set of suppliers being looked at. */
interface SetWork {
  readonly open: readonly boolean[];
  readonly looks: Look[];
}

/** What pairs have shown of one way to take the suppliers. */
interface Pairing {
  /** False where the items have too many ways. */
  isPossible: boolean;
  /** True where pairs settled the slack before. */
  isServing: boolean;
  /** How far above the bound the best plan lies at least. */
  lift: number;
}

/** Another way to cover an item than now, and what that adds at each supplier. */
interface Move {
  readonly item: number;
  readonly bags: readonly number[];
  readonly shift: readonly number[];
}

interface State {
  readonly spent: readonly number[];
  readonly paid: number;
  /** No plan from here is cheaper, delivery apart. */
  readonly least: number;
  readonly chain: ItemChain | undefined;
}

interface ItemChain {
  readonly item: number;
  readonly bags: BagChain | undefined;
  readonly before: ItemChain | undefined;
}

function modesOf({ charge, minimum, freeFrom }: SupplierTerms, supplier: number): readonly Mode[] {
  if (charge === 0) return [{ supplier, floor: minimum, charge: 0 }];
  const free = { supplier, floor: Math.max(minimum, freeFrom), charge: 0 };
  if (freeFrom <= minimum) return [free];
  const paid = { supplier, floor: minimum, charge };
  return freeFrom < Infinity ? [paid, free] : [paid];
}

/** Makes keys of what was spent: one number where that is exact, else a text. */
function keyMaker(floors: readonly number[], grid: number): (spent: readonly number[]) => number | string {
  const radixes = floors.map((floor) => Math.floor(floor / grid) + 2);
  const isNumber = radixes.reduce((product, radix) => product * radix, 1) < Number.MAX_SAFE_INTEGER;
  if (!isNumber) return (spent) => spent.join(" ");
  return (spent) => {
    let key = 0;
    // A sum at its floor need not lie on the grid, so it takes the place above all others.
    for (let i = 0; i < radixes.length; i += 1) {
      key = key * (radixes[i] ?? 1) + Math.ceil((spent[i] ?? 0) / grid);
    }
    return key;
  };
}
