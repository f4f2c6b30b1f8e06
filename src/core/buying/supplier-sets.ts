import { present } from "../numeric/entry-at";
import type { Incumbent } from "./incumbent";
import type { ItemCovers } from "./item-covers";
import type { PurchaseProblem } from "./purchase-problem";

/** A set of suppliers that sells everything. */
export interface SupplierSet {
  /** Per supplier, whether it may be bought from. */
  readonly open: readonly boolean[];
  /** No plan that buys from all constrained suppliers of the set is cheaper, subcents. */
  readonly least: number;
  /** A guess at the price, thresholds included. */
  readonly likely: number;
}

/** Sets of suppliers to search. */
export interface SupplierSets {
  readonly sets: readonly SupplierSet[];
  /** Suppliers that may be left out. */
  readonly optional: readonly number[];
  /** No plan of any set that was left out is cheaper; Infinity where none was. */
  readonly bound: number;
}

/** Suppliers that may be left out and are combined in every way. */
const MOST_OPTIONAL = 12;
/** Steps for tables over sets of suppliers. */
const MOST_TABLE_STEPS = 1e9;
const MOST_STARTS = 2;
const MOST_ROUNDS = 4;

/**
 * The sets of suppliers that sell everything, each bounded from below by its items covered separately. Of more suppliers
 * that may be left out than can be combined the least useful ones are closed, and a bound for what that gives up is stated.
 *
 * @param problem what is bought
 * @returns the sets
 */
export function supplierSets(problem: PurchaseProblem): SupplierSets {
  const open = problem.terms.map(() => true);
  let optional = dispensable(problem, open);
  let bound = Infinity;
  if (isTooMuch(problem, optional)) {
    const mandatory = open.map((_, supplier) => !optional.includes(supplier));
    bound = boundedSet(problem, mandatory, problem.cover(problem.pricing(open)).price).least;
  }
  while (isTooMuch(problem, optional)) {
    const { goods } = problem.cover(problem.pricing(open)).cover;
    const value = (supplier: number): number =>
      present(goods[supplier]) - present(problem.terms[supplier]).charge;
    open[optional.reduce((a, b) => (value(b) < value(a) ? b : a))] = false;
    optional = dispensable(problem, open);
  }
  const openTo = (mask: number): boolean[] =>
    open.map((isOpen, supplier) => {
      const bit = optional.indexOf(supplier);
      return isOpen && (bit < 0 || ((mask >> bit) & 1) === 1);
    });
  const prices = pricesBySet(problem, open, optional);
  const sets = [...prices].flatMap((price, mask) =>
    price < Infinity ? [boundedSet(problem, openTo(mask), price)] : [],
  );
  return { sets, optional, bound };
}

/** Constrained suppliers that no item needs. */
function dispensable({ wanted, constrained }: PurchaseProblem, open: readonly boolean[]): readonly number[] {
  const sole = new Set(
    wanted.flatMap(({ offers }) => {
      const sellers = new Set(offers.map((offer) => offer.supplier).filter((supplier) => open[supplier]));
      return sellers.size === 1 ? [...sellers] : [];
    }),
  );
  return constrained.filter((supplier) => open[supplier] && !sole.has(supplier));
}

function isTooMuch({ items }: PurchaseProblem, optional: readonly number[]): boolean {
  if (optional.length > MOST_OPTIONAL) return true;
  const steps = items.reduce((sum, item) => sum + item.tableSteps(sellersOf(item, optional).length), 0);
  return optional.length > 0 && steps > MOST_TABLE_STEPS;
}

function sellersOf({ wanted }: ItemCovers, suppliers: readonly number[]): readonly number[] {
  return suppliers.filter((supplier) => wanted.offers.some((offer) => offer.supplier === supplier));
}

/** Price of the goods for every set of optional suppliers, by bit mask; Infinity where a set does not sell everything. */
function pricesBySet(
  { items }: PurchaseProblem,
  open: readonly boolean[],
  optional: readonly number[],
): Float64Array {
  const prices = new Float64Array(2 ** optional.length);
  for (const item of items) {
    const sellers = sellersOf(item, optional);
    const table = item.priceBySet(sellers, (supplier) => open[supplier] === true);
    const bits = sellers.map((supplier) => optional.indexOf(supplier));
    for (let mask = 0; mask < prices.length; mask += 1) {
      let place = 0;
      for (let i = 0; i < bits.length; i += 1) place |= ((mask >> present(bits[i])) & 1) << i;
      prices[mask] = present(prices[mask]) + present(table[place]);
    }
  }
  return prices;
}

function boundedSet(problem: PurchaseProblem, open: readonly boolean[], price: number): SupplierSet {
  const share = price / Math.max(1, open.filter(Boolean).length);
  let least = price;
  let thresholds = 0;
  let likely = price;
  for (const supplier of problem.constrained.filter((one) => open[one])) {
    const own = problem.intervalsOf(supplier);
    least += Math.min(...own.map(({ charge }) => charge));
    thresholds += Math.min(...own.map(({ threshold, charge }) => threshold + charge));
    likely += Math.min(...own.map(({ threshold, charge }) => Math.max(0, threshold - share) + charge));
  }
  return { open, least: Math.max(least, thresholds), likely };
}

/**
 * Finds good plans to measure others by: from the likeliest sets on, one supplier more or less as long as that helps.
 * Source: the add and drop heuristics of Kuehn and Hamburger, Management Science 9 (1963) 643, from memory.
 *
 * @param problem what is bought
 * @param incumbent takes the plans
 * @param sets the sets
 */
export function addAndDrop(
  problem: PurchaseProblem,
  incumbent: Incumbent,
  { sets, optional }: SupplierSets,
): void {
  const name = (open: readonly boolean[]): string => open.map(Number).join("");
  const byName = new Map(sets.map((set) => [name(set.open), set]));
  const seen = new Set<SupplierSet>();
  let from: SupplierSet | undefined;
  const visit = (set: SupplierSet | undefined): void => {
    if (set === undefined || seen.has(set) || set.least >= incumbent.price) return;
    seen.add(set);
    const before = incumbent.price;
    incumbent.propose(problem.cover(problem.pricing(set.open)).cover);
    if (incumbent.price < before) from = set;
  };
  for (const set of sets.toSorted((a, b) => a.likely - b.likely).slice(0, MOST_STARTS)) visit(set);
  for (let round = 0; from && round < MOST_ROUNDS; round += 1) {
    const { open }: SupplierSet = from;
    from = undefined;
    for (const supplier of problem.constrained.filter((one) => optional.includes(one)))
      visit(byName.get(name(open.with(supplier, !open[supplier]))));
  }
}
