import { present } from "../numeric/entry-at";
import type { Incumbent } from "./incumbent";
import { goodsBySupplier, type Interval } from "./purchase";
import type { PurchaseProblem } from "./purchase-problem";
import type { DualBound, ThresholdBound } from "./threshold-bound";

/** Another way to cover an item than now, and what that adds to the goods of each supplier. */
interface Move {
  readonly item: number;
  readonly bags: readonly number[];
  readonly shift: readonly number[];
}

/** What trying a move takes in steps of the budget. */
const SWAP_STEPS = 250;
const MOST_SWAPS = 100_000;
/** A best plan further above the bound than this part of it is bettered before anything is proved. */
const FAR = 1e-5;
const MOST_BALANCINGS = 60;
/** Part of its prices that a supplier is balanced from, where the multiplier leaves next to nothing of them. */
const LEAST_FACTOR = 0.05;
/** Least change of the logarithm of a factor. */
const LEAST_STEP = 1e-3;
/** Part of a threshold that is aimed at where top-ups are free. */
const AIM = 0.99;

/**
 * Tells whether the best plan is worth bettering.
 *
 * @param problem what is bought
 * @param incumbent the best plan
 * @param bound no plan is cheaper
 * @returns true where it lies far above the bound and steps are left
 */
export function isFarFrom(problem: PurchaseProblem, incumbent: Incumbent, bound: number): boolean {
  return incumbent.price - bound > FAR * bound && !problem.budget.isSpent;
}

/**
 * Looks for a plan where the multipliers leave it open how much is ordered from one supplier and how much from another: a
 * supplier's prices are raised where its goods lie above the threshold and lowered where they lie below, in steps that grow
 * while the sign stays and halve where it turns, as in Rprop (Riedmiller and Braun, IEEE ICNN (1993) 586, from memory).
 *
 * @param problem what is bought
 * @param incumbent takes the covers
 * @param bounds of the set of suppliers
 * @param active thresholds
 * @param dual their bound
 * @param bound the same with the charges
 */
export function balance(
  problem: PurchaseProblem,
  incumbent: Incumbent,
  bounds: ThresholdBound,
  active: readonly Interval[],
  dual: DualBound,
  bound: number,
): void {
  const factors = dual.multipliers.map((multiplier) => Math.max(LEAST_FACTOR, 1 - multiplier));
  const steps = factors.map(() => 1);
  const signs = factors.map(() => 0);
  for (let round = 0; round < MOST_BALANCINGS && isFarFrom(problem, incumbent, bound); round += 1) {
    const { cover } = bounds.relaxBy(
      active,
      factors.map((factor) => 1 - factor),
    );
    for (const [i, { supplier, threshold }] of active.entries()) {
      // A top-up hits a threshold best from some way below, and costs nothing extra where the multiplier is 1.
      const aim = present(dual.multipliers[i]) < 1 ? threshold : threshold * AIM;
      const sign = Math.sign(present(cover.goods[supplier]) - aim);
      const step = present(steps[i]) * (sign * present(signs[i]) < 0 ? 0.5 : 1.2);
      steps[i] = Math.min(1, Math.max(LEAST_STEP, step));
      factors[i] = Math.min(1, present(factors[i]) * Math.exp(sign * present(steps[i])));
      signs[i] = sign;
    }
  }
}

/**
 * Betters the best plan by covering an item, or two at once, in another way that relaxations have shown: local search over
 * exchanges of one and two (Aarts and Lenstra, Local Search in Combinatorial Optimization (1997), ch. 1).
 *
 * @param problem what is bought
 * @param incumbent the best plan, which is bettered
 * @param bounds of the set of suppliers
 */
export function swapCovers(problem: PurchaseProblem, incumbent: Incumbent, { covers }: ThresholdBound): void {
  const { budget, wanted } = problem;
  const waysOf = wanted.map(({ offers }, item) => {
    const seen = covers.map((cover) => present(cover.bags[item]));
    const ways = new Map(seen.map((bags) => [bags.join(" "), bags]));
    return [...ways.values()].map((bags) => ({
      bags,
      goods: goodsBySupplier(offers, bags, problem.terms.length),
    }));
  });
  const last = Math.min(budget.most, budget.used + MOST_SWAPS * SWAP_STEPS);
  for (let before = Infinity; incumbent.price < before && budget.used < last;) {
    before = incumbent.price;
    const { bags, goods } = incumbent.base;
    const moves = wanted.flatMap(({ offers }, item): readonly Move[] => {
      const now = goodsBySupplier(offers, present(bags[item]), problem.terms.length);
      return present(waysOf[item])
        .map((way) => ({ item, bags: way.bags, shift: way.goods.map((value, i) => value - present(now[i])) }))
        .filter(({ shift }) => shift.some((value) => value !== 0));
    });
    const isBetter = (made: readonly Move[]): boolean => {
      budget.take(SWAP_STEPS);
      const sums = goods.map((value, i) =>
        made.reduce((total, { shift }) => total + present(shift[i]), value),
      );
      if (incumbent.priceOf(sums) >= incumbent.price) return false;
      const rows = [...bags];
      for (const move of made) rows[move.item] = move.bags;
      incumbent.propose({ bags: rows, goods: sums });
      return true;
    };
    if (moves.filter((move) => isBetter([move])).length > 0) continue;
    pairs: for (const [at, one] of moves.entries()) {
      for (const other of moves.slice(at + 1)) {
        if (budget.used >= last || (other.item !== one.item && isBetter([one, other]))) break pairs;
      }
    }
  }
}
