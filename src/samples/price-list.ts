import type { WorkbookDescription } from "../workbook/create";
import { SheetDraft, type LookName } from "./look";

/** What all sample workbooks carry in their properties. */
export const SAMPLE_PROPERTIES = {
  author: "Balloon decor functions",
  generator: "Microsoft Excel",
  date: "2026-11-01T08:00:00Z",
} as const;

const LIST: readonly (readonly [string, number, string, number, number, number])[] = [
  ["Town shop", 11, "Navy", 50, 9.9, 96],
  ["Town shop", 11, "White", 50, 8.9, 64],
  ["Town shop", 11, "Coral", 50, 9.9, 40],
  ["Town shop", 5, "White", 100, 7.5, 120],
  ["Town shop", 16, "Navy", 25, 13.5, 12],
  ["Online store", 11, "Navy", 100, 17.2, 96],
  ["Online store", 11, "Sand", 100, 17.9, 60],
  ["Online store", 5, "Coral", 100, 6.9, 80],
  ["Online store", 16, "White", 50, 24.5, 20],
  ["Online store", 36, "White", 2, 9.8, 3],
];
const HEADS = [
  "Supplier",
  "Printed in",
  "Colour",
  "Bag",
  "Bag price",
  "Needed",
  "Take with spares",
  "Bags",
  "Cost",
];
const LOOKS: readonly LookName[] = ["input", "input", "input", "input", "inputMoney", "input"];

/** A price list as a decorator has it, ten lines on one sheet, to which three columns of formulas were added. */
export function priceListWorkbook(): WorkbookDescription {
  const sheet = new SheetDraft();
  sheet
    .put(1, 1, "Price list", "title")
    .put(
      2,
      1,
      "Type in the yellow cells. The three columns on the right follow: spares, bags to buy, and what they cost.",
      "quiet",
    )
    .rows(4, 1, HEADS, LIST, LOOKS);
  LIST.forEach((_, index) => {
    const row = 5 + index;
    sheet
      .formula(row, 7, `_xldudf_BLN_COUNT_WITH_SPARES(F${row})`)
      .formula(row, 8, `ROUNDUP(G${row}/D${row},0)`)
      .formula(row, 9, `_xldudf_BLN_BAG_COST(G${row},D${row},E${row})`, "money");
  });
  const total = 5 + LIST.length + 1;
  sheet.put(total, 8, "All bags", "label").formula(total, 9, `SUM(I5:I${total - 2})`, "moneyTotal");
  sheet
    .put(total + 2, 1, "Try it", "heading")
    .put(total + 3, 1, "Column height", "label")
    .put(total + 3, 3, "6 ft", "input")
    .put(total + 4, 1, "Inflated size, in", "label")
    .put(total + 4, 3, 9, "input")
    .put(total + 5, 1, "Balloons for it", "label")
    .formula(total + 5, 3, `_xldudf_BLN_COUNT_COLUMN(C${total + 3},C${total + 4})`)
    .put(total + 6, 1, "Now type a formula of your own, for example =BLN.COUNT_ARCH(3, 2.4, 9)", "quiet")
    .put(total + 7, 1, "Your formula", "label")
    .put(total + 7, 3, null, "input");
  return {
    ...SAMPLE_PROPERTIES,
    title: "Price list",
    sheets: [
      {
        name: "Price list",
        cells: sheet.cells,
        columnWidths: { A: 16, B: 11, C: 12, D: 8, E: 11, F: 10, G: 17, H: 10, I: 11 },
        rowHeights: { 1: 28, 4: 32 },
        frozen: { rows: 4, columns: 0 },
        tabColor: "#2f5d62",
        page: { orientation: "portrait", fit: { wide: 1, tall: 1 }, printArea: `A1:I${total + 7}`, paper: 9 },
      },
    ],
  };
}
