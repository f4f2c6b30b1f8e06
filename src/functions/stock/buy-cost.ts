import { buyPlan } from "../../core/stock/buy-plan";
import {
  delivery,
  deliveryRows,
  needRows,
  needs,
  priceList,
  priceRows,
  stock,
  stockRows,
} from "../buying-tables";
import { define } from "../define";

export const buyCost = define({
  name: "BUY_COST",
  category: "Stock and buying",
  text: "Cost of the shopping list of BUY_PLAN, delivery included.",
  asks: ["what do all balloons cost", "cost of the order"],
  params: [needs, priceList, { ...stock, optional: true }, { ...delivery, optional: true }],
  result: { kind: "value", measure: "money", text: "Cost of everything bought." },
  source: "The exact optimum of BUY_PLAN",
  limits: "Items that nobody sells cost nothing here: look at the status of BUY_PLAN.",
  examples: [
    {
      args: [
        [[11, "Navy", 96]],
        [
          ["Town", 11, "Navy", 50, 9.9],
          ["Online", 11, "Navy", 100, 17.2],
        ],
        null,
        [
          ["supplier", "charge"],
          ["Online", 5.9],
        ],
      ],
      gives: 19.8,
      within: 1e-9,
      working: "17.20 + 5.90 delivery is more than 2 x 9.90",
      source: "compared by hand",
    },
  ],
  failures: [
    {
      args: [[[11, "Navy", 1.5]], [["Town", 11, "Navy", 50, 9]]],
      gives: "#VALUE!",
      when: "half a balloon",
      says: "needs row 1",
    },
  ],
  compute: (need, prices, shelf, terms) =>
    buyPlan(needRows(need), priceRows(prices), stockRows(shelf), deliveryRows(terms)).total,
});
