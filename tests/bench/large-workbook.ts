import { tinyWorkbook } from "../workbook/tiny-package";

/** Items of the price list that every row looks up. */
const ITEMS = 500;

/** The formulas of a row, in columns C to G, with the names they have in the table of measurements. */
export const FORMULAS: readonly (readonly [string, (row: number) => string])[] = [
  ["VLOOKUP", (row) => `VLOOKUP(A${row},$J$1:$L$${ITEMS},2,FALSE)`],
  ["arithmetic", (row) => `C${row}*B${row}*1.2`],
  ["INDEX and MATCH", (row) => `INDEX($L$1:$L$${ITEMS},MATCH(A${row},$J$1:$J$${ITEMS},0))`],
  ["SUMIFS", (row) => `SUMIFS($K$1:$K$${ITEMS},$L$1:$L$${ITEMS},"&lt;"&amp;B${row})`],
  ["a function of ours", (row) => `_xldudf_BLN_COUNT_SPHERE(B${row}/10+0.5,11)`],
];

/** A workbook with a price list and `rows` rows of formulas; `only` keeps one of the five, `total` has more cells of the first row. */
export function largeWorkbook(rows: number, only?: number, total = ""): Uint8Array {
  const text = (address: string, value: string): string => `<c r="${address}" t="str"><v>${value}</v></c>`;
  const number = (address: string, value: number): string => `<c r="${address}"><v>${value}</v></c>`;
  const lines = Array.from({ length: Math.max(rows, ITEMS) }, (_, index) => {
    const row = index + 1;
    const inputs =
      index < rows
        ? text(`A${row}`, `item ${(index * 7) % ITEMS}`) + number(`B${row}`, 1 + (index % 97))
        : "";
    const formulas = FORMULAS.map(([, formula], at) => {
      if (index >= rows || (only !== undefined && at !== only)) return "";
      return `<c r="${"CDEFG"[at] ?? ""}${row}"><f>${formula(row)}</f><v>0</v></c>`;
    });
    const list =
      index < ITEMS
        ? text(`J${row}`, `item ${index}`) +
          number(`K${row}`, 1 + (index % 13) / 4) +
          number(`L${row}`, index % 50)
        : "";
    return `<row r="${row}">${inputs}${formulas.join("")}${index === 0 ? total : ""}${list}</row>`;
  });
  return tinyWorkbook({ rows: lines.join("") });
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
