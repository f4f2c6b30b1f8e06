import type { WorkCount } from "./bounded-knapsack";
import { type CuttingBound, type CuttingProblem, dot, type Pattern, relaxedBound } from "./cutting-bound";
import { canCut } from "./cutting-search";
import { greatestCommonDivisor } from "./divisors";
import { entryAt } from "./entry-at";
import { tally } from "./tally";
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

/** Pieces of one length, in the same whole unit as the stock. */
interface Demand {
  readonly length: number;
  readonly pieces: number;
}

/** Distinct lengths up to which the exact search is tried. */
export const MOST_EXACT_LENGTHS = 40;

/** What times of patterns may be off by. */
const TOLERANCE = 1e-7;

/**
 * Fewest stocks of one length from which pieces of given lengths can be cut.
 * Source: bound by column generation (`relaxedBound`), plans by first-fit decreasing and by rounding the relaxed plan, then a
 * depth-first search (`canCut`). The search is limited by steps: where it is given up, the two numbers of the answer differ.
 *
 * @param demands lengths, whole numbers from 1 to `longStock`, and how many pieces of each, whole
 * @param longStock length of a stock, a whole number
 * @returns stocks, their lower bound, and the work
 */
export function cuttingStock(demands: readonly Demand[], longStock: number): CuttingStock {
  const problem = problemOf(demands, longStock);
  const { lengths, pieces, stock } = problem;
  const work: WorkCount = { steps: 0 };
  let lowerBound = wholeUp(dot(lengths, pieces) / stock);
  let stocks = firstFitDecreasing(problem);
  if (stocks === lowerBound || lengths.length > MOST_EXACT_LENGTHS) return { stocks, lowerBound, ...work };
  const bound = relaxedBound(problem, work);
  // Rounding up is only safe past the rounding errors of the simplex method.
  lowerBound = Math.max(lowerBound, Math.ceil(bound.stocks - 1e-6 - 1e-9 * bound.stocks));
  if (stocks > lowerBound) stocks = Math.min(stocks, roundedPlan(problem, bound, lowerBound, work));
  while (stocks > lowerBound) {
    const isCut = canCut(problem, lowerBound, bound.prices, work);
    if (isCut === undefined) break;
    if (isCut) stocks = lowerBound;
    else lowerBound += 1;
  }
  return { stocks, lowerBound, ...work };
}

/** Equal lengths pooled, in the largest unit that all are whole in: lengths in whole centimetres make small tables. */
function problemOf(demands: readonly Demand[], longStock: number): CuttingProblem {
  const wanted = demands.filter(({ pieces }) => pieces > 0);
  const byLength = tally(wanted.map(({ length, pieces }) => [length, pieces]));
  const unit = Math.max(1, [...byLength.keys()].reduce(greatestCommonDivisor, 0));
  const longest = [...byLength].sort(([one], [other]) => other - one);
  return {
    lengths: longest.map(([length]) => length / unit),
    pieces: longest.map(([, pieces]) => pieces),
    stock: Math.floor(longStock / unit),
  };
}

/** Stocks of a plan: longest pieces first into each stock, and each such pattern as often as it can be repeated. */
function firstFitDecreasing({ lengths, pieces, stock }: CuttingProblem): number {
  let left: readonly number[] = pieces;
  let stocks = 0;
  while (left.some((count) => count > 0)) {
    let room = stock;
    let times = Infinity;
    const pattern = lengths.map((length, index) => {
      const available = entryAt(left, index);
      const cut = Math.min(available, Math.floor(room / length));
      if (cut > 0) times = Math.min(times, Math.floor(available / cut));
      room -= cut * length;
      return cut;
    });
    left = without(left, pattern, times);
    stocks += times;
  }
  return stocks;
}

function without(pieces: readonly number[], pattern: Pattern, times: number): readonly number[] {
  return pieces.map((count, index) => count - times * entryAt(pattern, index));
}

/**
 * Stocks of a plan made from the relaxed one: rounded down, and the rest cut by search where that reaches the target; else
 * relaxed and rounded again and again until nothing is left.
 */
function roundedPlan(problem: CuttingProblem, bound: CuttingBound, target: number, work: WorkCount): number {
  const { lengths } = problem;
  let { left, used } = roundedDown(problem.pieces, bound);
  const rest = { ...problem, pieces: left };
  if (canCut(rest, target - used, bound.prices, work) === true) return target;
  let best = used + firstFitDecreasing(rest);
  while (best > target && used < target) {
    const pieces = left.filter((count) => count > 0);
    if (pieces.length === 0) break;
    const kept = { ...problem, lengths: lengths.filter((_, index) => left[index] !== 0), pieces };
    const next = roundedDown(pieces, relaxedBound(kept, work));
    if (next.used === 0) break;
    used += next.used;
    let at = 0;
    left = left.map((count) => (count > 0 ? entryAt(next.left, at++) : 0));
    best = Math.min(best, used + firstFitDecreasing({ ...problem, pieces: left }));
  }
  return best;
}

/**
 * Cuts what the relaxed plan cuts whole times, or else its most used pattern once.
 *
 * @returns pieces left over and stocks used
 */
function roundedDown(
  pieces: readonly number[],
  { plan }: CuttingBound,
): { readonly left: readonly number[]; readonly used: number } {
  const isAnyWhole = plan.some(({ times }) => times > 1 - TOLERANCE);
  const mostUsed = plan.reduce((most, { times }) => Math.max(most, times), 0);
  let left = pieces;
  let used = 0;
  for (const { pattern, times } of plan) {
    const wanted = isAnyWhole ? Math.floor(times + TOLERANCE) : times === mostUsed && used === 0 ? 1 : 0;
    const whole = pattern.reduce(
      (least, cut, index) => (cut > 0 ? Math.min(least, Math.floor(entryAt(left, index) / cut)) : least),
      wanted,
    );
    left = without(left, pattern, whole);
    used += whole;
  }
  return { left, used };
}
