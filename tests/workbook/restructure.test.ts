import { describe, expect, it } from "vitest";
import { cellAddress } from "../../src/formula/address";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";
import { restructured, type Restructuring } from "../../src/workbook/restructure";
import type { WorkbookModel } from "../../src/workbook/model";

describe("a change to where cells stand", () => {
  const bytes = createWorkbook({
    author: "test",
    generator: "test",
    date: "2026-01-01T00:00:00Z",
    sheets: [
      { name: "One", cells: {} },
      { name: "Two", cells: { A1: { value: "item" }, A2: { value: "red" }, A3: { value: "blue" } } },
    ],
  });
  const after = (change: Restructuring): WorkbookModel => openWorkbook(restructured(bytes, change)).model;
  const list = { firstRow: 0, firstColumn: 0, lastRow: 2, lastColumn: 0 };

  it("moves rows", () => {
    const [, sheet] = after({
      kind: "shift",
      sheet: 1,
      shift: { kind: "delete", axis: "row", at: 1, count: 1 },
    }).sheets;
    expect(sheet?.cells.map(({ row, column, value }) => [cellAddress(row, column), value])).toEqual([
      ["A1", "item"],
      ["A2", "blue"],
    ]);
  });

  it("merges cells", () => {
    const range = { firstRow: 0, firstColumn: 0, lastRow: 0, lastColumn: 1 };
    expect(
      after({ kind: "merge", sheet: 1, range, isMerged: true }).sheets.map(({ merges }) => merges),
    ).toEqual([[], [range]]);
  });

  it("hides rows by a filter", () => {
    const columns = [{ column: 0, shown: ["blue"] }];
    const [, sheet] = after({ kind: "filter", sheet: 1, range: list, columns, hidden: [1] }).sheets;
    expect([...(sheet?.hiddenRows ?? [])]).toEqual([1]);
    expect(sheet?.filter).toEqual(list);
  });

  it("changes the list of sheets", () => {
    expect(after({ kind: "removeSheet", sheet: 0 }).sheets.map(({ name }) => name)).toEqual(["Two"]);
  });
});
