import { greatestCommonDivisor } from "../numeric/divisors";
import { entryAt, present } from "../numeric/entry-at";

/** A kind of bag, its size in whole units. */
export interface SizedBag {
  readonly units: number;
  readonly price: number;
}

/** Bags of one kind more, then those taken before. */
interface Chain {
  readonly kind: number;
  readonly before: Chain | undefined;
}

/**
 * The cheapest cover of a need that is large against its bags: the bag of best value fills all but a rest, and what the other
 * bags cost above its value matters only by the residue of their units modulo its size. That is a shortest path over
 * residues, found kind by kind, each going round every cycle of residues twice.
 * Source: asymptotic (group) knapsack, Gilmore and Gomory, Operations Research 14 (1966) 1045, and Gomory, PNAS 53 (1965)
 * 260; going round as Boecker and Liptak, Algorithmica 48 (2007) 413.
 *
 * Ties as `cheapestCover`: fewest units, fewest bags, then the larger bags.
 *
 * @param need units, whole, above 0
 * @param kinds bags, largest first, none as cheap as one that holds more of the same value
 * @param base number of the bag with the least price a unit, the largest such
 * @returns bags of each kind, or undefined where the other bags alone would hold more than the need, so that a shortest path
 * is no cover
 */
export function coverByResidues(
  need: number,
  kinds: readonly SizedBag[],
  base: number,
): readonly number[] | undefined {
  const { units: modulus, price: basePrice } = entryAt(kinds, base);
  const alone = (modulus - (need % modulus)) % modulus;
  // Everything below is in prices times the modulus, so that whole prices stay whole.
  const paths = new ResiduePaths(modulus, basePrice * alone);
  for (let kind = kinds.length - 1; kind >= 0; kind -= 1) {
    const { units, price } = present(kinds[kind]);
    if (kind !== base) paths.admit(kind, units, Math.max(0, price * modulus - basePrice * units));
  }
  let best = Infinity;
  let over = 0;
  for (let more = 0; more <= alone; more += 1) {
    const cost = basePrice * more + paths.wasteOf((need + more) % modulus);
    if (cost >= best) continue;
    best = cost;
    over = more;
  }
  const counts = kinds.map(() => 0);
  let rest = need + over;
  for (let chain = paths.chainOf(rest % modulus); chain; chain = chain.before) {
    counts[chain.kind] = present(counts[chain.kind]) + 1;
    rest -= present(kinds[chain.kind]).units;
  }
  if (rest < 0) return undefined;
  counts[base] = rest / modulus;
  return counts;
}

/** The cheapest bags beside the base bag for every residue of their units. */
class ResiduePaths {
  private readonly waste: Float64Array;
  /** Bags taken less the base bags that they replace, times the modulus. */
  private readonly bags: Float64Array;
  /** Units in bags smaller than the base bag. */
  private readonly smallUnits: Float64Array;
  private readonly chains: (Chain | undefined)[];

  /** @param most waste above which base bags alone are cheaper */
  constructor(
    private readonly modulus: number,
    private readonly most: number,
  ) {
    this.waste = new Float64Array(modulus).fill(Infinity);
    this.waste[0] = 0;
    this.bags = new Float64Array(modulus);
    this.smallUnits = new Float64Array(modulus);
    this.chains = new Array<Chain | undefined>(modulus).fill(undefined);
  }

  wasteOf(residue: number): number {
    return present(this.waste[residue]);
  }

  chainOf(residue: number): Chain | undefined {
    return this.chains[residue];
  }

  /** Takes in a kind; kinds come from the smallest to the largest. */
  admit(kind: number, units: number, wasteEach: number): void {
    const { modulus, most, waste, bags, smallUnits, chains } = this;
    const shift = units % modulus;
    if (shift === 0 || wasteEach > most) return;
    const smallEach = units < modulus ? units : 0;
    const cycles = greatestCommonDivisor(modulus, shift);
    const turns = (2 * modulus) / cycles;
    for (let start = 0; start < cycles; start += 1) {
      // Twice round, since the residue with the least waste may lie anywhere on the cycle.
      for (let at = start, turn = 0; turn < turns; turn += 1) {
        const next = at + shift < modulus ? at + shift : at + shift - modulus;
        const total = present(waste[at]) + wasteEach;
        const known = present(waste[next]);
        if (total <= known && total <= most) {
          const taken = present(bags[at]) + modulus - units;
          const small = present(smallUnits[at]) + smallEach;
          // Among equals fewest bags, then most bags at least as large as the base bag, then the larger kind.
          const isBetter =
            total < known ||
            taken < present(bags[next]) ||
            (taken === bags[next] && (smallEach === 0 || small <= present(smallUnits[next])));
          if (isBetter) {
            waste[next] = total;
            bags[next] = taken;
            smallUnits[next] = small;
            chains[next] = { kind, before: chains[at] };
          }
        }
        at = next;
      }
    }
  }
}
