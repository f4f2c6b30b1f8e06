import { orNone } from "../numeric/tally";
import { whenKnown, withheld, type Known } from "../withheld";
import { settledCosts } from "./goods-plan";
import type { BalloonType } from "./cells";
import { check, type Problem } from "../problem";
import type { JobPlan } from "./job-plan";
import type { ItemPurchase } from "./purchases";
import { shelfOf } from "./shelf";
import { statusOf, stopping } from "./status";
import { itemBook, type BookLine } from "./week";
import { nearestCent } from "./whole-cents";

/** A row of STOCK_PLAN. Sizes in m, money in the sheet's currency. */
export interface StockPlanRow {
  /** Excel serial; empty where the event has no dates. */
  readonly date: Known | "";
  readonly event: string;
  readonly printed: Known | "";
  readonly colour: string;
  readonly type: BalloonType | "";
  readonly what: string;
  readonly in: Known | "";
  readonly out: Known | "";
  readonly balance: Known;
  readonly "value each": Known;
  /** Of the balance. */
  readonly value: Known;
  readonly status: string;
}

/**
 * STOCK_PLAN: the book of every item by date, from the shelf through one order for all events to what is left, and who takes what
 * from where.
 * Source: `itemWeek`, `itemBook`; value by weighted average cost, one of the two ordinary formulas of IAS 2 (from memory).
 *
 * @param plan of the job
 * @returns rows by item, then by time
 * @throws CalcError `#N/A` where an option must be chosen
 */
export function stockPlan(plan: JobPlan): readonly StockPlanRow[] {
  const { purchases, problems } = settledCosts(plan);
  const job = stopping(problems, "job");
  const { held } = shelfOf(
    plan.job,
    purchases.items.map(({ need }) => need),
  );
  const rows = purchases.items.flatMap((item) => {
    const shelf = held.get(item.need.key);
    const count = orNone(shelf?.count);
    const lines = itemBook(item.need.week, count, item.bought);
    const before = valueEach({ ...item, bought: 0, paid: 0 }, count, shelf?.worth);
    const after = valueEach(item, count, shelf?.worth);
    const own = problems.filter(({ reach }) => reach.of === "item" && reach.key === item.need.key);
    return lines.map((line) => {
      const each = line.what === "opening" ? before : after;
      return rowOf(item, line, each, job, [...(line.what === "opening" ? own : []), ...surplus(line, lines)]);
    });
  });
  const stops = problems.filter(({ weight, reach }) => weight === "stop" && reach.of === "job");
  return [...rows, ...stops.map(closingRow)];
}

/** Weighted average of what lies there and what is bought. */
function valueEach(
  { bought, paid, todayEach, need, short }: ItemPurchase,
  count: number,
  worth: { readonly typed: number; readonly unpriced: number } | undefined,
): Known {
  if (short > 0) return withheld(`${short} of ${need.item.colour.trim()} cannot be had`);
  const { typed = 0, unpriced = 0 } = worth ?? {};
  if (unpriced > 0 && todayEach === undefined)
    return withheld("value each must be given in stock, found nothing");
  const balloons = count + bought;
  return balloons === 0 ? 0 : (typed + unpriced * orNone(todayEach) + paid) / balloons;
}

function rowOf(
  { need }: ItemPurchase,
  line: BookLine,
  each: Known,
  job: string | undefined,
  own: readonly Problem[],
): StockPlanRow {
  const sure = (value: Known): Known => (job === undefined ? value : withheld(job));
  const { what, balance } = line;
  const short = what === "out" && balance < 0 ? [gap(shortText(line))] : [];
  const status = statusOf([...own, ...short]);
  return {
    date: line.date ?? "",
    event: line.event,
    printed: need.item.printed,
    colour: need.item.colour.trim(),
    type: need.item.type ?? "latex",
    what,
    in: what === "out" || what === "closing" ? "" : sure(line.in),
    out: what === "out" ? sure(line.out) : "",
    balance: sure(balance),
    "value each": sure(each),
    value: sure(whenKnown([each], (value) => nearestCent(value * Math.max(0, balance)))),
    status: status === "ok" ? `ok${remark(line)}` : status,
  };
}

function remark({ what, fromShelf, fromOrder, isCounted }: BookLine): string {
  if (what === "out") return `: ${fromShelf} from the shelf, ${fromOrder} from the order`;
  if (what === "back") return isCounted ? ": as counted" : ": as planned";
  return "";
}

function shortText({ balance, event }: BookLine): string {
  return `${-balance} short when ${event === "" ? "the balloons leave" : `"${event}" leaves`}`;
}

/** More balloons that came back than left. */
function surplus(line: BookLine, lines: readonly BookLine[]): readonly Problem[] {
  if (line.what !== "back" || !line.isCounted) return [];
  const left = lines.find(({ what, event }) => what === "out" && event === line.event);
  if (left === undefined || line.in <= left.out) return [];
  const what = `${line.in} came back from "${line.event}" of ${left.out} planned to leave`;
  return [check("past_jobs", what, "count again, or type what was really taken")];
}

function gap(what: string): Problem {
  return { weight: "stop", table: "STOCK_PLAN", what, todo: "buy more", reach: { of: "none" } };
}

function closingRow(problem: Problem): StockPlanRow {
  const unknown = withheld(problem.what);
  return {
    date: "",
    event: "",
    printed: unknown,
    colour: "",
    type: "",
    what: "",
    in: unknown,
    out: unknown,
    balance: unknown,
    "value each": unknown,
    value: unknown,
    status: statusOf([problem]),
  };
}
