import { unavailable } from "../calc-error";
import { whenKnown, withheld, type Known } from "../withheld";
import type { PlannedGood } from "./goods";
import type { Problem } from "../problem";
import type { JobPlan } from "./job-plan";
import type { ScenarioCosts } from "./scenario-costs";
import { unsettledOption } from "./scope";
import { statusOf, stopping } from "./status";
import { nearestCent } from "./whole-cents";

/** A row of GOODS_PLAN. Amounts in the unit, money in the sheet's currency. */
export interface GoodsPlanRow {
  readonly item: string;
  readonly supplier: string;
  readonly unit: string;
  readonly needed: Known;
  readonly pack: number | "";
  /** Packs to bring. */
  readonly packs: Known;
  readonly owned: number | "";
  /** Packs to buy or hire. */
  readonly "to get": Known;
  readonly price: Known;
  /** What the job pays. */
  readonly cost: Known;
  /** What is left of what is used up, in the unit. */
  readonly left: Known;
  /** Packs that come back. */
  readonly returns: Known;
  readonly status: string;
}

/**
 * The one scenario of a plan that cannot list options side by side.
 *
 * @param plan of the job
 * @returns it, worked out
 * @throws CalcError `#N/A` where pieces name options and the terms choose none
 */
export function settledCosts(plan: JobPlan): ScenarioCosts {
  const open = unsettledOption(plan.scope);
  if (open !== undefined) throw unavailable(open);
  return plan.costsOf(plan.chosen);
}

/**
 * GOODS_PLAN: everything that is not a balloon, pooled over the job, with what it costs.
 *
 * @param plan of the job
 * @returns one row for each item, then one for each gap that stands in no row
 * @throws CalcError `#N/A` where an option must be chosen
 */
export function goodsPlan(plan: JobPlan): readonly GoodsPlanRow[] {
  const { goods, problems } = settledCosts(plan);
  const job = stopping(problems, "job");
  const rows = goods.goods.map((good) => rowOf(good, job, problems));
  const placed = new Set(goods.goods.flatMap((good) => good.problems.map(({ what }) => what)));
  const closing = goods.problems.filter(({ what, weight }) => weight !== "note" && !placed.has(what));
  const jobStops = problems.filter(({ weight, reach }) => weight === "stop" && reach.of === "job");
  return [...rows, ...[...new Set([...closing, ...jobStops])].map(closingRow)];
}

// Nobody measures finer, and binary dust would show in the cell.
const tidy = (amount: number): number => Math.round(amount * 1e6) / 1e6;

function rowOf(planned: PlannedGood, job: string | undefined, problems: readonly Problem[]): GoodsPlanRow {
  const { good, needed, packs, toGet, charge, why, left } = planned;
  const sure = (value: Known): Known => (job === undefined ? value : withheld(job));
  const cost =
    charge === undefined ? withheld(why ?? `price of "${good.item}" is not known`) : nearestCent(charge.pays);
  const price = good.price ?? withheld(why ?? `price of "${good.item}" is not known`);
  const own = problems.filter(({ reach }) => reach.of === "good" && reach.item === good.key);
  return {
    item: good.item,
    supplier: good.supplier,
    unit: good.unit,
    needed: sure(whenKnown([needed], tidy)),
    pack: good.pack,
    packs: sure(packs),
    owned: good.owned,
    "to get": sure(toGet),
    price,
    cost: sure(cost),
    left: sure(whenKnown([left], tidy)),
    returns: good.returns ? sure(packs) : 0,
    status: statusOf([...own, ...planned.problems]),
  };
}

function closingRow(problem: Problem): GoodsPlanRow {
  const unknown = withheld(problem.what);
  const isStop = problem.weight === "stop";
  const number = isStop ? unknown : 0;
  return {
    item: "",
    supplier: "",
    unit: "",
    needed: number,
    pack: "",
    packs: number,
    owned: "",
    "to get": number,
    price: number,
    cost: number,
    left: number,
    returns: number,
    status: statusOf([problem]),
  };
}
