import { goodsPlan } from "../../core/event/goods-plan";
import { jobPlan } from "../../core/event/job-plan";
import { defineEvent } from "./define-event";

export const goodsPlanRows = defineEvent({
  name: "GOODS_PLAN",
  category: "The whole event",
  text: "Everything that is not a balloon: framework, fixings, ribbon, gas and hire, with packs and cost.",
  asks: [
    "poles and bases to bring",
    "panels for a wall",
    "ribbon rolls and cylinders for the event",
    "adhesive dots for all balloons",
    "hardware list",
  ],
  needs: ["pieces", "goods"],
  result: {
    kind: "table",
    text: "One row for each item, pooled over the job; closing rows for what has no price.",
    columns: [
      { name: "item", measure: "text", text: "The item." },
      { name: "supplier", measure: "text", text: "Where to get it." },
      { name: "unit", measure: "text", text: "Its unit." },
      { name: "needed", measure: "number", text: "Amount that the pieces take." },
      { name: "pack", measure: "number", text: "Content of a pack." },
      { name: "packs", measure: "count", text: "Packs to bring." },
      { name: "owned", measure: "number", text: "At hand: packs of what returns, else amount." },
      { name: "to get", measure: "count", text: "Packs to buy or hire." },
      { name: "price", measure: "money", text: "Of a pack, or of one use where it returns." },
      { name: "cost", measure: "money", text: "What the job pays." },
      { name: "left", measure: "number", text: "Amount left of what is used up." },
      { name: "returns", measure: "count", text: "Packs that come back." },
      { name: "status", measure: "text", text: "What to look at, what is missing." },
    ],
  },
  source:
    "Amounts by piece, balloon, cluster, metre, area, ribbon, helium, trip or event; charged as the balloons are",
  limits: "Goods are added up over events, also where one frame could serve two.",
  examples: [
    {
      args: [
        [
          ["name", "kind", "printed", "width", "height", "colour"],
          ["Wall", "wall", 11, 4, 2.4, "White"],
        ],
        [
          ["item", "per", "price", "returns", "pack"],
          ["panel", "m2", 1.2, "yes", null],
          ["dots", "balloon", 3.5, null, 100],
        ],
      ],
      gives: [
        ["panel", "", "piece", 10, 1, 10, 0, 10, 1.2, 12, 0, 10, "ok"],
        ["dots", "", "piece", 286, 100, 3, 0, 3, 3.5, 10.01, 14, 0, "ok"],
      ],
      within: 1e-9,
      working: "9.6 m2 up to 10 panels x 1.20; 22 x 13 = 286 balloons of 9 in, 286/100 x 3.50",
      source: "arithmetic; spacing by common practice, no source",
    },
  ],
  failures: [],
  compute: (job) => goodsPlan(jobPlan(job)),
});
