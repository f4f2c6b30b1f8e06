import { expect, it } from "vitest";
import { parseFormula, referenceEnd } from "../../../src/formula/shift";
import {
  distanceText,
  fixedReference,
  isFixed,
  rangeIn,
  referenceFrom,
} from "../../../src/sheet/compiled/references";

const HOME = { row: 2, column: 1 };
const of = (text: string) =>
  referenceFrom(
    text.split(":").flatMap((end) => referenceEnd(end) ?? []),
    0,
    HOME,
  );
const rangeOf = (text: string, row: number, column: number): string | undefined => {
  const reference = of(text);
  const range = reference && rangeIn(reference, { row, column });
  return range && [range.firstRow, range.firstColumn, range.lastRow, range.lastColumn].join();
};

// Rows and columns counted from 0, for a formula that stands in B3 and is filled into another cell; a sheet has 1,048,576
// rows and 16,384 columns: Microsoft support, Excel specifications and limits.
it.each([
  ["A1", 2, 1, "0,0,0,0"],
  ["A1", 4, 3, "2,2,2,2"],
  ["$A1", 4, 3, "2,0,2,0"],
  ["A$1", 4, 3, "0,2,0,2"],
  ["$A$1:B4", 4, 3, "0,0,5,3"],
  ["B4:A1", 4, 3, "2,2,5,3"],
  ["A$5:A1", 2, 1, "0,0,4,0"],
  ["A$5:A1", 9, 1, "4,0,7,0"],
  ["$C1:A1", 2, 1, "0,0,0,2"],
  ["$C1:A1", 2, 6, "0,2,0,5"],
  ["A:B", 9, 2, "0,1,1048575,2"],
  ["3:$4", 3, 9, "3,0,3,16383"],
  ["A1", 1, 1, undefined],
  ["A1", 2, 0, undefined],
  ["B1048576", 2, 1, "1048575,1,1048575,1"],
  ["B1048576", 3, 1, undefined],
  ["XFD3", 2, 1, "2,16383,2,16383"],
  ["XFD3", 2, 2, undefined],
  ["A1:C9", 1, 1, undefined],
])("%s is, from row %i and column %i, %s", (text, row, column, range) => {
  expect(rangeOf(text, row, column)).toBe(range);
});

it("is fixed only where every row and column of it is, and one cell only where it is spelt so", () => {
  const texts = [
    "$A$1",
    "A$1",
    "$A1",
    "$A$1:$B$2",
    "$A$1:B$2",
    "$A$1:$B2",
    "A$1:$B$2",
    "$A1:$B$2",
    "$A:$B",
    "A:$B",
  ];
  expect(texts.filter((text) => isFixed(of(text) ?? fixedReference({ sheet: 0, firstRow: 0, lastRow: 0, firstColumn: 0, lastColumn: 0 })))).toEqual(["$A$1", "$A$1:$B$2", "$A:$B"]); // prettier-ignore
  expect(["A1", "A1:A1", "A:A"].map((text) => of(text)?.isCell)).toEqual([true, false, false]);
  expect(referenceFrom([], 0, HOME)).toBeUndefined();
  const isCell = (lastRow: number, lastColumn: number): boolean =>
    fixedReference({ sheet: 0, firstRow: 1, firstColumn: 1, lastRow, lastColumn }).isCell;
  expect([isCell(1, 1), isCell(2, 1), isCell(1, 2)]).toEqual([true, false, false]);
});

it("gives one text to the cells that a formula is filled into, and others to others", () => {
  const text = (formula: string, row: number, column: number): string =>
    distanceText(parseFormula(formula), row, column);
  expect(text("A1*$B$2", 4, 4)).toBe(text("B3*$B$2", 6, 5));
  expect(text("A1*$B$2", 4, 4)).not.toBe(text("A1*$B$2", 5, 4));
  expect(text("A1*$B$2", 4, 4)).not.toBe(text("A1*$B$2", 4, 5));
  expect(text("$A$1", 4, 4)).toBe(text("$A$1", 9, 9));
  expect(text("SUM(A:A)", 4, 4)).toBe(text("SUM(A:A)", 9, 4));
  expect(text("SUM(1:1)", 4, 4)).not.toBe(text("SUM(A:A)", 4, 4));
});
