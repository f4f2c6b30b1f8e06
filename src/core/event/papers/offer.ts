import { Refusal } from "../../calc-error";
import { orNone } from "../../numeric/tally";
import { isWithheld, type Known } from "../../withheld";
import { costRowsOf } from "../cost-plan";
import type { CostRow } from "../cost-rows";
import { dangersOf } from "../dangers";
import type { Problem } from "../../problem";
import type { JobPlan } from "../job-plan";
import { offerTotals } from "../option-plan";
import { termOf } from "../terms";
import { moneyText, paperLine, type PaperRow } from "./paper";

/**
 * The offer to a client: each piece with its price, and from their sum to what the client pays. It shows no cost, hours or
 * margin. Options that are not decided stand side by side, each with its own total.
 *
 * @param plan of the job
 * @param event as the job names it
 * @returns lines
 * @throws Refusal `#N/A` while anything stops the job or endangers a person
 */
export function offerPaper(plan: JobPlan, event: string): readonly PaperRow[] {
  const scenarios = plan.scenarios.filter((scenario) => scenario.event === event);
  return scenarios.flatMap(({ option, inForce }) => {
    const costs = plan.costsOf(inForce);
    refuse([...costs.problems, ...dangersOf(costs)]);
    const travel = costs.travel.find((of) => of.event.name === event);
    const rows = costRowsOf(costs).filter((row) => row.event === event);
    if (travel === undefined) return [];
    const section = option === "" ? "offer" : `offer ${option}`;
    const { terms } = travel.event;
    const totals = offerTotals(rows, terms);
    const total = (line: string, amount: Known, note = ""): readonly PaperRow[] => [
      paperLine(section, line, amount, "", note),
    ];
    const unlessNone = (line: string, amount: Known, note = ""): readonly PaperRow[] =>
      amount === 0 ? [] : total(line, amount, note);
    const isIncluded = termOf(terms, "tax included") === true;
    const percent = (name: "tax" | "discount" | "deposit"): string =>
      `${Number((orNone(termOf(terms, name)) * 100).toFixed(4))} %`;
    return [
      ...rows.filter(({ quantity }) => quantity !== 0).map((row) => pieceLine(section, row)),
      ...total("subtotal", totals.subtotal),
      ...unlessNone("discount", totals.discount, percent("discount")),
      ...unlessNone("minimum charge", totals.minimum),
      ...(totals.before === totals.subtotal ? [] : total("before tax", totals.before)),
      ...unlessNone("tax", totals.tax, isIncluded ? `${percent("tax")}, included` : percent("tax")),
      ...total("total", totals.total),
      ...(totals.deposit === 0
        ? []
        : [...total("deposit", totals.deposit, percent("deposit")), ...total("balance", totals.balance)]),
    ];
  });
}

function pieceLine(section: string, { name, price, each, quantity }: CostRow): PaperRow {
  const isOne = quantity === 1 || isWithheld(quantity) || isWithheld(each);
  return paperLine(section, name, price, isOne ? "" : `${quantity} at ${moneyText(each)}`);
}

function refuse(problems: readonly Problem[]): void {
  const stops = [
    ...new Set(
      problems
        .filter(({ weight, reach }) => (weight === "stop" && reach.of !== "none") || weight === "unsafe")
        .map(({ what }) => what),
    ),
  ];
  const [first] = stops;
  if (first === undefined) return;
  const count = stops.length === 1 ? "1 problem stops" : `${stops.length} problems stop`;
  throw new Refusal("#N/A", `${count} the offer, the first: ${first}`);
}
