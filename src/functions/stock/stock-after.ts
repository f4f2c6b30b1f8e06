import { stockAfter } from "../../core/stock/stock-after";
import { bought, boughtRows, needRows, needs, stock, stockRows } from "../buying-tables";
import { define } from "../define";

export const stockAfterRows = define({
  name: "STOCK_AFTER",
  category: "Stock and buying",
  replacedBy: "STOCK_PLAN",
  text: "Stock on the shelf after the job: what was there and what was bought, less what was needed.",
  asks: ["what is left", "inventory after the event", "leftover balloons"],
  params: [stock, needs, { ...bought, optional: true }],
  result: {
    kind: "table",
    text: "One row for each item.",
    columns: [
      { name: "printed", measure: "in", text: "Size printed on the bag." },
      { name: "colour", measure: "text", text: "Colour." },
      { name: "before", measure: "count", text: "On the shelf before." },
      { name: "bought", measure: "count", text: "Bought for the job." },
      { name: "used", measure: "count", text: "Taken by the job." },
      { name: "count", measure: "count", text: "On the shelf after." },
      { name: "status", measure: "text", text: "What is short." },
    ],
  },
  source: "Sums per printed size and colour",
  examples: [
    {
      args: [
        [[11, "Navy", 30]],
        [
          [11, "navy", 25],
          [5, "White", 10],
        ],
        [[11, "Navy", 50]],
      ],
      gives: [
        [11, "Navy", 30, 50, 25, 55, "ok"],
        [5, "White", 0, 0, 0, 0, "short by 10"],
      ],
      within: 1e-9,
      working: "30 + 50 - 25; no white 5 in balloons anywhere",
      source: "arithmetic",
    },
  ],
  failures: [
    {
      args: [[[11, "Navy", "many"]], [[11, "Navy", 1]]],
      gives: "#VALUE!",
      when: "a count is a word",
      says: "stock row 1",
    },
  ],
  compute: (shelf, need, came) =>
    stockAfter(stockRows(shelf), needRows(need), boughtRows(came)).map((line) => ({
      printed: line.printed,
      colour: line.colour,
      before: line.before,
      bought: line.bought,
      used: line.used,
      count: line.after,
      status: line.status,
    })),
});
