import { marginOf } from "../../core/price/sell";
import { define } from "../define";
import { basis } from "../price-params";

export const marginOfPrice = define({
  name: "MARGIN_OF",
  category: "Price",
  text: "Margin or markup that a price earns; format the cell as a percent.",
  asks: ["what do I earn on it", "margin of a price", "profit share"],
  params: [
    { name: "price", kind: "money", text: "Selling price before tax." },
    { name: "cost", kind: "money", text: "Cost." },
    basis,
  ],
  result: { kind: "value", measure: "share", text: "Share of the basis; negative below cost." },
  source: "Margin (price - cost)/price, markup (price - cost)/cost",
  examples: [
    {
      args: [150, 100],
      gives: 1 / 3,
      within: 1e-12,
      working: "(150 - 100)/150",
      source: "definition of margin",
    },
    {
      args: [150, 100, "cost"],
      gives: 0.5,
      within: 1e-12,
      working: "(150 - 100)/100",
      source: "definition of markup",
    },
  ],
  failures: [{ args: [0, 100], gives: "#N/A", when: "the price is 0", says: "price is 0" }],
  compute: marginOf,
});
