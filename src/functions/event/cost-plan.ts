import { costPlan } from "../../core/event/cost-plan";
import { jobPlan } from "../../core/event/job-plan";
import { defineEvent } from "./define-event";

export const costPlanRows = defineEvent({
  name: "COST_PLAN",
  category: "The whole event",
  text: "What each piece costs and is sold for, then travel and loading, for each event and option.",
  asks: [
    "price for each piece",
    "cost of the job",
    "what does the arch cost",
    "materials, work and travel by piece",
    "share of a bag that the job pays",
  ],
  needs: ["pieces", ["price_list", "stock"]],
  result: {
    kind: "table",
    text: "One row for each piece, then travel and loading. The columns add up to the cost, the prices to the offer.",
    columns: [
      { name: "event", measure: "text", text: "The event." },
      { name: "option", measure: "text", text: "The option." },
      { name: "name", measure: "text", text: "The piece." },
      { name: "quantity", measure: "count", text: "Pieces." },
      { name: "balloons", measure: "count", text: "Balloons." },
      { name: "hours", measure: "number", text: "Person-hours: building, rigging and strike." },
      { name: "materials", measure: "money", text: "Balloons and their delivery." },
      { name: "goods", measure: "money", text: "What is no balloon." },
      { name: "work", measure: "money", text: "Hours at the pay." },
      { name: "travel", measure: "money", text: "Kilometres." },
      { name: "cost", measure: "money", text: "Sum of the four." },
      { name: "each", measure: "money", text: "Price of one." },
      { name: "price", measure: "money", text: "Price of all." },
      { name: "margin", measure: "share", text: "What the price earns." },
      { name: "bought", measure: "money", text: "Cash paid now for balloons and goods." },
      { name: "status", measure: "text", text: "What to look at, what is missing." },
    ],
  },
  source:
    "Needs pooled and bought the cheapest way; weighted average cost of IAS 2 (from memory); shared in whole cents by largest remainder",
  limits:
    "Totals stand in OPTION_PLAN. Used share assumes that left-overs are sold later; type keep for odd colours.",
  examples: [
    {
      args: [
        [
          ["name", "kind", "printed", "balloons", "colour"],
          ["Arch", "count", 11, 20, "Gold"],
        ],
        [
          ["supplier", "printed", "colour", "bag", "price"],
          ["Town", 11, "Gold", 50, 12.5],
        ],
        [
          ["term", "value"],
          ["pay", 20],
          ["crew", 1],
          ["travel", 30],
          ["distance", 15],
          ["per km", 0.45],
          ["margin", "40%"],
        ],
      ],
      gives: [
        [null, null, "Arch", 1, 20, 0.24, 5.15, 0, 4.8, 0, 9.95, 16.58, 16.58, 0.4, 12.5, "ok"],
        [
          null,
          null,
          "travel and loading",
          1,
          0,
          3.3333,
          0,
          0,
          66.67,
          27,
          93.67,
          156.12,
          156.12,
          0.4,
          0,
          null,
        ],
      ],
      within: 0.0005,
      working:
        "20/0.97 x 0.25 = 5.15; 20 x 0.5 + 2 + 20 x 0.12 = 14.4 min at 20 an hour; 2 h driving + 4 x 20 min; 60 km x 0.45; over 0.6",
      source: "arithmetic; minutes and breakage by common practice, no source",
    },
  ],
  failures: [],
  compute: (job) => costPlan(jobPlan(job)),
});
