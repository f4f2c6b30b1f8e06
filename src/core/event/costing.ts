import { sum } from "../numeric/sums";
import { grouped } from "../stock/grouped";
import type { PartDemand } from "./item-needs";
import type { ItemPurchase } from "./purchases";
import type { TermCells } from "./term-cells";

/** What a job is charged for what it takes, and what is left of it. Money in the sheet's currency, not rounded. */
export interface Charge {
  /** What the job pays. */
  readonly pays: number;
  /** Cash paid out for it now. */
  readonly bought: number;
  /** Worth of what was taken or bought and is not charged to the job: it stays on the shelf. */
  readonly unpaid: number;
  /** Worth of one left-over as it goes back to stock. */
  readonly leftEach: number;
}

/** What goes into a charge: an item of balloons or of goods that are used up. */
export interface Taken {
  /** Used up on average, not more than is taken. */
  readonly used: number;
  /** Taken from the shelf and bought. */
  readonly taken: number;
  /** Worth of all that is taken. */
  readonly worth: number;
  readonly bought: number;
  /** Cheapest price of one today; undefined where nobody sells it. */
  readonly todayEach: number | undefined;
}

/**
 * What a job pays for what it takes. `used share` pays what is used at the weighted average worth, and the part of the rest that
 * left-overs are not worth; `whole bags` pays everything; `replacement` pays what is used at today's cheapest price.
 * Source: weighted average cost, one of the two ordinary formulas of IAS 2 (from memory).
 *
 * @param taken amounts and worth
 * @param costing the method
 * @param worth share of their worth that left-overs keep
 * @returns the charge; replacement needs `todayEach` where anything is used
 */
export function chargeOf(taken: Taken, costing: TermCells["costing"], worth: number): Charge {
  const { used, worth: all, bought } = taken;
  const each = taken.taken > 0 ? all / taken.taken : 0;
  if (costing === "whole bags") return { pays: all, bought, unpaid: 0, leftEach: 0 };
  if (costing === "replacement") {
    const today = taken.todayEach ?? each;
    return { pays: used * today, bought, unpaid: Math.max(0, all - used * each), leftEach: today };
  }
  const rest = Math.max(0, all - used * each);
  return { pays: used * each + (1 - worth) * rest, bought, unpaid: worth * rest, leftEach: each * worth };
}

/**
 * The charge of one item of balloons.
 *
 * @param purchase how the job comes by it
 * @param costing the method
 * @param worth share of their worth that left-overs keep
 * @returns what the job pays for it
 */
export function itemCharge(purchase: ItemPurchase, costing: TermCells["costing"], worth: number): Charge {
  const { need, fromStock, bought, paid, stockValue = 0, todayEach } = purchase;
  return chargeOf(
    {
      used: Math.min(need.expected, need.take),
      taken: fromStock + bought,
      worth: stockValue + paid,
      bought: paid,
      todayEach,
    },
    costing,
    worth,
  );
}

/**
 * How much of an item's charge each demand bears: by its expected use; under whole bags events share by what they need, since
 * nobody pays for left-overs later.
 *
 * @param demands of one item
 * @param costing the method
 * @returns shares that add up to 1, or zeros where nothing is used
 */
export function demandShares(
  demands: readonly PartDemand[],
  costing: TermCells["costing"],
): ReadonlyMap<PartDemand, number> {
  const use = ({ count, breakage }: PartDemand): number => count / (1 - breakage);
  const all = sum(demands.map(use));
  if (all === 0) return new Map(demands.map((demand) => [demand, 0]));
  if (costing !== "whole bags") return new Map(demands.map((demand) => [demand, use(demand) / all]));
  const needed = sum(demands.map(({ count }) => count));
  const byEvent = [...grouped(demands, ({ planned }) => planned.piece.event).values()];
  return new Map(
    byEvent.flatMap((ofEvent) => {
      const share = sum(ofEvent.map(({ count }) => count)) / needed;
      const used = sum(ofEvent.map(use));
      return ofEvent.map((demand) => [demand, used === 0 ? 0 : (share * use(demand)) / used] as const);
    }),
  );
}
