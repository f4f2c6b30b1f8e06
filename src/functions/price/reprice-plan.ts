import { repricePlan } from "../../core/price/reprice";
import { priceFactor } from "../../core/price/sell";
import { define } from "../define";
import type { ResultColumn } from "../definition";
import { BLANK, withheldRow } from "../result-rows";
import { basis } from "../price-params";

const columns = [
  { name: "name", measure: "text", text: "Which quote." },
  { name: "price", measure: "money", text: "Price quoted." },
  { name: "cost", measure: "money", text: "Cost today." },
  { name: "margin", measure: "share", text: "Share that it earns." },
  { name: "restored", measure: "money", text: "Price that earns the floor." },
  { name: "rise", measure: "money", text: "What it must rise by." },
  { name: "status", measure: "text", text: "Keep or raise." },
] as const satisfies readonly ResultColumn[];

export const repricePlanRows = define({
  name: "REPRICE_PLAN",
  category: "Price",
  text: "Quotes whose margin fell under the floor after a price change, and the price that restores it.",
  asks: ["prices went up", "which quotes lose money", "raise the quote", "re-quote"],
  params: [
    {
      name: "quotes",
      kind: "table",
      doubtful: true,
      text: "Quotes with their cost at today's prices.",
      columns: [
        { name: "name", kind: "text", aliases: ["quote", "client", "event"], text: "Which quote." },
        {
          name: "price",
          kind: "money",
          zero: "refused",
          blank: "refused",
          text: "Price quoted, before tax.",
        },
        { name: "cost", kind: "money", zero: "refused", blank: "refused", text: "Cost at today's prices." },
      ],
    },
    { name: "floor", kind: "ratio", max: 10, text: "Least margin, as a share of the basis." },
    basis,
  ],
  keepsShape: true,
  result: {
    kind: "table",
    text: "One row for each quote.",
    columns,
  },
  source:
    "Margin (price - cost)/price, markup (price - cost)/cost; restored prices are rounded up to the cent",
  examples: [
    {
      args: [
        [
          ["Regatta", 500, 350],
          ["Birthday", 200, 100],
        ],
        0.4,
      ],
      gives: [
        ["Regatta", 500, 350, 0.3, 583.34, 83.34, null],
        ["Birthday", 200, 100, 0.5, 200, 0, null],
      ],
      within: 1e-9,
      working: "350/0.6 = 583.333, up to 583.34; the birthday earns 50%",
      source: "definition of margin, by hand",
    },
  ],
  failures: [
    {
      args: [[["Regatta", 500, 350]], 1],
      gives: "#N/A",
      when: "the floor is the whole price",
      says: "floor must be below 1",
    },
  ],
  compute: (quotes, floor, of) => {
    priceFactor(floor, of, "floor");
    return quotes.flatMap(({ cells, doubts, value }) => {
      if (value !== undefined) return repricePlan([value], floor, of);
      const row = withheldRow(columns, doubts.join("; "));
      return [
        { ...row, name: cells.name ?? BLANK, price: cells.price ?? row.price, cost: cells.cost ?? row.cost },
      ];
    });
  },
});
