import { sellPrice } from "../../core/price/sell";
import { define } from "../define";
import { basis, margin } from "../price-params";

export const sellingPrice = define({
  name: "SELL_PRICE",
  category: "Price",
  text: "Selling price before tax from a cost and a margin or markup.",
  asks: ["what should I charge", "price from cost", "markup", "margin on price"],
  params: [
    { name: "cost", kind: "money", text: "Cost." },
    margin,
    basis,
    {
      name: "round_to",
      kind: "money",
      min: 0.01,
      max: 1e6,
      optional: true,
      zero: "default",
      text: "Step that prices are multiples of, such as 5.",
    },
    {
      name: "ending",
      kind: "money",
      max: 1e6,
      optional: true,
      text: "What every price ends in, such as 0.99 or 9.",
    },
  ],
  result: { kind: "value", measure: "money", text: "Price." },
  source:
    "Margin (price - cost)/price, markup (price - cost)/cost; rounding with a step or ending only goes up",
  examples: [
    {
      args: [100, 0.4],
      gives: 166.67,
      within: 1e-9,
      working: "100 / (1 - 0.4)",
      source: "definition of margin",
    },
    {
      args: [100, 0.4, "cost"],
      gives: 140,
      within: 1e-9,
      working: "100 x (1 + 0.4)",
      source: "definition of markup",
    },
    {
      args: [100, 0.4, "price", 5],
      gives: 170,
      within: 1e-9,
      working: "166.67 up to the next 5",
      source: "arithmetic",
    },
  ],
  failures: [
    {
      args: [100, 1],
      gives: "#VALUE!",
      when: "the margin is the whole price",
      says: "margin must be below 1",
    },
    {
      args: [100, 0.4, "profit"],
      gives: "#VALUE!",
      when: "the basis is not known",
      says: "basis must be one of",
    },
  ],
  compute: sellPrice,
});
