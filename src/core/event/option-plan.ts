import { attempt, required } from "../attempt";
import { chargeCents, type ChargeTerms } from "../price/charge";
import { sumKnown, whenKnown, withheld, type Known } from "../withheld";
import { belowCost, type CostRow } from "./cost-rows";
import { costRowsOf, dearTravel, unpaid } from "./cost-plan";
import { check, type Problem } from "../problem";
import type { JobPlan } from "./job-plan";
import { heliumOf } from "./scenario-costs";
import { statusOf } from "./status";
import { requiredTerm, termOf, type Terms } from "./terms";
import { sumOfCents } from "./whole-cents";

/** A row of OPTION_PLAN. Helium in m3, money in the sheet's currency, whole cents. */
export interface OptionPlanRow {
  readonly event: string;
  readonly option: string;
  readonly balloons: Known;
  /** Person-hours, travel and loading included. */
  readonly hours: Known;
  readonly people: Known;
  readonly helium: Known;
  readonly bought: Known;
  readonly cost: Known;
  /** Sum of all prices. */
  readonly price: Known;
  /** 0 or below. */
  readonly discount: Known;
  readonly tax: Known;
  /** What the client pays. */
  readonly total: Known;
  /** Empty where none is given. */
  readonly budget: Known | "";
  /** Total less budget; empty without a budget. */
  readonly over: Known | "";
  readonly status: string;
}

/** What a client pays for one event, sheet's currency, whole cents. */
export interface OfferTotals {
  readonly subtotal: Known;
  readonly discount: Known;
  readonly minimum: Known;
  readonly before: Known;
  readonly tax: Known;
  readonly total: Known;
  readonly deposit: Known;
  readonly balance: Known;
}

/**
 * From the prices of the rows of one event to what the client pays.
 * Source: `chargeCents`, as QUOTE_PLAN after its subtotal.
 *
 * @param rows of one event and option
 * @param terms tax, discount and the like
 * @returns amounts; all withheld where one price is
 */
export function offerTotals(rows: readonly CostRow[], terms: Terms): OfferTotals {
  const subtotal = attempt(() => sumOfCents(rows.map(({ price }) => required(price))));
  const charge = (of: (cents: ReturnType<typeof chargeCents>) => number): Known =>
    attempt(() => of(chargeCents(Math.round(required(subtotal) * 100), chargeTerms(terms))) / 100 + 0);
  return {
    subtotal,
    discount: charge(({ off }) => -off),
    minimum: charge(({ topUp }) => topUp),
    before: charge(({ before }) => before),
    tax: charge(({ taxed }) => taxed),
    total: charge(({ total }) => total),
    deposit: charge(({ ahead }) => ahead),
    balance: charge(({ total, ahead }) => total - ahead),
  };
}

function chargeTerms(terms: Terms): ChargeTerms {
  return {
    tax: requiredTerm(terms, "tax"),
    taxIncluded: requiredTerm(terms, "tax included"),
    deposit: requiredTerm(terms, "deposit"),
    discount: requiredTerm(terms, "discount"),
    minimum: requiredTerm(terms, "minimum"),
  };
}

/**
 * OPTION_PLAN: each event with each of its options against the budget. While anything stops the job all its totals are withheld.
 *
 * @param plan of the job
 * @returns one row for each event and option
 */
export function optionPlan(plan: JobPlan): readonly OptionPlanRow[] {
  return plan.scenarios.flatMap(({ event, option, inForce }) => {
    const costs = plan.costsOf(inForce);
    const travel = costs.travel.find((of) => of.event.name === event);
    if (travel === undefined) return [];
    const { terms } = travel.event;
    const rows = costRowsOf(costs).filter((row) => row.event === event);
    const pieces = costs.pieces.filter((piece) => piece.event === travel.event);
    const stops = costs.problems.filter(({ weight, reach }) => weight === "stop" && reach.of !== "none");
    const sentence = stops[0]?.what;
    const sure = (value: Known): Known => (sentence === undefined ? value : withheld(sentence));
    const column = (name: "bought" | "cost"): Known =>
      sure(attempt(() => sumOfCents(rows.map((row) => required(row[name])))));
    const offer = offerTotals(rows, terms);
    const total = sure(offer.total);
    const { budget, over } = againstBudget(total, terms);
    const checks = costs.problems.filter(
      ({ weight }) => weight === "check" || weight === "unsafe" || weight === "no go",
    );
    return [
      {
        event,
        option,
        balloons: sumKnown(rows.map((row) => row.balloons)),
        hours: sumKnown(rows.map((row) => row.hours)),
        people: travel.people,
        helium: heliumOf(pieces),
        bought: column("bought"),
        cost: column("cost"),
        price: sure(offer.subtotal),
        discount: sure(offer.discount),
        tax: sure(offer.tax),
        total,
        budget,
        over,
        status: statusOf([...stops, ...checks, ...unpaid(costs), ...overBudget(over)]),
      },
    ];
  });
}

/** The budget and the total less the budget; both empty where none is given. */
function againstBudget(total: Known, terms: Terms): Pick<OptionPlanRow, "budget" | "over"> {
  const budget = attempt(() => termOf(terms, "budget") ?? -1);
  if (budget === -1) return { budget: "", over: "" };
  return { budget, over: whenKnown([total, budget], (pays, most) => sumOfCents([pays, -most])) };
}

function overBudget(over: OptionPlanRow["over"]): readonly Problem[] {
  if (typeof over !== "number" || over <= 0) return [];
  return [check("OPTION_PLAN", `${over.toFixed(2)} over the budget`, "make it smaller, or raise the budget")];
}

/**
 * What to look at in the prices of a job before it goes out: a price below its cost, travel that costs more than the pieces, an
 * option over the budget.
 *
 * @param plan of the job
 * @returns checks, each with the event and option that it is about where the job has several
 */
export function priceChecks(plan: JobPlan): readonly Problem[] {
  return plan.scenarios.flatMap(({ event, option, inForce }) => {
    const costs = plan.costsOf(inForce);
    const rows = costRowsOf(costs).filter((row) => row.event === event);
    const terms = costs.travel.find((of) => of.event.name === event)?.event.terms;
    const over = terms === undefined ? "" : againstBudget(offerTotals(rows, terms).total, terms).over;
    const about = [event, option === "" ? "" : `option ${option}`].filter((word) => word !== "").join(", ");
    return [...rows.flatMap((row) => belowCost(row, row.name)), ...dearTravel(rows), ...overBudget(over)].map(
      (problem) => (about === "" ? problem : { ...problem, what: `${about}: ${problem.what}` }),
    );
  });
}
