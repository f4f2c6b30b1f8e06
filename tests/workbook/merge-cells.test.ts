import { strFromU8, unzipSync } from "fflate";
import { expect, it } from "vitest";
import { parseRange } from "../../src/formula/address";
import { createWorkbook } from "../../src/workbook/create";
import { mergeCells } from "../../src/workbook/merge-cells";
import type { CellRange } from "../../src/formula/address";
import { openWorkbook } from "../../src/workbook/read";
import { tinyWorkbook } from "./tiny-package";

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

it.each([
  // A merge or table that only lies beside the selection is none of its business.
  ["A3:B4", undefined],
  ["C5:D6", undefined],
  ["A7:B8", undefined],
  ["C1:D2", undefined],
  ["G1:H2", undefined],
  ["E3:F4", undefined],
  ["A4:B5", "reaches beyond the selection"],
  ["A5:A6", "reaches beyond the selection"],
  ["B5:C6", "reaches beyond the selection"],
  ["A4:C7", undefined],
  ["D1:E1", "cells of the table T cannot be merged"],
  ["F2:G3", "cells of the table T cannot be merged"],
])("merges %s where nothing is in the way (%s)", (cells, sentence) => {
  const act = (): Uint8Array => mergeCells(bytes, 0, range(cells), true);
  if (sentence === undefined) {
    const merges = openWorkbook(act()).model.sheets[0]?.merges;
    expect(merges).toContainEqual(range(cells));
    // One that lies in the new one is part of it.
    expect(merges).toHaveLength(cells === "A4:C7" ? 1 : 2);
  } else expect(act).toThrow(sentence);
});

it("drops formulas too, and takes apart only what the selection touches", () => {
  const file = tinyWorkbook({
    before: "<sheetPr/>",
    rows: '<row r="1"><c r="A1"/><c r="B1"><f>1+1</f></c><c r="C1" s="0"/></row><row r="2"><c r="A2"><v>3</v></c></row>',
    behind:
      '<autoFilter ref="A9:B10"/><mergeCells count="2"><mergeCell ref="E1:F1"/><mergeCell ref="E3:F3"/></mergeCells><pageMargins/>',
  });
  const xml = (content: Uint8Array): string =>
    strFromU8(unzipSync(content)["xl/worksheets/sheet1.xml"] ?? new Uint8Array());
  const merged = mergeCells(file, 0, range("A1:C1"), true);
  expect(
    openWorkbook(merged).model.sheets[0]?.cells.filter(({ value, formula }) => value !== null || formula),
  ).toMatchObject([{ row: 1, value: 3 }]);
  expect(xml(merged)).toContain(
    '<mergeCells count="3"><mergeCell ref="E1:F1"/><mergeCell ref="E3:F3"/><mergeCell ref="A1:C1"/></mergeCells><pageMargins/>',
  );
  expect(openWorkbook(mergeCells(file, 0, range("F1:F2"), false)).model.sheets[0]?.merges).toEqual([
    range("E3:F3"),
  ]);
  // The place of the list: ECMA-376 part 1, 18.3.1.99.
  const bare = tinyWorkbook({ behind: '<autoFilter ref="A9:B10"/><phoneticPr fontId="0"/><pageMargins/>' });
  expect(xml(mergeCells(bare, 0, range("A1:B1"), true))).toContain(
    '<autoFilter ref="A9:B10"/><mergeCells count="1"><mergeCell ref="A1:B1"/></mergeCells><phoneticPr fontId="0"/>',
  );
  expect(() => mergeCells(bare, 1, range("A1:B1"), true)).toThrow("the workbook has no sheet 2");
});
