import { checkedPurchase } from "../../core/stock/checked-purchase";
import { isWithheld, withheld } from "../../core/withheld";
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
import type { ResultColumn } from "../definition";
import { blankRow } from "../result-rows";
import { searchSteps } from "../search-steps";

const columns = [
  { name: "printed", measure: "in", text: "Size printed on the bag; blank on a delivery charge." },
  { name: "colour", measure: "text", text: "Colour." },
  { name: "needed", measure: "count", text: "Balloons needed." },
  { name: "from stock", measure: "count", text: "Balloons taken from the shelf." },
  { name: "supplier", measure: "text", text: "Where to buy." },
  { name: "bag", measure: "count", text: "Balloons in the bag." },
  { name: "price", measure: "money", text: "Price of one bag." },
  { name: "bags", measure: "count", text: "Bags to buy." },
  { name: "cost", measure: "money", text: "Cost of these bags, or the charge." },
  { name: "left", measure: "count", text: "Balloons left over after the event." },
  { name: "status", measure: "text", text: "What to look at, or why a number is withheld." },
  { name: "type", measure: "text", text: "Latex, foil or long." },
] as const satisfies readonly ResultColumn[];
const blank = blankRow(columns);

export const buyPlanRows = define({
  name: "BUY_PLAN",
  category: "Stock and buying",
  text: "Shopping list for the event: the cheapest bags from all suppliers, stock first, delivery included.",
  asks: ["what to order", "shopping list", "cheapest supplier", "order bags for the event"],
  params: [doubtfulNeeds, priceList, shelf, delivery],
  keepsShape: true,
  result: {
    kind: "table",
    text: "One row for each item and bag, one for each delivery charge, then one for each row that cannot be read.",
    columns,
  },
  source:
    "Exact optimum over bags, suppliers, charges, least orders and free delivery; a gap that is not proved is stated in the last status",
  limits: "Exact for up to 12 suppliers with delivery terms and a bounded search beyond.",
  examples: [
    {
      args: [
        [
          ["printed", "colour", "with spares"],
          [11, "Navy", 106],
          [11, "Gold", 20],
        ],
        [
          ["supplier", "printed", "colour", "bag", "price"],
          ["Town", 11, "Navy", 50, 9.9],
          ["Online", 11, "Navy", 100, 17.2],
        ],
        [
          ["printed", "colour", "count"],
          [11, "navy", 10],
        ],
      ],
      gives: [
        [11, "Navy", 106, 10, "Online", 100, 17.2, 1, 17.2, 4, "ok", "latex"],
        [11, "Gold", 20, 0, "", 0, "#N/A", 0, "#N/A", 0, "stop: nobody sells 11 in Gold, 20 short", "latex"],
      ],
      within: 1e-9,
      working: "96 after stock: one bag of 100 for 17.20 beats two of 50 for 19.80; nobody sells Gold",
      source: "compared by hand",
    },
  ],
  failures: [
    {
      args: [[[11, "Navy", 10]], [["Town", 11, "Navy", 50, "n/a"]]],
      gives: "#N/A",
      when: "a price is n/a",
      says: 'price_list row 1: price must be an amount of money such as 14.90, found "n/a"',
    },
    {
      args: [
        [[11, "Navy", 10]],
        [
          ["Town", 11, "Navy", 50, 9.9],
          ["town", 11, "navy", 50, 10.9],
        ],
      ],
      gives: "#N/A",
      when: "one bag has two prices",
      says: "price_list row 2: price must be the same as in row 1",
    },
  ],
  compute: (need, prices, held, terms) => {
    const plan = checkedPurchase({
      needs: doubtfulNeedRows(need),
      prices: priceRows(prices),
      stock: shelfRows(held),
      delivery: deliveryRows(terms),
      mostSteps: searchSteps(),
    });
    const rows = plan.lines.map((line) => ({
      printed: line.printed,
      colour: line.colour,
      needed: line.needed,
      "from stock": line.fromStock,
      supplier: line.supplier,
      bag: line.bag,
      price: line.price,
      bags: line.bags,
      cost: line.cost,
      left: line.leftOver,
      status: line.status,
      type: line.type ?? "latex",
    }));
    const charges = plan.orders
      .filter((order) => order.delivery !== 0)
      .map(({ supplier, delivery: cost }) => ({
        ...blank,
        supplier,
        cost,
        status: isWithheld(cost) ? `stop: ${cost.sentence}` : "ok: delivery charge",
      }));
    const gap =
      plan.gap === 0
        ? []
        : [{ ...blank, status: `ok: a cheaper plan could save at most ${plan.gap.toFixed(2)}` }];
    const unread = plan.problems
      .filter(({ row, weight }) => row !== undefined && (weight === "stop" || weight === "note"))
      .map(({ weight, what, reach }) => ({
        ...blank,
        ...(weight === "stop" && reach.of === "job" && { cost: withheld(what) }),
        status: weight === "stop" ? `stop: ${what}` : `ok: ${what}`,
      }));
    const undelivered = plan.problems
      .filter(({ table, weight }) => table === "delivery" && weight === "check")
      .map(({ what }) => ({ ...blank, status: `check: ${what}` }));
    return [...rows, ...charges, ...undelivered, ...gap, ...unread];
  },
});
