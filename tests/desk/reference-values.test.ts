import { describe, expect, it } from "vitest";
import { cellsBehind } from "../../src/desk/reference-values";

const sheets = ["Quote", "Price list"];
const names = [
  { name: "Rate", text: "'Price list'!$B$2", isHidden: false },
  { name: "Rate", text: "Quote!$C$1:$C$4", sheet: 0, isHidden: false },
  { name: "Double", text: "Rate*2", isHidden: false },
  { name: "Loop", text: "Loop", isHidden: false },
];
const range = (firstRow: number, firstColumn: number, lastRow: number, lastColumn: number): object => {
  return { firstRow, firstColumn, lastRow, lastColumn };
};

describe("the cells behind a reference", () => {
  it.each([
    ["B2", 1, { sheet: 1, range: range(1, 1, 1, 1) }],
    ["$B$2:C9", 0, { sheet: 0, range: range(1, 1, 8, 2) }],
    ["'price LIST'!A1", 0, { sheet: 1, range: range(0, 0, 0, 0) }],
    ["rate", 0, { sheet: 0, range: range(0, 2, 3, 2) }],
    ["RATE", 1, { sheet: 1, range: range(1, 1, 1, 1) }],
  ])("are found for %s on sheet %i", (reference, active, found) => {
    expect(cellsBehind(reference, active, sheets, names)).toEqual(found);
  });

  it.each(["Gone!A1", "Double", "Loop", "Nobody", "A1*2", "T[Price]"])("are none for %s", (reference) => {
    expect(cellsBehind(reference, 0, sheets, names)).toBeUndefined();
  });
});
