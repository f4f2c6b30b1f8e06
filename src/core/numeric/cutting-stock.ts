import { wholeUp } from "./whole";

/** Answer to a cutting stock problem: exact where both numbers are the same. */
export interface CuttingStock {
  /** Stocks that a cutting plan was found for. */
  readonly stocks: number;
  /** Stocks that no plan can do with fewer than. */
  readonly lowerBound: number;
}

/** Pieces of one length, all in the same whole unit as the stock. */
interface Demand {
  readonly length: number;
  readonly pieces: number;
}

/** How many pieces of each length are cut from one stock. */
type Pattern = readonly number[];

/** A bound in the form of a value for each length: no pattern is worth more than 1. */
interface Bound {
  readonly stocks: number;
  readonly worth: readonly number[];
  /** Patterns of the relaxed problem and how often each is cut, not whole. */
  readonly plan: readonly { readonly pattern: Pattern; readonly times: number }[];
}

/** Distinct lengths up to which the exact search is tried. */
export const MOST_EXACT_LENGTHS = 60;

// Steps, not seconds, limit the search, so that every machine gives the same answer.
const KNAPSACK_STEPS = 20_000;
const SEARCH_STEPS = 40_000;
const LONGEST_SEARCH = 1000;
const SLACK = 1e-7;

const dot = (one: readonly number[], other: readonly number[]): number =>
  one.reduce((sum, value, index) => sum + value * (other[index] ?? 0), 0);

const minus = (pieces: readonly number[], pattern: Pattern, times: number): number[] =>
  pieces.map((count, index) => count - times * (pattern[index] ?? 0));

/** Longest pieces first into each stock, and each such pattern as often as it can be repeated. */
function firstFit(lengths: readonly number[], pieces: readonly number[], stock: number): number {
  let left = [...pieces];
  let stocks = 0;
  while (left.some((count) => count > 0)) {
    let room = stock;
    let times = Infinity;
    const pattern = lengths.map((length, index) => {
      const available = left[index] ?? 0;
      const cut = Math.min(available, Math.floor(room / length));
      if (cut > 0) times = Math.min(times, Math.floor(available / cut));
      room -= cut * length;
      return cut;
    });
    left = minus(left, pattern, times);
    stocks += times;
  }
  return stocks;
}

/** Most valuable pattern that the stock and the pieces allow, by depth-first search with the fractional bound. */
function bestPattern(
  lengths: readonly number[],
  pieces: readonly number[],
  stock: number,
  worth: readonly number[],
): { readonly pattern: Pattern; readonly value: number; readonly atMost: number } {
  const order = lengths
    .map((length, index) => ({ index, length, worth: worth[index] ?? 0, most: pieces[index] ?? 0 }))
    .filter((item) => item.worth > 0 && item.most > 0)
    .sort((one, other) => other.worth / other.length - one.worth / one.length);
  const fractional = (from: number, room: number): number => {
    let value = 0;
    for (let at = from; at < order.length; at += 1) {
      const item = order[at];
      if (item === undefined) break;
      if (item.most * item.length >= room) return value + (item.worth * room) / item.length;
      value += item.most * item.worth;
      room -= item.most * item.length;
    }
    return value;
  };
  const current = order.map(() => 0);
  let best = [...current];
  let bestValue = 0;
  let steps = 0;
  const search = (at: number, room: number, value: number): void => {
    if (value > bestValue + 1e-12) {
      bestValue = value;
      best = [...current];
    }
    const item = order[at];
    if (item === undefined) return;
    for (let cut = Math.min(item.most, Math.floor(room / item.length)); cut >= 0; cut -= 1) {
      steps += 1;
      if (steps > KNAPSACK_STEPS) return;
      const [after, gained] = [room - cut * item.length, value + cut * item.worth];
      if (gained + fractional(at + 1, after) <= bestValue + 1e-12) break;
      current[at] = cut;
      search(at + 1, after, gained);
    }
    current[at] = 0;
  };
  search(0, stock, 0);
  const pattern = lengths.map(() => 0);
  order.forEach(({ index }, at) => (pattern[index] = best[at] ?? 0));
  return { pattern, value: bestValue, atMost: steps > KNAPSACK_STEPS ? fractional(0, stock) : bestValue };
}

/**
 * Bound by the relaxed problem: patterns may be cut a part of a time. Revised simplex method over patterns that are made when needed.
 * Source: Gilmore & Gomory, Oper. Res. 9 (1961) 849; bound before the end by Farley, Oper. Res. 38 (1990) 922.
 */
function relaxedBound(lengths: readonly number[], pieces: readonly number[], stock: number): Bound {
  const size = lengths.length;
  const patterns: Pattern[] = lengths.map((length, row) =>
    lengths.map((_, index) => (index === row ? Math.min(pieces[row] ?? 0, Math.floor(stock / length)) : 0)),
  );
  const inverse = patterns.map((pattern, row) => pattern.map((cut, index) => (index === row ? 1 / cut : 0)));
  const times = patterns.map((pattern, row) => (pieces[row] ?? 0) / (pattern[row] ?? 1));
  let best: { stocks: number; worth: readonly number[] } = { stocks: 0, worth: lengths.map(() => 0) };
  for (let step = 0; step < 50 * size + 50; step += 1) {
    const worth = lengths.map((_, index) => inverse.reduce((sum, row) => sum + (row[index] ?? 0), 0));
    const { pattern, value, atMost } = bestPattern(lengths, pieces, stock, worth);
    const scale = Math.max(1, atMost);
    const stocks = dot(worth, pieces) / scale;
    if (stocks > best.stocks) best = { stocks, worth: worth.map((one) => one / scale) };
    if (value <= 1 + 1e-9) break;
    const direction = inverse.map((row) => dot(row, pattern));
    let leaving = -1;
    let ratio = Infinity;
    direction.forEach((part, row) => {
      const quotient = part > 1e-9 ? (times[row] ?? 0) / part : Infinity;
      if (quotient < ratio) [leaving, ratio] = [row, quotient];
    });
    const pivotRow = inverse[leaving];
    const pivot = direction[leaving];
    if (pivotRow === undefined || pivot === undefined) break;
    const scaled = pivotRow.map((entry) => entry / pivot);
    inverse.forEach((row, index) => {
      const part = direction[index] ?? 0;
      if (index === leaving) inverse[index] = scaled;
      else if (part !== 0) inverse[index] = row.map((entry, column) => entry - part * (scaled[column] ?? 0));
      times[index] = index === leaving ? ratio : Math.max(0, (times[index] ?? 0) - part * ratio);
    });
    patterns[leaving] = pattern;
  }
  return { ...best, plan: patterns.map((pattern, row) => ({ pattern, times: times[row] ?? 0 })) };
}

/** Whether the pieces can be cut from that many stocks: undefined where the search was given up. */
function canCut(
  lengths: readonly number[],
  pieces: readonly number[],
  stock: number,
  stocks: number,
  worth: readonly number[],
): boolean | undefined {
  if (stocks > LONGEST_SEARCH) return undefined;
  const failed = new Set<string>();
  let steps = 0;
  /** Fills one stock with the longest piece left and then everything else that fits, then goes on to the next stock. */
  const fill = (left: number[], stocksLeft: number, waste: number): boolean => {
    const longest = left.findIndex((count) => count > 0);
    if (longest < 0) return true;
    steps += 1;
    if (stocksLeft === 0 || waste < 0 || dot(worth, left) > stocksLeft + SLACK) return false;
    const key = left.join();
    if (failed.has(key)) return false;
    const choose = (at: number, room: number, shortest: number): boolean => {
      if (steps > SEARCH_STEPS) return false;
      const length = lengths[at];
      if (length === undefined)
        return room < shortest && room <= waste && fill(left, stocksLeft - 1, waste - room);
      const available = left[at] ?? 0;
      const most = Math.min(available, Math.floor(room / length));
      for (let cut = most; cut >= (at === longest ? 1 : 0); cut -= 1) {
        steps += 1;
        left[at] = available - cut;
        if (choose(at + 1, room - cut * length, cut < available ? length : shortest)) return true;
      }
      left[at] = available;
      return false;
    };
    if (choose(longest, stock, Infinity)) return true;
    if (steps <= SEARCH_STEPS) failed.add(key);
    return false;
  };
  const isCut = fill([...pieces], stocks, stocks * stock - dot(lengths, pieces));
  return isCut || steps <= SEARCH_STEPS ? isCut : undefined;
}

/** Stocks of a plan that rounds the relaxed plan down and cuts what is left over by search, or else by first fit. */
function roundedPlan(
  lengths: readonly number[],
  pieces: readonly number[],
  stock: number,
  bound: Bound,
  target: number,
): number {
  let left: number[] = [...pieces];
  let stocks = 0;
  for (const { pattern, times } of bound.plan) {
    const most = pattern.reduce(
      (least, cut, index) => (cut > 0 ? Math.min(least, Math.floor((left[index] ?? 0) / cut)) : least),
      Math.floor(times + SLACK),
    );
    left = minus(left, pattern, most);
    stocks += most;
  }
  if (canCut(lengths, left, stock, target - stocks, bound.worth) === true) return target;
  return stocks + firstFit(lengths, left, stock);
}

/**
 * Fewest stocks of one length from which pieces of given lengths can be cut.
 * Source: bound by column generation (Gilmore & Gomory 1961), plans by first fit and by rounding, then a depth-first search that fills stock
 * after stock with the longest piece left (Martello & Toth 1990, Knapsack Problems, ch. 8). The search is limited by steps: where it is
 * given up, the two numbers of the answer differ.
 *
 * @param demands lengths, whole numbers from 1 to `stock`, and how many pieces of each, whole
 * @param stock length of a stock, a whole number
 * @returns stocks and their lower bound
 */
export function cuttingStock(demands: readonly Demand[], stock: number): CuttingStock {
  const byLength = new Map<number, number>();
  for (const { length, pieces } of demands) {
    if (pieces > 0) byLength.set(length, (byLength.get(length) ?? 0) + pieces);
  }
  const lengths = [...byLength.keys()].sort((one, other) => other - one);
  const pieces = lengths.map((length) => byLength.get(length) ?? 0);
  let lowerBound = wholeUp(dot(lengths, pieces) / stock);
  let stocks = firstFit(lengths, pieces, stock);
  if (stocks === lowerBound || lengths.length > MOST_EXACT_LENGTHS) return { stocks, lowerBound };
  const bound = relaxedBound(lengths, pieces, stock);
  // Rounding up is only safe past the dust of the simplex method.
  lowerBound = Math.max(lowerBound, Math.ceil(bound.stocks - 1e-6 - 1e-9 * bound.stocks));
  if (stocks > lowerBound) stocks = Math.min(stocks, roundedPlan(lengths, pieces, stock, bound, lowerBound));
  while (stocks > lowerBound) {
    const isCut = canCut(lengths, pieces, stock, lowerBound, bound.worth);
    if (isCut === undefined) break;
    if (isCut) stocks = lowerBound;
    else lowerBound += 1;
  }
  return { stocks, lowerBound };
}
