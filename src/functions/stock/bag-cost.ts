import { bagPlan } from "../../core/stock/bag-plan";
import { bagPrices, bagSizes, neededCount } from "../bag-params";
import { define } from "../define";

export const bagCost = define({
  name: "BAG_COST",
  category: "Stock and buying",
  text: "Cost of the cheapest mix of bags that covers a count.",
  asks: ["what do the bags cost", "cost of balloons in bags"],
  params: [neededCount, bagSizes, bagPrices],
  result: { kind: "value", measure: "money", text: "Cost of all bags." },
  source: "Exact covering knapsack, as BAG_PLAN",
  examples: [
    {
      args: [101, [100, 72, 24, 6], [8, 6.2, 2.4, 0.75]],
      gives: 8.75,
      within: 1e-9,
      working: "one bag of 100 and one of 6: 8.00 + 0.75",
      source: "worked by hand: every other mix costs more",
    },
    {
      args: [43, [6, 9, 20], [6, 9, 20]],
      gives: 44,
      within: 1e-9,
      working: "43 cannot be made of 6, 9 and 20, 44 can: 20 + 4 x 6",
      source: "Frobenius number of 6, 9, 20 is 43",
    },
  ],
  failures: [{ args: [100, [0], [5]], gives: "#VALUE!", when: "a bag is empty", says: "sizes" }],
  compute: (count, sizes, prices) => bagPlan(count, sizes, prices).cost,
});
