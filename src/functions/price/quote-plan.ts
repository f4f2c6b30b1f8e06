import { LINE_KINDS, quotePlan } from "../../core/price/quote";
import { wholeRows } from "../../core/stock/doubtful";
import { define } from "../define";
import { basis, margin } from "../price-params";

export const quotePlanRows = define({
  name: "QUOTE_PLAN",
  category: "Price",
  text: "A quote from the costs of a job: materials, work, travel, discount, tax, total, deposit and balance.",
  asks: [
    "make a quote",
    "price of the whole event",
    "deposit and balance",
    "add tax",
    "VAT on a quote",
    "invoice",
  ],
  params: [
    {
      name: "lines",
      kind: "table",
      doubtful: true,
      text: "The costs of the job.",
      columns: [
        { name: "text", kind: "text", aliases: ["item", "description"], text: "What it is." },
        { name: "kind", kind: "choice", options: LINE_KINDS, text: "Materials, work, travel or other." },
        {
          name: "cost",
          kind: "money",
          zero: "refused",
          blank: "refused",
          aliases: ["unit cost", "each"],
          text: "Cost of one, or of the whole line.",
        },
        {
          name: "quantity",
          kind: "number",
          min: 0,
          max: 1e6,
          default: 1,
          zero: "refused",
          text: "How many, hours or kilometres.",
        },
      ],
    },
    margin,
    basis,
    { name: "tax", kind: "share", default: 0, text: "Tax rate." },
    {
      name: "tax_included",
      kind: "flag",
      default: false,
      text: "TRUE to show every amount with its tax inside.",
    },
    { name: "deposit", kind: "share", default: 0, text: "Share of the total paid ahead." },
    { name: "discount", kind: "share", default: 0, text: "Share of the subtotal taken off." },
    { name: "minimum", kind: "money", default: 0, text: "Least charge before tax." },
  ],
  keepsShape: true,
  result: {
    kind: "table",
    text: "Always the same twelve rows in this order: materials, work, travel, other, subtotal, discount, minimum charge, before tax, tax, total, deposit, balance.",
    columns: [
      { name: "item", measure: "text", text: "What the amount is." },
      { name: "amount", measure: "money", text: "Amount, whole cents." },
      { name: "status", measure: "text", text: "How it came about, with margin and markup in words." },
    ],
  },
  source: "Integer cents; every amount is rounded once, half away from zero, and the rows add up exactly",
  limits: "Which tax applies, and whether a deposit is taxed, is for your accountant.",
  examples: [
    {
      args: [
        [
          ["text", "kind", "cost", "quantity"],
          ["Balloons", "materials", 120, 1],
          ["Building", "work", 20, 6],
          ["Van", "travel", 0.5, 60],
        ],
        0.4,
        "price",
        0.2,
        false,
        0.5,
      ],
      gives: [
        ["materials", 200, null],
        ["work", 200, null],
        ["travel", 50, null],
        ["other", 0, null],
        ["subtotal", 450, null],
        ["discount", 0, null],
        ["minimum charge", 0, null],
        ["before tax", 450, null],
        ["tax", 90, null],
        ["total", 540, null],
        ["deposit", 270, null],
        ["balance", 270, null],
      ],
      within: 1e-9,
      working: "120/0.6, 6 x 20/0.6, 30/0.6; 450 + 20% = 540; half of it ahead",
      source: "definition of margin and tax on top, by hand",
    },
  ],
  failures: [
    {
      args: [[["Balloons", "stuff", 120]], 0.4],
      gives: "#N/A",
      when: "the kind is not known",
      says: "lines row 1: kind must be one of",
    },
    {
      args: [[["Balloons", "materials", "n/a"]], 0.4],
      gives: "#N/A",
      when: "a cost is n/a",
      says: "lines row 1: cost must be",
    },
  ],
  compute: (lines, share, of, tax, taxIncluded, deposit, discount, minimum) =>
    quotePlan(
      wholeRows(lines),
      { margin: share, basis: of, tax, taxIncluded, deposit, discount, minimum },
      lines
        .filter(({ doubts }) => doubts.length > 0)
        .map(({ cells, doubts }) => ({ kind: cells.kind, what: doubts.join("; ") })),
    ),
});
