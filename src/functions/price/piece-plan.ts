import { piecePlan } from "../../core/price/event-plan";
import { delivery, deliveryRows, priceList, priceRows, shelf, shelfRows } from "../buying-tables";
import { define } from "../define";
import { breakage, confidence, palettes, pieceRows, pieces } from "../event-tables";
import { searchSteps } from "../search-steps";

export const piecePlanRows = define({
  name: "PIECE_PLAN",
  category: "Price",
  replacedBy: "COST_PLAN",
  text: "What each piece of the event takes: balloons, cost, hours, air and helium.",
  asks: ["cost per piece", "what does the arch cost", "hours per piece", "price each piece"],
  params: [pieces, palettes, priceList, breakage, confidence, shelf, delivery],
  keepsShape: true,
  result: {
    kind: "table",
    text: "One row for each piece; the costs add up to BUY_COST.",
    columns: [
      { name: "name", measure: "text", text: "The piece." },
      { name: "balloons", measure: "count", text: "Balloons in all of it." },
      { name: "cost", measure: "money", text: "Its part of what is bought." },
      { name: "work", measure: "h", text: "Person-hours, rigging included." },
      { name: "air", measure: "L", text: "Air to pump." },
      { name: "helium", measure: "L", text: "Helium to order." },
      { name: "status", measure: "text", text: "Colours that cannot be bought." },
    ],
  },
  source:
    "Bags bought for the whole event, their cost shared by what each piece takes; hours and gas as BUILD_HOURS, AIR_LITRES and HELIUM_LITRES",
  examples: [
    {
      args: [
        [
          ["name", "kind", "quantity", "balloons", "printed", "inflated", "palette"],
          ["Small", "count", 1, 30, 24, 24, "P"],
          ["Large", "count", 1, 60, 24, 24, "P"],
        ],
        [
          ["palette", "colour", "share"],
          ["P", "Navy", 1],
        ],
        [["Town", 24, "Navy", 100, 30]],
      ],
      gives: [
        ["Small", 30, 10, 0.75, 3558.3, 0, "ok; COST_PLAN answers better"],
        ["Large", 60, 20, 1, 7116.6, 0, "ok; COST_PLAN answers better"],
      ],
      within: 0.3,
      working: "one bag of 100 for 30.00 shared 1 : 2; 30/120 + 0.5 h and 60/120 + 0.5 h; 118.61 L each",
      source: "arithmetic; rates by common practice; volume of a ball",
    },
  ],
  failures: [
    {
      args: [[["Door", "column", 2]], [["P", "Navy", 1]], [["Town", 11, "Navy", 50, 9]]],
      gives: "#N/A",
      when: "columns of the pieces are missing",
      says: "pieces must have",
    },
  ],
  compute: (rows, colours, prices, share, sure, held, terms) =>
    piecePlan({
      pieces: pieceRows(rows),
      palettes: colours,
      prices: priceRows(prices),
      spares: { breakage: share, confidence: sure },
      stock: shelfRows(held),
      delivery: deliveryRows(terms),
      mostSteps: searchSteps(),
    }).map((row) => ({ ...row, status: `${row.status}; COST_PLAN answers better` })),
});
