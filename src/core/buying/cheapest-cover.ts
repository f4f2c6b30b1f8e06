import { overflow, unavailable } from "../calc-error";
import { safeSubcents } from "../numeric/cents";
import { greatestCommonDivisor } from "../numeric/divisors";
import { present } from "../numeric/entry-at";
import { coverByResidues, type SizedBag } from "./residue-cover";

/** A bag as the covering problem sees it: whole pieces and a price, whole or not. */
export interface Bag {
  readonly pieces: number;
  readonly price: number;
}

/** The cheapest cover of a count. */
export interface BagCover {
  readonly bags: readonly number[];
  readonly price: number;
  readonly pieces: number;
}

const MOST_STEPS = 1e8;
const LARGEST_REST = 4e6;

/**
 * The cheapest bags that hold at least `count` pieces: least price, then least pieces, then fewest bags, then the larger
 * bag, then the earlier. An unbounded covering knapsack: beyond what the bag of best value holds its solutions repeat with
 * that bag's size (`coverByResidues`), so that a large count takes no longer than a small one; else dynamic programming over
 * what is missing. Exact for any count with bags of up to 10,000 pieces.
 *
 * @param count pieces needed, whole
 * @param bags kinds of bag; pieces whole and above 0, prices 0 or more
 * @returns how many of each kind, their price and pieces
 * @throws `#N/A` without bags, `#NUM!` where the rest is beyond 4 million pieces or 1e8 steps, or the price beyond whole numbers
 */
export function cheapestCover(count: number, bags: readonly Bag[]): BagCover {
  const chosen = bags.map(() => 0);
  if (count <= 0) return { bags: chosen, price: 0, pieces: 0 };
  const sizes = sizesOf(count, bags);
  const counts = repeatingCover(sizes) ?? coverOfRest(sizes);
  let price = 0;
  let pieces = 0;
  sizes.kinds.forEach((kind, k) => {
    const taken = present(counts[k]);
    chosen[kind.index] = taken;
    price += taken * kind.price;
    pieces += taken * kind.pieces;
  });
  return { bags: chosen, price: safeSubcents(price), pieces };
}

/**
 * Steps that `cheapestCover` takes, in all but a few odd cases.
 *
 * @param count pieces needed, whole
 * @param bags kinds of bag
 * @returns a count of elementary steps, 0 without bags
 */
export function coverSteps(count: number, bags: readonly Bag[]): number {
  if (count <= 0 || bags.length === 0) return 0;
  const { kinds, base, need } = sizesOf(count, bags);
  return Math.min(need, 2 * base.units) * kinds.length;
}

interface Kind extends Bag, SizedBag {
  readonly index: number;
}

/** A covering problem in the largest unit that all bags are whole in. */
interface Sizes {
  readonly need: number;
  /** Bags that can be in a best cover, largest first. */
  readonly kinds: readonly Kind[];
  /** The bag with the lowest price a piece, the largest such. */
  readonly base: Kind;
}

function sizesOf(count: number, bags: readonly Bag[]): Sizes {
  const unit = bags.reduce((divisor, { pieces }) => greatestCommonDivisor(divisor, pieces), 0);
  const kinds = undominated(bags, unit);
  const [first] = kinds;
  if (first === undefined) throw unavailable("nobody sells this item");
  const base = kinds.reduce((best, kind) => (isBetterValue(kind, best) ? kind : best), first);
  return { need: Math.ceil(count / unit), kinds, base };
}

function isBetterValue(one: Bag, other: Bag): boolean {
  const difference = one.price * other.pieces - other.price * one.pieces;
  return difference < 0 || (difference === 0 && one.pieces > other.pieces);
}

/** Without bags that cost more than one that holds as much, largest first; of equal ones the earlier stays. */
function undominated(bags: readonly Bag[], unit: number): readonly Kind[] {
  const sorted = bags
    .map(({ pieces, price }, index): Kind => ({ pieces, price, units: pieces / unit, index }))
    .sort((a, b) => b.pieces - a.pieces || a.price - b.price || a.index - b.index);
  const kept: Kind[] = [];
  let least = Infinity;
  for (const kind of sorted) {
    if (kind.price > least || kept.at(-1)?.pieces === kind.pieces) continue;
    kept.push(kind);
    least = kind.price;
  }
  return kept;
}

/** The cover of a need above the base bag, where numbers are exact and the other bags fit into it. */
function repeatingCover({ need, kinds, base }: Sizes): readonly number[] | undefined {
  const largest = Math.max(...kinds.map(({ units }) => units)) * Math.max(...kinds.map(({ price }) => price));
  if (need <= base.units || 2 * largest > Number.MAX_SAFE_INTEGER) return undefined;
  return coverByResidues(need, kinds, kinds.indexOf(base));
}

/** The cover by dynamic programming over what is missing, after base bags that are in every best cover. */
function coverOfRest({ need, kinds, base }: Sizes): readonly number[] {
  const rest = restAfter(need, base, kinds);
  if (rest > LARGEST_REST || rest * kinds.length > MOST_STEPS)
    throw overflow("count and bag sizes together are too large");
  const counts = kinds.map((kind) => (kind === base ? (need - rest) / base.units : 0));
  const last = lastBags(rest, kinds);
  for (let missing = rest; missing > 0;) {
    const kind = present(last[missing]);
    counts[kind] = present(counts[kind]) + 1;
    missing -= present(kinds[kind]).units;
  }
  return counts;
}

/**
 * What the base bag leaves to the others: at most what they can hold in a best cover plus one bag, because any set of other
 * bags that contains a multiple of its size can be exchanged for it.
 */
function restAfter(need: number, base: Kind, kinds: readonly Kind[]): number {
  let others = 0;
  for (const kind of kinds) {
    if (kind === base) continue;
    const exchangeable = base.units / greatestCommonDivisor(base.units, kind.units) - 1;
    // A cover by base bags alone wastes less than one of them, so dearer pieces cannot waste more than its price.
    const waste = kind.price - (base.price * kind.units) / base.units;
    const affordable = waste > 0 ? Math.floor((base.price / waste) * (1 + 1e-9)) : Infinity;
    others += kind.units * Math.min(exchangeable, affordable);
  }
  const most = Math.min(others, (base.units - 1) * Math.max(0, ...kinds.map((kind) => kind.units)));
  return need - base.units * Math.max(0, Math.floor((need - most) / base.units));
}

/** For every number of units missing, up to `rest`, a bag of its best cover. */
function lastBags(rest: number, kinds: readonly Kind[]): Uint16Array {
  const price = new Float64Array(rest + 1);
  const units = new Float64Array(rest + 1);
  const bags = new Int32Array(rest + 1);
  const last = new Uint16Array(rest + 1);
  const sizes = kinds.map((kind) => kind.units);
  const prices = kinds.map((kind) => kind.price);
  for (let missing = 1; missing <= rest; missing += 1) {
    let best = 0;
    let bestPrice = Infinity;
    let bestUnits = Infinity;
    let bestBags = Infinity;
    for (let k = 0; k < sizes.length; k += 1) {
      const size = present(sizes[k]);
      const before = missing > size ? missing - size : 0;
      const nextPrice = present(price[before]) + present(prices[k]);
      if (nextPrice > bestPrice) continue;
      const nextUnits = present(units[before]) + size;
      const nextBags = present(bags[before]) + 1;
      const isBetter =
        nextPrice < bestPrice || nextUnits < bestUnits || (nextUnits === bestUnits && nextBags < bestBags);
      if (!isBetter) continue;
      best = k;
      bestPrice = nextPrice;
      bestUnits = nextUnits;
      bestBags = nextBags;
    }
    price[missing] = bestPrice;
    units[missing] = bestUnits;
    bags[missing] = bestBags;
    last[missing] = best;
  }
  return last;
}
