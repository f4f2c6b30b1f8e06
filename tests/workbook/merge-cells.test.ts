import { expect, it } from "vitest";
import { parseRange } from "../../src/formula/address";
import { createWorkbook } from "../../src/workbook/create";
import { mergeCells } from "../../src/workbook/merge-cells";
import type { CellRange } from "../../src/formula/address";
import { openWorkbook } from "../../src/workbook/read";

const range = (address: string): CellRange => {
  const found = parseRange(address);
  if (!found) throw new Error(address);
  return found;
};
const bytes = createWorkbook({
  author: "test",
  generator: "test",
  date: "2026-01-01T00:00:00Z",
  sheets: [
    {
      name: "S",
      merges: ["A5:B6"],
      tables: [{ name: "T", range: "E1:F2" }],
      cells: {
        A1: { value: "kept" },
        B1: { value: "dropped" },
        E1: { value: "a" },
        F1: { value: "b" },
        E2: { value: 1 },
      },
    },
  ],
});

it("merges, keeps the first cell's content, and takes apart again", () => {
  const merged = mergeCells(bytes, 0, range("A1:B2"), true);
  const [sheet] = openWorkbook(merged).model.sheets;
  expect(sheet?.merges).toEqual([range("A5:B6"), range("A1:B2")]);
  expect(
    sheet?.cells.filter(({ row, value }) => row === 0 && value !== null).map(({ value }) => value),
  ).toEqual(["kept", "a", "b"]);
  const apart = mergeCells(mergeCells(merged, 0, range("A1"), false), 0, range("A1:C9"), false);
  expect(openWorkbook(apart).model.sheets[0]?.merges).toEqual([]);
  expect(openWorkbook(mergeCells(apart, 0, range("A1:A2"), true)).model.sheets[0]?.merges).toEqual([
    range("A1:A2"),
  ]);
});

it("refuses what Excel refuses", () => {
  expect(() => mergeCells(bytes, 0, range("B6:C7"), true)).toThrow("reaches beyond the selection");
  expect(() => mergeCells(bytes, 0, range("E1:E2"), true)).toThrow("cells of the table T cannot be merged");
  expect(() => mergeCells(bytes, 0, range("A1"), true)).toThrow("more than one cell");
});
