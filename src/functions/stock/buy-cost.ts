import { checkedPurchase } from "../../core/stock/checked-purchase";
import {
  delivery,
  deliveryRows,
  doubtfulNeedRows,
  doubtfulNeeds,
  priceList,
  priceRows,
  shelf,
  shelfRows,
} from "../buying-tables";
import { define } from "../define";
import { searchSteps } from "../search-steps";

export const buyCost = define({
  name: "BUY_COST",
  category: "Stock and buying",
  text: "Cost of the shopping list of BUY_PLAN, delivery included.",
  asks: ["what do all balloons cost", "cost of the order"],
  params: [doubtfulNeeds, priceList, shelf, delivery],
  result: { kind: "value", measure: "money", text: "Cost of everything bought." },
  source: "The exact optimum of BUY_PLAN",
  limits: "Withheld while anything needed cannot be bought or read: BUY_PLAN and READY_PLAN say what.",
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
      gives: "#N/A",
      when: "half a balloon",
      says: "1 problem stops the cost, the first: needs row 1",
    },
    {
      args: [
        [
          [11, "Gold", 20],
          [5, "Gold", 10],
        ],
        [["Town", 11, "Navy", 50, 9.9]],
      ],
      gives: "#N/A",
      when: "nobody sells it",
      says: "2 problems stop the cost, the first: nobody sells 11 in Gold, 20 short",
    },
  ],
  compute: (need, prices, held, terms) =>
    checkedPurchase({
      needs: doubtfulNeedRows(need),
      prices: priceRows(prices),
      stock: shelfRows(held),
      delivery: deliveryRows(terms),
      mostSteps: searchSteps(),
    }).total,
});
