import { priceChanges } from "../../core/stock/price-changes";
import { newList, oldList, priceRows } from "../buying-tables";
import { define } from "../define";
import type { ResultColumn } from "../definition";
import { BLANK, blankRow, withheldRow } from "../result-rows";

const columns = [
  { name: "supplier", measure: "text", text: "Who sells it." },
  { name: "printed", measure: "in", text: "Size printed on the bag." },
  { name: "colour", measure: "text", text: "Colour." },
  { name: "bag", measure: "count", text: "Balloons in the bag." },
  { name: "old price", measure: "money", text: "Price of the bag before; 0 where it is new." },
  { name: "new price", measure: "money", text: "Price of the bag now; 0 where it is gone." },
  { name: "change", measure: "share", text: "New over old, less one; format as a percent." },
  { name: "status", measure: "text", text: "Dearer, cheaper, new or gone; stop where a row cannot be read." },
] as const satisfies readonly ResultColumn[];

export const priceChangeRows = define({
  name: "PRICE_CHANGES",
  category: "Stock and buying",
  text: "What became dearer, cheaper, new or gone from one price list to the next.",
  asks: ["compare price lists", "what got more expensive", "new prices"],
  params: [oldList, newList],
  keepsShape: true,
  result: {
    kind: "table",
    text: "Only rows that changed, then rows that cannot be read and suppliers that the new list does not name.",
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
      gives: "#N/A",
      when: "a price is negative",
      says: "old_list row 1",
    },
  ],
  compute: (before, now) => {
    const { changes, uncompared, absent } = priceChanges(priceRows(before), priceRows(now));
    const rows = [
      ...changes.map((row) => ({
        supplier: row.supplier,
        printed: row.printed,
        colour: row.colour,
        bag: row.bag,
        "old price": row.oldPrice,
        "new price": row.newPrice,
        change: row.change,
        status: row.kind,
      })),
      ...uncompared.map(({ what, supplier = BLANK, printed = BLANK, colour = BLANK, bag = BLANK }) => ({
        ...withheldRow(columns, what),
        supplier,
        printed,
        colour,
        bag,
      })),
      ...absent.map(({ supplier, rows: count }) => ({
        ...blankRow(columns),
        supplier,
        status: `check: not in the new list, ${count === 1 ? "1 row is" : `${count} rows are`} not compared`,
      })),
    ];
    return rows.length === 0 ? [{ ...blankRow(columns), status: "ok: no price changed" }] : rows;
  },
});
