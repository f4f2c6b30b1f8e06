import { overflow, unavailable } from "../calc-error";
import { safeSubcents } from "../numeric/cents";
import { greatestCommonDivisor } from "../numeric/divisors";

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
 * The cheapest bags that hold at least `count` pieces: least price, then least pieces, then fewest bags, then the earlier
 * bag. An unbounded covering knapsack by dynamic programming over what is still missing. Large counts are cut down first:
 * the bag with the lowest price per piece (the largest such) fills all but a rest, because any set of other bags that
 * contains a multiple of its size can be exchanged for it (Gilmore and Gomory, Operations Research 14 (1966) 1045).
 *
 * @param count pieces needed, whole
 * @param bags kinds of bag; pieces whole and above 0, prices 0 or more
 * @returns how many of each kind, their price and pieces
 * @throws `#N/A` without bags, `#NUM!` where the rest is beyond 4 million pieces or 1e8 steps, or the price beyond whole numbers
 */
export function cheapestCover(count: number, bags: readonly Bag[]): BagCover {
  const chosen = bags.map(() => 0);
  if (count <= 0) return { bags: chosen, price: 0, pieces: 0 };
  const kinds = undominated(bags);
  const base = bestValue(kinds, kinds[0] ?? NO_KIND);
  if (base === NO_KIND) throw unavailable("nobody sells this item");
  const rest = restAfter(count, base, kinds);
  const filled = (count - rest) / base.pieces;
  chosen[base.index] = filled;
  let price = filled * base.price;
  let pieces = filled * base.pieces;
  if (rest > LARGEST_REST || rest * kinds.length > MOST_STEPS)
    throw overflow("count and bag sizes together are too large");
  const last = lastBags(rest, kinds);
  for (let missing = rest; missing > 0;) {
    const kind = kinds[last[missing] ?? 0] ?? NO_KIND;
    chosen[kind.index] = (chosen[kind.index] ?? 0) + 1;
    price += kind.price;
    pieces += kind.pieces;
    missing -= kind.pieces;
  }
  return { bags: chosen, price: safeSubcents(price), pieces };
}

/**
 * Steps that `cheapestCover` takes.
 *
 * @param count pieces needed, whole
 * @param bags kinds of bag
 * @returns a count of elementary steps, 0 without bags
 */
export function coverSteps(count: number, bags: readonly Bag[]): number {
  const kinds = undominated(bags);
  const [first] = kinds;
  if (first === undefined || count <= 0) return 0;
  return restAfter(count, bestValue(kinds, first), kinds) * kinds.length;
}

interface Kind extends Bag {
  readonly index: number;
}

const NO_KIND: Kind = { pieces: 1, price: 0, index: -1 };

function bestValue(kinds: readonly Kind[], first: Kind): Kind {
  return kinds.reduce((best, kind) => (isBetterValue(kind, best) ? kind : best), first);
}

function isBetterValue(one: Bag, other: Bag): boolean {
  const difference = one.price * other.pieces - other.price * one.pieces;
  return difference < 0 || (difference === 0 && one.pieces > other.pieces);
}

/** Without bags that cost more than one that holds as much, largest first; of equal ones the earlier stays. */
function undominated(bags: readonly Bag[]): readonly Kind[] {
  const sorted = bags
    .map((bag, index): Kind => ({ pieces: bag.pieces, price: bag.price, index }))
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

/** What the best-value bag leaves to the others: at most what they can hold in a best cover plus one bag. */
function restAfter(count: number, base: Kind, kinds: readonly Kind[]): number {
  let others = 0;
  for (const kind of kinds) {
    if (kind === base) continue;
    const exchangeable = base.pieces / greatestCommonDivisor(base.pieces, kind.pieces) - 1;
    // A cover by base bags alone wastes less than one of them, so dearer pieces cannot waste more than its price.
    const waste = kind.price - (base.price * kind.pieces) / base.pieces;
    const affordable = waste > 0 ? Math.floor((base.price / waste) * (1 + 1e-9)) : Infinity;
    others += kind.pieces * Math.min(exchangeable, affordable);
  }
  const most = Math.min(others, (base.pieces - 1) * Math.max(0, ...kinds.map((kind) => kind.pieces)));
  return count - base.pieces * Math.max(0, Math.floor((count - most) / base.pieces));
}

/** For every number of pieces missing, up to `rest`, a bag of its best cover. */
function lastBags(rest: number, kinds: readonly Kind[]): Uint16Array {
  const price = new Float64Array(rest + 1);
  const pieces = new Float64Array(rest + 1);
  const bags = new Int32Array(rest + 1);
  const last = new Uint16Array(rest + 1);
  for (let missing = 1; missing <= rest; missing += 1) {
    let best = -1;
    let bestPrice = Infinity;
    let bestPieces = Infinity;
    let bestBags = Infinity;
    for (const [k, kind] of kinds.entries()) {
      const before = Math.max(0, missing - kind.pieces);
      const nextPrice = (price[before] ?? 0) + kind.price;
      const nextPieces = (pieces[before] ?? 0) + kind.pieces;
      const nextBags = (bags[before] ?? 0) + 1;
      const isBetter =
        nextPrice < bestPrice ||
        (nextPrice === bestPrice &&
          (nextPieces < bestPieces || (nextPieces === bestPieces && nextBags < bestBags)));
      if (!isBetter) continue;
      best = k;
      bestPrice = nextPrice;
      bestPieces = nextPieces;
      bestBags = nextBags;
    }
    price[missing] = bestPrice;
    pieces[missing] = bestPieces;
    bags[missing] = bestBags;
    last[missing] = best;
  }
  return last;
}
