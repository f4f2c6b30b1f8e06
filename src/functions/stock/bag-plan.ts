import { bagPlan } from "../../core/stock/bag-plan";
import { bagPrices, bagSizes, neededCount } from "../bag-params";
import { define } from "../define";

export const bagPlanRows = define({
  name: "BAG_PLAN",
  category: "Stock and buying",
  text: "Cheapest mix of bags that covers a count.",
  asks: ["which bags to buy", "cheapest bags", "bag mix"],
  params: [neededCount, bagSizes, bagPrices],
  result: {
    kind: "table",
    text: "One row for each bag size, in the order of the sizes.",
    columns: [
      { name: "bag", measure: "count", text: "Balloons in the bag." },
      { name: "price", measure: "money", text: "Price of one bag." },
      { name: "bags", measure: "count", text: "Bags to buy." },
      { name: "cost", measure: "money", text: "Cost of these bags." },
      { name: "status", measure: "text", text: "What is left over." },
    ],
  },
  source: "Exact covering knapsack; ties: fewest left over, then fewest bags",
  examples: [
    {
      args: [237, [100, 50, 25, 10], [9.5, 5.5, 3.25, 1.6]],
      gives: [
        [100, 9.5, 2, 19, null],
        [50, 5.5, 1, 5.5, null],
        [25, 3.25, 0, 0, null],
        [10, 1.6, 0, 0, null],
      ],
      within: 1e-9,
      working: "2 x 9.50 + 5.50 = 24.50 for 250",
      source: "worked by hand: no cheaper mix reaches 237",
    },
  ],
  failures: [
    {
      args: [100, [100, 50], [9.5]],
      gives: "#VALUE!",
      when: "a price is missing",
      says: "prices cell 2 must be given",
    },
  ],
  compute: (count, sizes, prices) => {
    const plan = bagPlan(count, sizes, prices);
    return sizes.map((size, index) => {
      const bags = plan.bags[index] ?? 0;
      const price = prices[index] ?? 0;
      const left = plan.leftOver === 0 ? "nothing left over" : `${plan.leftOver} left over`;
      return {
        bag: size,
        price,
        bags,
        cost: Math.round(bags * price * 100) / 100,
        status: bags === 0 ? "ok: not needed" : `ok: buy, ${left} in all`,
      };
    });
  },
});
