import { required } from "../attempt";
import { orNone } from "../numeric/tally";
import { isWithheld, type Known } from "../withheld";
import { costRows, TRAVEL_NAME, type CostRow } from "./cost-rows";
import { check, type Problem } from "../problem";
import type { JobPlan } from "./job-plan";
import type { ScenarioCosts } from "./scenario-costs";
import { statusOf } from "./status";
import { sumOfCents } from "./whole-cents";

/** A row of COST_PLAN. Money in the sheet's currency, whole cents. */
export interface CostPlanRow {
  readonly event: string;
  readonly option: string;
  readonly name: string;
  readonly quantity: Known;
  readonly balloons: Known;
  /** Person-hours: building, rigging and, where pieces are collected, strike. */
  readonly hours: Known;
  readonly materials: Known;
  readonly goods: Known;
  readonly work: Known;
  readonly travel: Known;
  readonly cost: Known;
  readonly each: Known;
  readonly price: Known;
  /** Share of the basis; empty where there is nothing to earn it on. */
  readonly margin: Known | "";
  readonly bought: Known;
  readonly status: string;
}

/**
 * COST_PLAN: what each piece costs and is sold for, then travel and loading, for each event and option.
 *
 * @param plan of the job
 * @returns rows whose columns add up to their cost, and whose prices add up to the offer
 */
export function costPlan(plan: JobPlan): readonly CostPlanRow[] {
  return plan.scenarios.flatMap(({ event, option, inForce }) => {
    const costs = plan.costsOf(inForce);
    const rows = costRowsOf(costs).filter((row) => row.event === event);
    return rows.map((row, index) => {
      const problems = index === rows.length - 1 ? [...row.problems, ...closing(costs, rows)] : row.problems;
      return {
        event,
        option,
        name: row.name,
        quantity: row.quantity,
        balloons: row.balloons,
        hours: row.hours,
        materials: row.materials,
        goods: row.goods,
        work: row.work,
        travel: row.travel,
        cost: row.cost,
        each: row.each,
        price: row.price,
        margin: row.margin,
        bought: row.bought,
        status: statusOf(problems),
      };
    });
  });
}

const rowsOfCosts = new WeakMap<ScenarioCosts, readonly CostRow[]>();

/**
 * The rows of a scenario, computed once.
 *
 * @param costs worked out
 * @returns as `costRows`
 */
export function costRowsOf(costs: ScenarioCosts): readonly CostRow[] {
  const known = rowsOfCosts.get(costs) ?? costRows(costs);
  rowsOfCosts.set(costs, known);
  return known;
}

/** What to look at once all rows of an event are known. */
function closing(costs: ScenarioCosts, rows: readonly CostRow[]): readonly Problem[] {
  return [...unpaid(costs), ...dearTravel(rows)];
}

/** What is paid for now and charged to nobody. */
export function unpaid({ materials, goods }: ScenarioCosts): readonly Problem[] {
  const parts = [
    { name: "balloons", amount: materials.unpaid },
    ...goods.goods.map(({ good, charge }) => ({ name: good.item, amount: orNone(charge?.unpaid) })),
  ]
    .map(({ name, amount }) => ({ name, amount: Math.round(amount * 100) / 100 }))
    .filter(({ amount }) => amount > 0);
  if (parts.length === 0) return [];
  const total = sumOfCents(parts.map(({ amount }) => amount)).toFixed(2);
  const list = parts.map(({ name, amount }) => `${name} ${amount.toFixed(2)}`).join(", ");
  return [
    check(
      "COST_PLAN",
      `${total} stays on the shelf, unpaid by this job (${list})`,
      "choose costing, leftover worth or keep",
    ),
  ];
}

/**
 * Travel that costs more than all that is built: most often a crew or a distance that was mistyped.
 *
 * @param rows of one event
 * @returns one check at most; none while a cost is withheld
 */
export function dearTravel(rows: readonly CostRow[]): readonly Problem[] {
  const travel = rows.find(({ name }) => name === TRAVEL_NAME);
  const pieces = rows.filter((row) => row !== travel);
  if (travel === undefined || rows.some(({ cost }) => isWithheld(cost))) return [];
  const cost = sumOfCents(pieces.map((row) => required(row.cost)));
  if (required(travel.cost) <= cost) return [];
  return [
    check(
      "COST_PLAN",
      `travel and loading cost more than the pieces, ${cost.toFixed(2)}`,
      "look at travel and crew",
    ),
  ];
}
