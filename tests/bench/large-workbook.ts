import { tinyWorkbook } from "../workbook/tiny-package";

/** Items of the price list that every row looks up. */
const ITEMS = 500;

/** The formulas of a row, in columns C to G, as they are typed, with the names they have in the table of measurements. */
export const FORMULAS: readonly (readonly [string, (row: number) => string])[] = [
  ["VLOOKUP", (row) => `VLOOKUP(A${row},$J$1:$L$${ITEMS},2,FALSE)`],
  ["arithmetic", (row) => `C${row}*B${row}*1.2`],
  ["INDEX and MATCH", (row) => `INDEX($L$1:$L$${ITEMS},MATCH(A${row},$J$1:$J$${ITEMS},0))`],
  ["SUMIFS", (row) => `SUMIFS($K$1:$K$${ITEMS},$L$1:$L$${ITEMS},"<"&B${row})`],
  ["a function of ours", (row) => `BLN_COUNT_SPHERE(B${row}/10+0.5,11)`],
];

/** The cells of the sheet, row by row; formulas with their equals sign. `only` keeps one of the five. */
export function largeCells(
  rows: number,
  only?: number,
): readonly (readonly (string | number | undefined)[])[] {
  return Array.from({ length: Math.max(rows, ITEMS) }, (_, index) => {
    const isFilled = index < rows;
    const inputs = isFilled ? [`item ${(index * 7) % ITEMS}`, 1 + (index % 97)] : [undefined, undefined];
    const formulas = FORMULAS.map(([, formula], at) =>
      isFilled && (only === undefined || at === only) ? `=${formula(index + 1)}` : undefined,
    );
    const list = index < ITEMS ? [`item ${index}`, 1 + (index % 13) / 4, index % 50] : [];
    return [...inputs, ...formulas, undefined, undefined, ...list];
  });
}

/** A workbook with a price list and `rows` rows of formulas; `only` keeps one of the five, `total` has more cells of the first row. */
export function largeWorkbook(rows: number, only?: number, total = ""): Uint8Array {
  const markup = (address: string, cell: string | number): string => {
    if (typeof cell === "number") return `<c r="${address}"><v>${cell}</v></c>`;
    if (!cell.startsWith("=")) return `<c r="${address}" t="str"><v>${cell}</v></c>`;
    const formula = cell
      .slice(1)
      .replace("BLN_", "_xldudf_BLN_")
      .replaceAll("&", "&amp;")
      .replaceAll("<", "&lt;");
    return `<c r="${address}"><f>${formula}</f><v>0</v></c>`;
  };
  const lines = largeCells(rows, only).map((cells, index) => {
    const row = index + 1;
    const content = cells.map((cell, column) =>
      cell === undefined ? "" : markup(`${"ABCDEFGHIJKL"[column] ?? ""}${row}`, cell),
    );
    if (index === 0) content.splice(FORMULAS.length + 2, 0, total);
    return `<row r="${row}">${content.join("")}</row>`;
  });
  return tinyWorkbook({ rows: lines.join("") });
}

/** What the last row's formulas compute but for the last of them, written out in JavaScript. */
export function lastRow(rows: number): readonly number[] {
  const index = rows - 1;
  const item = (index * 7) % ITEMS;
  const quantity = 1 + (index % 97);
  const priceOf = (at: number): number => 1 + (at % 13) / 4;
  const items = Array.from({ length: ITEMS }, (_, at) => at);
  const below = items.filter((at) => at % 50 < quantity).reduce((sum, at) => sum + priceOf(at), 0);
  return [priceOf(item), priceOf(item) * quantity * 1.2, item % 50, below];
}

/** What the formulas of that workbook compute, written out in JavaScript: the sum of all results. */
export function bareLoop(rows: number): number {
  const prices = Array.from({ length: ITEMS }, (_, index) => 1 + (index % 13) / 4);
  const limits = Array.from({ length: ITEMS }, (_, index) => index % 50);
  const items = new Map(prices.map((_, index) => [`item ${index}`, index]));
  let sum = 0;
  for (let index = 0; index < rows; index++) {
    const item = items.get(`item ${(index * 7) % ITEMS}`) ?? 0;
    const quantity = 1 + (index % 97);
    const price = prices[item] ?? 0;
    let below = 0;
    for (let at = 0; at < ITEMS; at++) if ((limits[at] ?? 0) < quantity) below += prices[at] ?? 0;
    sum += price + price * quantity * 1.2 + (limits[item] ?? 0) + below + (quantity / 10 + 0.5) * 11;
  }
  return sum;
}
