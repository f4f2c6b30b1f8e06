import { swapPlan } from "../../core/price/event-plan";
import { fromSi } from "../../core/units";
import { delivery, deliveryRows, priceList, priceRows, shelf, shelfRows } from "../buying-tables";
import { define } from "../define";
import { breakage, confidence, palettes, pieceRows, pieces } from "../event-tables";
import { searchSteps } from "../search-steps";

const inches = (metres: number): string => `${Number(fromSi(metres, "in").toFixed(2))} in`;

export const swapPlanRows = define({
  name: "SWAP_PLAN",
  category: "Stock and buying",
  text: "What changes for the whole event when one printed size is replaced by another.",
  asks: ["what if we use 16 inch instead of 11", "bigger balloons", "compare sizes", "cheaper version"],
  params: [
    pieces,
    palettes,
    priceList,
    {
      name: "swaps",
      kind: "table",
      text: "Printed sizes to replace.",
      columns: [
        { name: "from", kind: "balloon", text: "Size printed on the bag now." },
        { name: "to", kind: "balloon", text: "Size to take instead." },
      ],
    },
    breakage,
    confidence,
    shelf,
    delivery,
  ],
  keepsShape: true,
  result: {
    kind: "table",
    text: "The event as it is, then one row for each replaced size.",
    columns: [
      { name: "variant", measure: "text", text: "What is replaced." },
      { name: "balloons", measure: "count", text: "Balloons of the event." },
      { name: "cost", measure: "money", text: "Cost of what is bought." },
      { name: "work", measure: "h", text: "Person-hours." },
      { name: "helium", measure: "L", text: "Helium to order." },
      { name: "status", measure: "text", text: "What cannot be bought." },
    ],
  },
  source: "PIECE_PLAN of each variant; inflated sizes follow in proportion",
  limits: "Pieces whose count was typed keep it.",
  examples: [
    {
      args: [
        [
          ["name", "kind", "quantity", "length", "printed", "inflated", "palette"],
          ["Line", "strand", 1, "10 ft", 12, 12, "P"],
        ],
        [
          ["palette", "colour", "share"],
          ["P", "Navy", 1],
        ],
        [
          ["Town", 12, "Navy", 20, 6],
          ["Town", 24, "Navy", 5, 9],
        ],
        [[12, 24]],
        "none",
      ],
      gives: [
        ["as it is", 10, 6, null, 0, "ok"],
        ["12 in to 24 in", 5, 9, null, 0, "ok"],
      ],
      within: 1e-9,
      working: "120 in / 12 in = 10 from one bag of 20; 120 in / 24 in = 5 from one bag of 5",
      source: "arithmetic",
    },
  ],
  failures: [
    {
      args: [
        [
          ["name", "kind", "length", "printed", "palette"],
          ["Line", "strand", 3, 12, "P"],
        ],
        [
          ["palette", "colour", "share"],
          ["P", "Navy", 1],
        ],
        [["Town", 12, "Navy", 20, 6]],
        [[12, 500]],
      ],
      gives: "#N/A",
      when: "a size is no balloon",
      says: "swaps row 1: to must be from 1 to 120 in, found 500 in",
    },
  ],
  compute: (rows, colours, prices, swaps, share, sure, held, terms) =>
    swapPlan(
      {
        pieces: pieceRows(rows),
        palettes: colours,
        prices: priceRows(prices),
        spares: { breakage: share, confidence: sure },
        stock: shelfRows(held),
        delivery: deliveryRows(terms),
        mostSteps: searchSteps(),
      },
      swaps,
    ).map(({ swap, ...row }) => ({
      variant: swap === undefined ? "as it is" : `${inches(swap.from)} to ${inches(swap.to)}`,
      ...row,
    })),
});
