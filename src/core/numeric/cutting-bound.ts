import { boundedKnapsack, type WorkCount } from "./bounded-knapsack";
import { entryAt, present } from "./entry-at";

/** How many pieces of each length are cut from one stock. */
export type Pattern = readonly number[];

/** A cutting stock problem: lengths, longest first, pieces of each, and the length of a stock, all whole. */
export interface CuttingProblem {
  readonly lengths: readonly number[];
  readonly pieces: readonly number[];
  readonly stock: number;
}

/** The relaxed problem, solved: patterns may be cut a part of a time. */
export interface CuttingBound {
  /** Stocks that no plan can do with fewer than, not whole. */
  readonly stocks: number;
  /** Dual price of a piece of each length: no pattern is worth more than 1. */
  readonly prices: readonly number[];
  /** Patterns and how often each is cut, not whole. */
  readonly plan: readonly { readonly pattern: Pattern; readonly times: number }[];
}

const TOLERANCE = 1e-9;

/**
 * Sum of products.
 *
 * @param one numbers
 * @param other numbers, as many
 * @returns the sum
 */
export function dot(one: readonly number[], other: readonly number[]): number {
  return one.reduce((sum, value, index) => sum + value * present(other[index]), 0);
}

/**
 * Bound by the relaxed problem: revised simplex method over patterns that are made when needed (column generation).
 * Source: Gilmore and Gomory, Oper. Res. 9 (1961) 849; bound before the end by Farley, Oper. Res. 38 (1990) 922.
 *
 * @param problem lengths up to the stock, pieces above 0
 * @param work counted up
 * @returns the bound, with the patterns of the last basis
 */
export function relaxedBound({ lengths, pieces, stock }: CuttingProblem, work: WorkCount): CuttingBound {
  const size = lengths.length;
  const patterns: Pattern[] = lengths.map((length, row) =>
    lengths.map((_, index) =>
      index === row ? Math.min(present(pieces[row]), Math.floor(stock / length)) : 0,
    ),
  );
  const inverse = patterns.map((pattern, row) => pattern.map((cut, index) => (index === row ? 1 / cut : 0)));
  const times = patterns.map((pattern, row) => present(pieces[row]) / present(pattern[row]));
  let best: { stocks: number; prices: readonly number[] } = { stocks: 0, prices: lengths.map(() => 0) };
  for (let step = 0; step < 50 * size + 50; step += 1) {
    const prices = lengths.map((_, index) => inverse.reduce((sum, row) => sum + present(row[index]), 0));
    const { pattern, value, atMost } = bestPattern({ lengths, pieces, stock }, prices, work);
    work.steps += size * size;
    const scale = Math.max(1, atMost);
    const stocks = dot(prices, pieces) / scale;
    if (stocks > best.stocks) best = { stocks, prices: prices.map((price) => price / scale) };
    if (value <= 1 + TOLERANCE) break;
    const leaving = pivoted(inverse, times, pattern);
    if (leaving < 0) break;
    patterns[leaving] = pattern;
  }
  return { ...best, plan: patterns.map((pattern, row) => ({ pattern, times: entryAt(times, row) })) };
}

/** The most valuable pattern that the stock and the pieces allow. */
function bestPattern(
  { lengths, pieces, stock }: CuttingProblem,
  prices: readonly number[],
  work: WorkCount,
): { readonly pattern: Pattern; readonly value: number; readonly atMost: number } {
  const items = lengths.map((length, index) => {
    const value = present(prices[index]);
    return { length, value, most: value > 0 ? present(pieces[index]) : 0 };
  });
  const { counts, value, atMost } = boundedKnapsack(items, stock, work);
  return { pattern: counts, value, atMost };
}

/**
 * Takes a pattern into the basis.
 *
 * @returns row of the pattern that leaves, -1 where none does
 */
function pivoted(inverse: (readonly number[])[], times: number[], pattern: Pattern): number {
  const direction = inverse.map((row) => dot(row, pattern));
  let leaving = -1;
  let ratio = Infinity;
  direction.forEach((part, row) => {
    const quotient = part > TOLERANCE ? present(times[row]) / part : Infinity;
    if (quotient < ratio) [leaving, ratio] = [row, quotient];
  });
  if (leaving < 0) return leaving;
  const pivot = entryAt(direction, leaving);
  const scaled = entryAt(inverse, leaving).map((entry) => entry / pivot);
  inverse.forEach((row, index) => {
    const part = present(direction[index]);
    if (index === leaving) inverse[index] = scaled;
    else if (part !== 0) inverse[index] = row.map((entry, column) => entry - part * present(scaled[column]));
    times[index] = index === leaving ? ratio : Math.max(0, present(times[index]) - part * ratio);
  });
  return leaving;
}
