import { jobPlan } from "../../core/event/job-plan";
import { optionPlan } from "../../core/event/option-plan";
import { defineEvent } from "./define-event";

export const optionPlanRows = defineEvent({
  name: "OPTION_PLAN",
  category: "The whole event",
  text: "Each event with each of its options: work, cost, price and total against the budget.",
  asks: [
    "compare options against a budget",
    "total of the offer with tax",
    "how far over the budget",
    "cheaper variant of the event",
  ],
  needs: ["pieces", ["price_list", "stock"]],
  result: {
    kind: "table",
    text: "One row for each event and option; while anything is missing its money is withheld.",
    columns: [
      { name: "event", measure: "text", text: "The event." },
      { name: "option", measure: "text", text: "The option." },
      { name: "balloons", measure: "count", text: "Balloons." },
      { name: "hours", measure: "number", text: "Person-hours, travel and loading included." },
      {
        name: "people",
        measure: "count",
        text: "People that the time on site asks for; the crew where it is not given.",
      },
      { name: "helium", measure: "L", text: "Helium to order." },
      { name: "bought", measure: "money", text: "Cash paid now for balloons and goods." },
      { name: "cost", measure: "money", text: "Sum of COST_PLAN." },
      { name: "price", measure: "money", text: "Sum of all prices." },
      { name: "discount", measure: "money", text: "Taken off, 0 or below." },
      { name: "tax", measure: "money", text: "Tax." },
      { name: "total", measure: "money", text: "What the client pays." },
      { name: "budget", measure: "money", text: "What the client can spend; empty where none is given." },
      { name: "over", measure: "money", text: "Total less budget." },
      { name: "status", measure: "text", text: "What to look at, what is missing." },
    ],
  },
  source: "COST_PLAN of each option; discount, minimum, tax as QUOTE_PLAN after its subtotal",
  limits: "With several events the others count with their chosen option, else with rows that name none.",
  examples: [
    {
      args: [
        [
          ["name", "kind", "printed", "balloons", "colour", "option"],
          ["Arch", "count", 11, 20, "Gold", "small"],
          ["Arch", "count", 11, 40, "Gold", "large"],
        ],
        [
          ["supplier", "printed", "colour", "bag", "price"],
          ["Town", 11, "Gold", 50, 12.5],
        ],
        [
          ["term", "value"],
          ["pay", 20],
          ["crew", 1],
          ["travel", "none"],
          ["distance", "none"],
          ["per km", "none"],
          ["margin", "none"],
          ["tax", "20%"],
          ["budget", 50],
        ],
      ],
      gives: [
        [null, "small", 20, 1.5733, 1, 0, 12.5, 36.62, 36.62, 0, 7.32, 43.94, 50, -6.06, null],
        [null, "large", 40, 1.9133, 1, 0, 12.5, 48.58, 48.58, 0, 9.72, 58.3, 50, 8.3, null],
      ],
      within: 0.0005,
      working:
        "14.4 min + 80 min of loading at 20 an hour, 5.15 of balloons: 4.80 + 26.67 + 5.15; 40 balloons: 34.8 min, 11.60 + 26.67 + 10.31; tax 20 %",
      source: "arithmetic; minutes and breakage by common practice, no source",
    },
  ],
  failures: [],
  compute: (job) => optionPlan(jobPlan(job)),
});
