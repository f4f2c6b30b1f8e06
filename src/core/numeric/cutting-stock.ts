import { wholeUp } from "./whole";

/** Answer to a cutting stock problem: exact where both numbers are the same. */
export interface CuttingStock {
  /** Stocks that a cutting plan was found for. */
  readonly stocks: number;
  /** Stocks that no plan can do with fewer than. */
  readonly lowerBound: number;
  /** Work that it took: numbers looked at. */
  readonly steps: number;
}

/** Work done so far. */
interface Effort {
  steps: number;
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
export const MOST_EXACT_LENGTHS = 40;

// Steps, not seconds, limit the search, so that every machine gives the same answer.
const KNAPSACK_STEPS = 20_000;
const EASY_KNAPSACK_STEPS = 1000;
const LARGEST_TABLE = 20_000;
const SEARCH_STEPS = 40_000;
const LONGEST_SEARCH = 1000;
const SLACK = 1e-7;

const commonDivisor = (one: number, other: number): number => {
  let [large, small] = [one, other];
  while (small > 0) [large, small] = [small, large % small];
  return large;
};

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

/** A length in the search for the most valuable pattern. */
interface Item {
  readonly index: number;
  readonly length: number;
  readonly worth: number;
  readonly most: number;
}

/** What was cut of each item, what it is worth, and what no pattern is worth more than. */
interface Choice {
  readonly cuts: readonly number[];
  readonly value: number;
  readonly atMost: number;
}

/**
 * Depth-first search with the fractional bound over items in order of worth to length; given up after some
 * steps.
 */
function searchedChoice(items: readonly Item[], stock: number, mostSteps: number, effort: Effort): Choice {
  const fractional = (from: number, whole: number): number => {
    let [value, room] = [0, whole];
    for (let at = from; at < items.length; at += 1) {
      const item = items[at];
      if (item === undefined) break;
      if (item.most * item.length >= room) return value + (item.worth * room) / item.length;
      value += item.most * item.worth;
      room -= item.most * item.length;
    }
    return value;
  };
  const current = items.map(() => 0);
  let cuts = [...current];
  let best = 0;
  let steps = 0;
  const search = (at: number, room: number, value: number): void => {
    if (value > best + 1e-12) {
      best = value;
      cuts = [...current];
    }
    const item = items[at];
    if (item === undefined) return;
    for (let cut = Math.min(item.most, Math.floor(room / item.length)); cut >= 0; cut -= 1) {
      steps += 1;
      if (steps > mostSteps) return;
      const [after, gained] = [room - cut * item.length, value + cut * item.worth];
      if (gained + fractional(at + 1, after) <= best + 1e-12) break;
      current[at] = cut;
      search(at + 1, after, gained);
    }
    current[at] = 0;
  };
  search(0, stock, 0);
  effort.steps += steps;
  return { cuts, value: best, atMost: steps > mostSteps ? fractional(0, stock) : best };
}

/** The same by a table over every room from 0 to the stock, for lengths that are few whole steps long. */
function tabledChoice(items: readonly Item[], stock: number, effort: Effort): Choice {
  // Any number up to `most` is a sum of some of 1, 2, 4, ... and a rest.
  const lots = items.flatMap(({ length, worth, most }, at) => {
    const lotsOf: { at: number; cut: number; length: number; worth: number }[] = [];
    for (let left = Math.min(most, Math.floor(stock / length)), size = 1; left > 0; left -= size, size *= 2) {
      const cut = Math.min(size, left);
      lotsOf.push({ at, cut, length: cut * length, worth: cut * worth });
      if (cut === left) break;
    }
    return lotsOf;
  });
  effort.steps += lots.length * stock;
  const values = new Float64Array(stock + 1);
  const taken = lots.map(({ length, worth }) => {
    const isTaken = new Uint8Array(stock + 1);
    for (let room = stock; room >= length; room -= 1) {
      const value = (values[room - length] ?? 0) + worth;
      if (value <= (values[room] ?? 0) + 1e-12) continue;
      values[room] = value;
      isTaken[room] = 1;
    }
    return isTaken;
  });
  const cuts = items.map(() => 0);
  let room = stock;
  for (let index = lots.length - 1; index >= 0; index -= 1) {
    const lot = lots[index];
    if (lot === undefined || taken[index]?.[room] !== 1) continue;
    cuts[lot.at] = (cuts[lot.at] ?? 0) + lot.cut;
    room -= lot.length;
  }
  const value = values[stock] ?? 0;
  return { cuts, value, atMost: value };
}

/** Most valuable pattern that the stock and the pieces allow. */
function bestPattern(
  lengths: readonly number[],
  pieces: readonly number[],
  stock: number,
  worth: readonly number[],
  effort: Effort,
): { readonly pattern: Pattern; readonly value: number; readonly atMost: number } {
  const items = lengths
    .map((length, index) => ({ index, length, worth: worth[index] ?? 0, most: pieces[index] ?? 0 }))
    .filter((item) => item.worth > 0 && item.most > 0)
    .sort((one, other) => other.worth / other.length - one.worth / one.length);
  const isTableSmall = stock <= LARGEST_TABLE;
  let choice = searchedChoice(items, stock, isTableSmall ? EASY_KNAPSACK_STEPS : KNAPSACK_STEPS, effort);
  if (isTableSmall && choice.atMost > choice.value) choice = tabledChoice(items, stock, effort);
  const pattern = lengths.map(() => 0);
  items.forEach(({ index }, at) => (pattern[index] = choice.cuts[at] ?? 0));
  return { pattern, value: choice.value, atMost: choice.atMost };
}

/**
 * Bound by the relaxed problem: patterns may be cut a part of a time. Revised simplex method over patterns
 * that are made when needed.
 * Source: Gilmore & Gomory, Oper. Res. 9 (1961) 849; bound before the end by Farley, Oper. Res. 38 (1990)
 * 922.
 */
function relaxedBound(
  lengths: readonly number[],
  pieces: readonly number[],
  stock: number,
  effort: Effort,
): Bound {
  const size = lengths.length;
  const patterns: Pattern[] = lengths.map((length, row) =>
    lengths.map((_, index) => (index === row ? Math.min(pieces[row] ?? 0, Math.floor(stock / length)) : 0)),
  );
  const inverse = patterns.map((pattern, row) => pattern.map((cut, index) => (index === row ? 1 / cut : 0)));
  const times = patterns.map((pattern, row) => (pieces[row] ?? 0) / (pattern[row] ?? 1));
  let best: { stocks: number; worth: readonly number[] } = { stocks: 0, worth: lengths.map(() => 0) };
  for (let step = 0; step < 50 * size + 50; step += 1) {
    const worth = lengths.map((_, index) => inverse.reduce((sum, row) => sum + (row[index] ?? 0), 0));
    const { pattern, value, atMost } = bestPattern(lengths, pieces, stock, worth, effort);
    effort.steps += size * size;
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
  effort: Effort,
): boolean | undefined {
  if (stocks > LONGEST_SEARCH) return undefined;
  const failed = new Set<string>();
  let steps = 0;
  /**
   * Fills one stock with the longest piece left and then everything else that fits, then goes on to the next
   * stock.
   */
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
  effort.steps += steps;
  return isCut || steps <= SEARCH_STEPS ? isCut : undefined;
}

/**
 * Cuts what the relaxed plan cuts whole times, or else its most used pattern once.
 *
 * @returns pieces left over and stocks used
 */
function roundedDown(
  pieces: readonly number[],
  { plan }: Bound,
): { readonly left: number[]; readonly used: number } {
  const isAnyWhole = plan.some(({ times }) => times > 1 - SLACK);
  const mostUsed = plan.reduce((most, { times }) => Math.max(most, times), 0);
  let left = [...pieces];
  let used = 0;
  for (const { pattern, times } of plan) {
    const wanted = isAnyWhole ? Math.floor(times + SLACK) : times === mostUsed && used === 0 ? 1 : 0;
    const whole = pattern.reduce(
      (least, cut, index) => (cut > 0 ? Math.min(least, Math.floor((left[index] ?? 0) / cut)) : least),
      wanted,
    );
    left = minus(left, pattern, whole);
    used += whole;
  }
  return { left, used };
}

/**
 * Stocks of a plan made from the relaxed one: rounded down, and the rest cut by search where that reaches the
 * target; else relaxed and rounded again and again until nothing is left.
 */
function roundedPlan(
  lengths: readonly number[],
  pieces: readonly number[],
  stock: number,
  bound: Bound,
  target: number,
  effort: Effort,
): number {
  let { left, used } = roundedDown(pieces, bound);
  if (canCut(lengths, left, stock, target - used, bound.worth, effort) === true) return target;
  let best = used + firstFit(lengths, left, stock);
  while (best > target && used < target) {
    const [kept, rest] = [lengths.filter((_, index) => left[index] !== 0), left.filter((count) => count > 0)];
    if (rest.length === 0) break;
    const next = roundedDown(rest, relaxedBound(kept, rest, stock, effort));
    if (next.used === 0) break;
    used += next.used;
    let at = 0;
    left = left.map((count) => (count > 0 ? (next.left[at++] ?? 0) : 0));
    best = Math.min(best, used + firstFit(lengths, left, stock));
  }
  return best;
}

/**
 * Fewest stocks of one length from which pieces of given lengths can be cut.
 * Source: bound by column generation (Gilmore & Gomory 1961), plans by first fit and by rounding, then a
 * depth-first search that fills stock after stock with the longest piece left (Martello & Toth 1990, Knapsack
 * Problems, ch. 8). The search is limited by steps: where it is given up, the two numbers of the answer
 * differ.
 *
 * @param demands lengths, whole numbers from 1 to `longStock`, and how many pieces of each, whole
 * @param longStock length of a stock, a whole number
 * @returns stocks, their lower bound, and the work
 */
export function cuttingStock(demands: readonly Demand[], longStock: number): CuttingStock {
  const byLength = new Map<number, number>();
  for (const { length, pieces } of demands) {
    if (pieces > 0) byLength.set(length, (byLength.get(length) ?? 0) + pieces);
  }
  // Lengths in whole centimetres make small tables, whatever unit they came in.
  const step = [...byLength.keys()].reduce(commonDivisor, 0);
  const stock = Math.floor(longStock / Math.max(1, step));
  const longest = [...byLength.keys()].sort((one, other) => other - one);
  const lengths = longest.map((length) => length / step);
  const pieces = longest.map((length) => byLength.get(length) ?? 0);
  const effort: Effort = { steps: 0 };
  let lowerBound = wholeUp(dot(lengths, pieces) / stock);
  let stocks = firstFit(lengths, pieces, stock);
  if (stocks === lowerBound || lengths.length > MOST_EXACT_LENGTHS) return { stocks, lowerBound, ...effort };
  const bound = relaxedBound(lengths, pieces, stock, effort);
  // Rounding up is only safe past the dust of the simplex method.
  lowerBound = Math.max(lowerBound, Math.ceil(bound.stocks - 1e-6 - 1e-9 * bound.stocks));
  if (stocks > lowerBound) {
    stocks = Math.min(stocks, roundedPlan(lengths, pieces, stock, bound, lowerBound, effort));
  }
  while (stocks > lowerBound) {
    const isCut = canCut(lengths, pieces, stock, lowerBound, bound.worth, effort);
    if (isCut === undefined) break;
    if (isCut) stocks = lowerBound;
    else lowerBound += 1;
  }
  return { stocks, lowerBound, ...effort };
}
