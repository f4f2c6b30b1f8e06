import { priceChanges } from "../../core/stock/price-changes";
import { newList, oldList, priceRows } from "../buying-tables";
import { blankRow, define, type ResultColumn } from "../define";

const columns = [
  { name: "supplier", measure: "text", text: "Who sells it." },
  { name: "printed", measure: "in", text: "Size printed on the bag." },
  { name: "colour", measure: "text", text: "Colour." },
  { name: "bag", measure: "count", text: "Balloons in the bag." },
  { name: "old price", measure: "money", text: "Price of the bag before; 0 where it is new." },
  { name: "new price", measure: "money", text: "Price of the bag now; 0 where it is gone." },
  { name: "change", measure: "share", text: "New over old, less one; format as a percent." },
  { name: "status", measure: "text", text: "Dearer, cheaper, new or gone." },
] as const satisfies readonly ResultColumn[];

export const priceChangeRows = define({
  name: "PRICE_CHANGES",
  category: "Stock and buying",
  text: "What became dearer, cheaper, new or gone from one price list to the next.",
  asks: ["compare price lists", "what got more expensive", "new prices"],
  params: [oldList, newList],
  result: {
    kind: "table",
    text: "Only rows that changed.",
    columns,
  },
  source: "Rows matched by supplier, printed size, colour and bag",
  examples: [
    {
      args: [
        [
          ["Town", 11, "Navy", 50, 10],
          ["Town", 11, "White", 50, 8],
        ],
        [
          ["Town", 11, "Navy", 50, 12],
          ["Town", 5, "White", 100, 7],
        ],
      ],
      gives: [
        ["Town", 11, "Navy", 50, 10, 12, 0.2, "dearer"],
        ["Town", 5, "White", 100, 0, 7, 0, "new"],
        ["Town", 11, "White", 50, 8, 0, 0, "gone"],
      ],
      within: 1e-9,
      working: "12/10 - 1 = 20%",
      source: "compared by hand",
    },
  ],
  failures: [
    {
      args: [[["Town", 11, "Navy", 50, -1]], [["Town", 11, "Navy", 50, 1]]],
      gives: "#VALUE!",
      when: "a price is negative",
      says: "old_list row 1",
    },
  ],
  compute: (before, now) => {
    const changes = priceChanges(priceRows(before), priceRows(now));
    if (changes.length === 0) return [{ ...blankRow(columns), status: "ok: no price changed" }];
    return changes.map((row) => ({
      supplier: row.supplier,
      printed: row.printed,
      colour: row.colour,
      bag: row.bag,
      "old price": row.oldPrice,
      "new price": row.newPrice,
      change: row.change,
      status: row.kind,
    }));
  },
});
