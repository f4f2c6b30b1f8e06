import { greatestCommonDivisor } from "../numeric/divisors";
import { present } from "../numeric/entry-at";
import { countOf } from "../numeric/tally";

/** Bags bought only to reach a sum: how many of each price, and what they come to. */
export interface TopUp {
  readonly sum: number;
  readonly counts: ReadonlyMap<number, number>;
}

interface Chain {
  readonly price: number;
  readonly before: Chain | undefined;
}

const MOST_STEPS = 2e7;
const NOTHING: TopUp = { sum: 0, counts: new Map() };

/**
 * Finds the least sum of prices, each taken as often as wanted, that reaches an amount. Exact: the least sum of every
 * residue modulo the smallest price is enough to know all sums.
 * Source: round robin of Boecker and Liptak, Algorithmica 48 (2007) 413.
 */
export class TopUps {
  /** False where the prices are too many and too fine, and multiples of the smallest price stand in. */
  readonly isExact: boolean;
  private readonly smallest: number;
  private readonly step: number;
  private readonly least: Float64Array;
  private readonly chains: (Chain | undefined)[];
  private readonly known = new Map<number, TopUp>();

  /** @param prices whole numbers above 0, at least one */
  constructor(prices: readonly number[]) {
    const distinct = [...new Set(prices)].sort((a, b) => a - b);
    this.smallest = present(distinct[0]);
    const divisor = distinct.reduce(greatestCommonDivisor, 0);
    this.isExact = (this.smallest / divisor) * distinct.length <= MOST_STEPS;
    this.step = this.isExact ? divisor : this.smallest;
    const residues = this.smallest / this.step;
    this.least = new Float64Array(residues).fill(Infinity);
    this.least[0] = 0;
    this.chains = new Array<Chain | undefined>(residues).fill(undefined);
    if (this.isExact) for (const price of distinct.slice(1)) this.admit(price);
  }

  private admit(price: number): void {
    const residues = this.least.length;
    const shift = (price / this.step) % residues;
    if (shift === 0) return;
    const cycles = greatestCommonDivisor(residues, shift);
    for (let start = 0; start < cycles; start += 1) {
      // Twice round, since the least residue of the cycle may lie anywhere on it.
      let at = start;
      for (let i = 0; i < (2 * residues) / cycles; i += 1) {
        const next = (at + shift) % residues;
        const sum = present(this.least[at]) + price;
        if (sum < present(this.least[next])) {
          this.least[next] = sum;
          this.chains[next] = { price, before: this.chains[at] };
        }
        at = next;
      }
    }
  }

  /**
   * @param amount whole number to reach, any sign
   * @returns the least sum at or above it
   */
  reach(amount: number): TopUp {
    if (amount <= 0) return NOTHING;
    const found = this.known.get(amount) ?? this.search(amount);
    this.known.set(amount, found);
    return found;
  }

  private search(amount: number): TopUp {
    let best = Infinity;
    let residue = 0;
    this.least.forEach((least, at) => {
      const sum = least + Math.max(0, Math.ceil((amount - least) / this.smallest)) * this.smallest;
      if (sum < best) {
        best = sum;
        residue = at;
      }
    });
    const counts = new Map<number, number>();
    for (let chain = this.chains[residue]; chain; chain = chain.before) {
      counts.set(chain.price, countOf(counts, chain.price) + 1);
    }
    const rest = (best - present(this.least[residue])) / this.smallest;
    if (rest > 0) counts.set(this.smallest, rest);
    return { sum: best, counts };
  }
}
