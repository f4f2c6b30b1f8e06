import fc from "fast-check";
import { describe, expect, it } from "vitest";
import {
  cellAddress,
  columnIndex,
  columnLetters,
  definedNameFault,
  MAX_COLUMNS,
  MAX_ROWS,
  parseCell,
  parseRange,
  quoteSheet,
  rangeAddress,
  sheetNameFault,
  splitSheet,
} from "../../src/formula/address";

// Limits: Microsoft, "Excel specifications and limits": 1,048,576 rows by 16,384 columns, last column XFD.
describe("addresses", () => {
  it.each([
    [0, "A"],
    [25, "Z"],
    [26, "AA"],
    [51, "AZ"],
    [52, "BA"],
    [701, "ZZ"],
    [702, "AAA"],
    [16_383, "XFD"],
  ])("column %i is %s", (column, letters) => {
    expect(columnLetters(column)).toBe(letters);
    expect(columnIndex(letters)).toBe(column);
    expect(columnIndex(letters.toLowerCase())).toBe(column);
  });

  it("counts columns in the order of their letters", () => {
    const alphabet = [..."ABCDEFGHIJKLMNOPQRSTUVWXYZ"];
    const two = alphabet.flatMap((a) => alphabet.map((b) => a + b));
    const three = two.flatMap((a) => alphabet.map((b) => a + b));
    const all = [...alphabet, ...two, ...three].slice(0, MAX_COLUMNS);
    expect(all.map((_, column) => columnLetters(column))).toEqual(all);
  });

  it.each(["XFE1", "A0", "A1048577", "A", "1", "", "A1B", "AAAA1", "A-1", "A1 ", "Ä1", "A01.5"])(
    "refuses %s as a cell",
    (text) => {
      expect(parseCell(text)).toBeUndefined();
    },
  );

  it("reads dollars and the last cell", () => {
    expect(parseCell("$B$3")).toEqual({ row: 2, column: 1 });
    expect(parseCell("XFD1048576")).toEqual({ row: MAX_ROWS - 1, column: MAX_COLUMNS - 1 });
  });

  it("writes and reads every cell the same", () => {
    fc.assert(
      fc.property(fc.nat(MAX_ROWS - 1), fc.nat(MAX_COLUMNS - 1), (row, column) => {
        expect(parseCell(cellAddress(row, column))).toEqual({ row, column });
      }),
    );
  });

  it("reads cells, rectangles in any direction, whole columns and whole rows as ranges", () => {
    const range = { firstRow: 1, firstColumn: 1, lastRow: 4, lastColumn: 3 };
    expect(parseRange("B2:D5")).toEqual(range);
    expect(parseRange("$D$5:$B$2")).toEqual(range);
    expect(rangeAddress(range)).toBe("B2:D5");
    expect(parseRange("C7")).toEqual({ firstRow: 6, firstColumn: 2, lastRow: 6, lastColumn: 2 });
    expect(parseRange("B:$D")).toEqual({ firstRow: 0, firstColumn: 1, lastRow: 1_048_575, lastColumn: 3 });
    expect(parseRange("3:4")).toEqual({ firstRow: 2, firstColumn: 0, lastRow: 3, lastColumn: 16_383 });
    for (const text of ["A1:B", "A:1", "1", "A1:B2:C3", "", ":"]) expect(parseRange(text)).toBeUndefined();
  });

  it.each([
    ["Sheet1", "Sheet1"],
    ["Price list", "'Price list'"],
    ["It's", "'It''s'"],
    ["AB12", "'AB12'"],
    ["R1C1", "'R1C1'"],
    ["2026", "'2026'"],
    ["Überblick", "Überblick"],
  ])("quotes the sheet name %s as %s", (name, quoted) => {
    expect(quoteSheet(name)).toBe(quoted);
    expect(splitSheet(`${quoted}!A1:B2`)).toEqual({ sheet: name, rest: "A1:B2" });
  });

  it("finds no sheet where a reference names none", () => {
    expect(splitSheet("A1")).toEqual({ rest: "A1" });
  });

  it("knows the names that Excel refuses", () => {
    for (const name of ["", "x".repeat(32), "a/b", "a[b", "'a", "a:b", "History"]) {
      expect(sheetNameFault(name)).toBeTypeOf("string");
    }
    expect(sheetNameFault("What-if (2026)")).toBeUndefined();
    for (const name of ["", "a b", "1a", "A1", "R1C1", "c", "x-y"])
      expect(definedNameFault(name)).toBeTypeOf("string");
    expect(definedNameFault("Price_list.2026")).toBeUndefined();
  });
});
