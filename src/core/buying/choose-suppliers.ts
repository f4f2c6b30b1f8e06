import { present } from "../numeric/entry-at";
import { Heap } from "../numeric/heap";
import { balance, isFarFrom, swapCovers } from "./better-plans";
import { Incumbent } from "./incumbent";
import type { Interval, PurchasePlan, SupplierTerms, Wanted } from "./purchase";
import { PurchaseProblem } from "./purchase-problem";
import { StepBudget } from "./step-budget";
import { addAndDrop, type SupplierSet, supplierSets } from "./supplier-sets";
import { ThresholdBound } from "./threshold-bound";
import { bestThresholdPlan, type ThresholdSearch } from "./threshold-plans";

/** A plan and how sure it is. */
export interface SupplierChoice extends PurchasePlan {
  /** No plan is cheaper than this, subcents; equal to `price` where the plan is proved best. */
  readonly bound: number;
  /** Work that it took, in steps of some 4 ns. */
  readonly steps: number;
}

/** A multiplier above this belongs to a threshold that binds. */
const BINDING = 1e-9;
/** Part of the bound that plans are looked for within at first. */
const FIRST_SLACK = 1e-5;
/** States followed at first, in the hope that the bound is met, and at last. */
const BEAM_WIDTHS = [100, 1000, 10_000, Infinity];

/**
 * Chooses suppliers and bags: the least goods plus delivery such that every item is covered and every supplier bought from
 * gets at least its minimum order. More than needed may be bought where that reaches a minimum or free delivery for less;
 * only items that are wanted anyway are bought for it.
 *
 * Exact, by branch and bound with the best bound first (Land and Doig, Econometrica 28 (1960) 497): sets of suppliers, then
 * an interval for each supplier, then plans that reach the thresholds. For every set the items fall apart into covering
 * knapsacks, whose sum bounds it from below; the Lagrangian dual bounds what must reach thresholds; dynamic programming
 * within what the bound leaves possible gives the best. Beyond 12 suppliers that can be left out, or the steps allowed,
 * `bound` says how much cheaper a plan could be at most.
 *
 * @param wanted items with at least one offer each
 * @param terms per supplier
 * @param mostSteps steps after which what is not yet proved is stated as a gap; 4e8 are two to three seconds
 * @returns the plan and a bound
 * @throws `#NUM!` where covering each item by itself is too much already
 */
export function chooseSuppliers(
  wanted: readonly Wanted[],
  terms: readonly SupplierTerms[],
  mostSteps: number,
): SupplierChoice {
  return new BranchAndBound(new PurchaseProblem(wanted, terms, new StepBudget(mostSteps))).run();
}

class BranchAndBound {
  private readonly queue = new Heap<() => void>();
  private readonly incumbent: Incumbent;
  private readonly lastMultipliers: number[];
  /** No plan that was given up is cheaper. */
  private bound = Infinity;

  constructor(private readonly problem: PurchaseProblem) {
    this.incumbent = new Incumbent(problem);
    this.lastMultipliers = problem.terms.map(() => 0);
  }

  run(): SupplierChoice {
    const { budget } = this.problem;
    const sets = supplierSets(this.problem);
    this.bound = sets.bound;
    addAndDrop(this.problem, this.incumbent, sets);
    for (const set of sets.sets) {
      this.push(set.least, () => {
        this.openSet(set);
      });
    }
    // Best first: nothing is opened whose bound lies above the price of the best plan.
    for (let next = this.queue.pop(); next && next.key < this.incumbent.price; next = this.queue.pop()) {
      if (budget.isSpent) {
        this.bound = Math.min(this.bound, next.key);
        break;
      }
      next.value();
    }
    const plan = this.incumbent.tidied();
    return { ...plan, bound: Math.min(plan.price, this.bound), steps: budget.used };
  }

  /** Queues work that cannot give a plan below `bound`. */
  private push(bound: number, work: () => void): void {
    const key = this.problem.onGrid(bound);
    if (key < this.incumbent.price) this.queue.push(key, work);
  }

  /** Opens a set of suppliers: its separate covers, then every choice of intervals. */
  private openSet({ open }: SupplierSet): void {
    const bounds = new ThresholdBound(this.problem, this.incumbent, open, this.lastMultipliers);
    const suppliers = this.problem.constrained.filter((supplier) => open[supplier]);
    // Multipliers that served before dismiss most sets at once.
    if (suppliers.some((supplier) => present(this.lastMultipliers[supplier]) > 0)) {
      bounds.relaxAsBefore();
      if (this.problem.onGrid(bounds.best([], suppliers)) >= this.incumbent.price) return;
    }
    const { cover } = bounds.relaxFreely();
    const decide = (decided: readonly Interval[]): void => {
      const [supplier] = suppliers.slice(decided.length);
      if (supplier === undefined) {
        // Where the separate covers reach every threshold they are the best plan of these intervals, and were proposed.
        const isMissed = decided.some((one) => present(cover.goods[one.supplier]) < one.threshold);
        if (isMissed) this.openIntervals(bounds, decided);
        return;
      }
      for (const interval of this.problem.intervalsOf(supplier)) {
        const next = [...decided, interval];
        this.push(bounds.best(next, suppliers.slice(next.length)), () => {
          decide(next);
        });
      }
    };
    this.push(bounds.best([], suppliers), () => {
      decide([]);
    });
  }

  /**
   * Opens one choice of intervals. Only thresholds that bind are active at first, since every active one multiplies the
   * states; where a plan misses another, that one becomes active too.
   */
  private openIntervals(
    bounds: ThresholdBound,
    intervals: readonly Interval[],
    active: readonly Interval[] = intervals.filter(({ threshold }) => threshold > 0),
    isChosen = false,
  ): void {
    const { problem, incumbent } = this;
    const charges = intervals.reduce((sum, { charge }) => sum + charge, 0);
    const dual = bounds.maximise(active, charges);
    const bound = dual.value + charges;
    const binding = active.filter((_, i) => present(dual.multipliers[i]) > BINDING);
    if (!isChosen && binding.length > 0 && binding.length < active.length) {
      this.push(bound, () => {
        this.openIntervals(bounds, intervals, binding, true);
      });
      return;
    }
    this.push(bound, () => {
      balance(problem, incumbent, bounds, active, dual, bound);
      if (isFarFrom(problem, incumbent, bound)) swapCovers(problem, incumbent, bounds);
      const slack = Math.max(problem.onGrid(bound) - bound, bound * FIRST_SLACK);
      this.searchPlans({ problem, incumbent, bounds, intervals, active, dual }, bound, slack);
    });
  }

  /** Searches the plans within a slack of the bound, with wider beams as long as states are dropped; then further off. */
  private searchPlans(search: ThresholdSearch, bound: number, slack: number): void {
    const { problem, incumbent } = this;
    for (const width of BEAM_WIDTHS) {
      if (incumbent.price <= problem.onGrid(bound)) return;
      // What lies at or above the best plan need not be told apart.
      const searched = Math.max(0, Math.min(slack, incumbent.price - problem.grid - bound));
      const outcome = bestThresholdPlan(search, searched, width);
      if (outcome === "none better") {
        this.push(bound + searched + problem.grid, () => {
          this.searchPlans(search, bound, 4 * slack + problem.grid);
        });
        return;
      }
      if (outcome !== "cut") {
        this.push(bound, () => {
          this.openIntervals(search.bounds, search.intervals, [...search.active, ...outcome], true);
        });
        return;
      }
    }
    this.bound = Math.min(this.bound, problem.onGrid(bound));
  }
}
