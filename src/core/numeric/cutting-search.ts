import type { WorkCount } from "./bounded-knapsack";
import { type CuttingProblem, dot } from "./cutting-bound";
import { present } from "./entry-at";

// Steps, not seconds, limit the search, so that every machine gives the same answer.
const MOST_STEPS = 40_000;
const MOST_STOCKS = 1000;
const TOLERANCE = 1e-7;

/**
 * Whether the pieces can be cut from that many stocks: depth-first search that fills stock after stock, each with the longest
 * piece left and then everything else that fits.
 * Source: Martello and Toth, Knapsack Problems (1990), ch. 8.
 *
 * @param problem lengths, pieces, stock
 * @param stocks whole
 * @param prices dual prices of the pieces, no pattern worth more than 1: what is left must not be worth more than the stocks
 * @param work counted up
 * @returns undefined where the search was given up
 */
export function canCut(
  { lengths, pieces, stock }: CuttingProblem,
  stocks: number,
  prices: readonly number[],
  work: WorkCount,
): boolean | undefined {
  if (stocks > MOST_STOCKS) return undefined;
  const failed = new Set<string>();
  let steps = 0;
  const fill = (left: number[], stocksLeft: number, waste: number): boolean => {
    const longest = left.findIndex((count) => count > 0);
    if (longest < 0) return true;
    steps += 1;
    if (stocksLeft === 0 || waste < 0 || dot(prices, left) > stocksLeft + TOLERANCE) return false;
    const key = left.join();
    if (failed.has(key)) return false;
    const choose = (at: number, room: number, shortest: number): boolean => {
      if (steps > MOST_STEPS) return false;
      const length = lengths[at];
      if (length === undefined)
        return room < shortest && room <= waste && fill(left, stocksLeft - 1, waste - room);
      const available = present(left[at]);
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
    if (steps <= MOST_STEPS) failed.add(key);
    return false;
  };
  const isCut = fill([...pieces], stocks, stocks * stock - dot(lengths, pieces));
  work.steps += steps;
  return isCut || steps <= MOST_STEPS ? isCut : undefined;
}
