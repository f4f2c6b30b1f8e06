import fc from "fast-check";
import { cellAddress } from "../../src/formula/address";
import type { CellValue } from "../../src/workbook/model";
import type { TestCell } from "./workbook-of";

/** The sheets of a random workbook, the last two for formulas, and how many rows its lists have. */
export const SHEETS = ["Data", "Price list", "F", "Spills"] as const;
export const ROWS = 14;

const NUMBERS = [
  0, 1, 2, 3, 5, 12, 23, -1, -1.5, 0.1, 0.2, 0.3, 0.7, 1.005, 2.675, 9.9, 1e3, 45_000, 46_023.75,
];
const ODD_NUMBERS = [1e15, 123_456_789_012_345_680, 1e-10, 1 / 3, -0.000_5, 1e300, 2 ** 53];
const WORDS = [
  "apple",
  "Apple",
  "pear",
  "Pear tart",
  "fig",
  "a*",
  "b?c",
  "x y",
  " lead",
  "Straße",
  "Ångström",
];
const ODD_WORDS = [
  "23",
  "1.5",
  "50%",
  "1e3",
  " 3",
  "12 ",
  "",
  "TRUE",
  "#N/A",
  "2026-01-05",
  "1/2",
  "~",
  '"',
  "1,5",
  "0",
];
const ERRORS = ["#N/A", "#DIV/0!", "#VALUE!", "#NUM!", "#REF!", "#NAME?"].map((error) => ({ error }));

export const number = fc.oneof(
  { weight: 5, arbitrary: fc.constantFrom(...NUMBERS) },
  { weight: 1, arbitrary: fc.constantFrom(...ODD_NUMBERS) },
  { weight: 3, arbitrary: fc.integer({ min: -200, max: 2000 }).map((cents) => cents / 100) },
);
export const word = fc.oneof(
  { weight: 3, arbitrary: fc.constantFrom(...WORDS) },
  { weight: 1, arbitrary: fc.constantFrom(...ODD_WORDS) },
);
export const anyValue: fc.Arbitrary<CellValue> = fc.oneof(
  { weight: 4, arbitrary: number },
  { weight: 4, arbitrary: word },
  { weight: 1, arbitrary: fc.boolean() },
  { weight: 1, arbitrary: fc.constantFrom(...ERRORS) },
  { weight: 2, arbitrary: fc.constant(null) },
);

const many = <Value>(value: fc.Arbitrary<Value>, columns: number): fc.Arbitrary<Value[]> =>
  fc.array(value, { minLength: columns * ROWS, maxLength: columns * ROWS });

/** Columns as lists have them: words, two of numbers, anything, sorted numbers, days, anything again, nearly blank. */
export const lists = fc
  .tuple(many(anyValue, 3), many(number, 3), many(word, 1))
  .map(([some, numbers, words]) => {
    const sorted = numbers.slice(2 * ROWS).sort((x, y) => x - y);
    return Array.from({ length: ROWS }, (_, row): CellValue[] => [
      words[row] ?? null,
      numbers[row] ?? null,
      numbers[ROWS + row] ?? null,
      some[row] ?? null,
      sorted[row] ?? null,
      46_000 + row,
      some[ROWS + row] ?? null,
      row % 5 === 0 ? (some[2 * ROWS + row] ?? null) : null,
    ]);
  });

export function sheetCells(rows: readonly (readonly CellValue[])[]): Record<string, TestCell> {
  return Object.fromEntries(
    rows.flatMap((line, row) =>
      line.flatMap((value, column) => (value === null ? [] : [[cellAddress(row, column), value] as const])),
    ),
  );
}

export const HEADS = ["Item", "Price", "Qty", "Any", "Sorted", "Day", "Mixed", "Blank"];
export const NAMES = [
  { name: "Rate", text: "Data!$B$3", isHidden: false },
  { name: "Area", text: `Data!$B$2:$C$${ROWS}`, isHidden: false },
  { name: "Half", text: "0.5", isHidden: false },
  { name: "Twice", text: "Data!$B$4*2", isHidden: false },
  { name: "Local", text: "Data!$C$5", sheet: SHEETS.indexOf("F"), isHidden: false },
];
export const PRICES = {
  name: "Prices",
  sheet: 0,
  range: { firstRow: 0, lastRow: ROWS - 1, firstColumn: 0, lastColumn: 2 },
  columns: HEADS.slice(0, 3),
  headerRows: 1,
  totalsRows: 0,
};
