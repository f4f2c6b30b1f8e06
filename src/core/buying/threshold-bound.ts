import { maximiseConcave } from "../numeric/concave";
import { present } from "../numeric/entry-at";
import type { Incumbent } from "./incumbent";
import type { Cover, Interval } from "./purchase";
import type { PurchaseProblem, SeparateCovers } from "./purchase-problem";

/** The items of a set covered separately, at prices that multipliers have reduced. */
export interface Relaxation extends SeparateCovers {
  /** Per supplier, 0 to 1. */
  readonly multipliers: readonly number[];
}

/** A point of the dual: multipliers of the active thresholds and the bound they give, charges apart. */
export interface DualPoint {
  readonly multipliers: readonly number[];
  readonly value: number;
  /** Least reduced price of every item. */
  readonly prices: readonly number[];
}

/** The best point of the dual that was found. */
export interface DualBound {
  readonly multipliers: readonly number[];
  /** No plan that reaches the active thresholds is cheaper, charges apart. */
  readonly value: number;
  /** Every point that was evaluated, 0 first. */
  readonly points: readonly DualPoint[];
}

const MOST_POINTS = 100;

/**
 * Lower bounds for a set of suppliers whose orders must reach thresholds: the Lagrangian dual. A multiplier on a threshold
 * takes its part off the supplier's prices, the items fall apart again, and what is missing of the threshold is a
 * subgradient. Multipliers above 1 are of no use, since prices would be negative and a top-up costs 1 a unit.
 * Source: Fisher, Management Science 27 (1981) 1.
 */
export class ThresholdBound {
  private readonly relaxations: Relaxation[] = [];

  /**
   * @param problem what is bought
   * @param incumbent takes the covers that are seen
   * @param open per supplier, whether it may be bought from
   * @param lastMultipliers per supplier, of the bound before, written on: those of the next are mostly near
   */
  constructor(
    private readonly problem: PurchaseProblem,
    private readonly incumbent: Incumbent,
    readonly open: readonly boolean[],
    private readonly lastMultipliers: number[],
  ) {}

  /** Covers that were seen. */
  get covers(): readonly Cover[] {
    return this.relaxations.map(({ cover }) => cover);
  }

  /**
   * Covers every item separately under multipliers.
   *
   * @param multipliers per supplier; those of no matter are 0
   * @returns what is remembered of before, or is found now
   */
  relax(multipliers: readonly number[]): Relaxation {
    const known = this.relaxations.find((one) => one.multipliers.every((part, i) => part === multipliers[i]));
    if (known) return known;
    const separate = this.problem.cover(this.problem.pricing(this.open, multipliers));
    this.incumbent.propose(separate.cover);
    const relaxation = { multipliers, ...separate };
    this.relaxations.push(relaxation);
    return relaxation;
  }

  /** Relaxes by the multipliers of the bound before. */
  relaxAsBefore(): void {
    this.relax([...this.lastMultipliers]);
  }

  /** Relaxes by no multipliers at all. */
  relaxFreely(): Relaxation {
    return this.relax(this.lastMultipliers.map(() => 0));
  }

  /** Relaxes by multipliers of some intervals, 0 for the other suppliers. */
  relaxBy(active: readonly Interval[], multipliers: readonly number[]): Relaxation {
    return this.relax(this.bySupplier(active, multipliers));
  }

  /** Multipliers of some intervals as one per supplier, 0 for the others. */
  bySupplier(active: readonly Interval[], multipliers: readonly number[]): readonly number[] {
    const all = this.problem.terms.map(() => 0);
    active.forEach(({ supplier }, i) => (all[supplier] = present(multipliers[i])));
    return all;
  }

  /**
   * The best bound that relaxations so far give.
   *
   * @param decided intervals that suppliers are held to
   * @param undecided suppliers that take their cheapest interval
   * @returns subcents, charges included
   */
  best(decided: readonly Interval[], undecided: readonly number[]): number {
    const charges = decided.reduce((total, { charge }) => total + charge, 0);
    const ways = undecided.map((supplier) => this.problem.intervalsOf(supplier));
    const bounds = this.relaxations.map(({ multipliers, price }) => {
      const paid = ({ supplier, threshold }: Interval): number => present(multipliers[supplier]) * threshold;
      return ways.reduce(
        (total, intervals) => total + Math.min(...intervals.map((one) => paid(one) + one.charge)),
        decided.reduce((total, one) => total + paid(one), price + charges),
      );
    });
    return Math.max(...bounds);
  }

  /**
   * Maximises the dual over the multipliers of active thresholds by Kelley's cutting planes (`maximiseConcave`).
   *
   * @param active thresholds
   * @param charges of all intervals decided on, subcents
   * @returns the best point, and all that were evaluated
   */
  maximise(active: readonly Interval[], charges: number): DualBound {
    const points: DualPoint[] = [];
    const { point, value } = maximiseConcave(
      active.length,
      (multipliers) => {
        const { price, prices, cover } = this.relaxBy(active, multipliers);
        const bound = active.reduce(
          (total, { threshold }, i) => total + present(multipliers[i]) * threshold,
          price,
        );
        points.push({ multipliers, value: bound, prices });
        const slope = active.map(({ supplier, threshold }) => threshold - present(cover.goods[supplier]));
        return { value: bound, slope };
      },
      this.problem.grid / 2,
      (best) =>
        points.length < MOST_POINTS && !this.problem.budget.isSpent && best + charges < this.incumbent.price,
      active.map(({ supplier }) => present(this.lastMultipliers[supplier])),
    );
    active.forEach(({ supplier }, i) => (this.lastMultipliers[supplier] = present(point[i])));
    return { multipliers: point, value, points };
  }
}
