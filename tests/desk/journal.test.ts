import { describe, expect, it } from "vitest";
import { Journal } from "../../src/desk/journal";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";

const { model } = openWorkbook(
  createWorkbook({
    author: "test",
    generator: "test",
    date: "2026-01-01T00:00:00Z",
    sheets: [
      {
        name: "S",
        cells: {
          A1: { value: 5, style: { numberFormat: "0.00" } },
          A2: { value: 5, formula: "_xlfn.SINGLE(A1)" },
        },
      },
    ],
  }),
);
const at = (row: number): { sheet: number; row: number; column: number } => ({ sheet: 0, row, column: 0 });

describe("what was done to a file", () => {
  it("is nothing where a cell gets what it holds already", () => {
    const journal = new Journal(model);
    expect(journal.edit([{ ...at(0), input: 5 }])).toEqual([]);
    expect(journal.edit([{ ...at(1), input: { formula: "=@A1" } }])).toEqual([]);
    expect(journal.edit([{ ...at(7), input: null }])).toEqual([]);
    expect(journal.isMarked).toBe(true);
  });

  it("is nothing again once it is undone, and the worker is told", () => {
    const journal = new Journal(model);
    expect(journal.edit([{ ...at(0), input: 6, numberFormat: "0%" }])).toHaveLength(1);
    expect(journal.isMarked).toBe(false);
    expect(journal.edit([{ ...at(0), input: 5, numberFormat: "0.00" }])).toHaveLength(1);
    expect(journal.isMarked).toBe(true);
    expect(journal.work.edits).toEqual([]);
  });

  it("keeps the last word on a cell, its format, and every width", () => {
    const journal = new Journal(model);
    journal.edit([{ ...at(3), input: 1, numberFormat: "0%" }]);
    journal.edit([{ ...at(3), input: 2 }]);
    journal.dress({ looks: [], layouts: [{ sheet: 0, columnWidths: new Map([[1, 9]]) }] });
    journal.dress({
      looks: [],
      layouts: [{ sheet: 0, columnWidths: new Map([[2, 8]]), frozen: { rows: 1, columns: 0 } }],
    });
    expect(journal.work.edits).toEqual([{ ...at(3), input: 2, numberFormat: "0%" }]);
    expect(journal.work.layouts).toMatchObject([
      {
        sheet: 0,
        columnWidths: new Map([
          [1, 9],
          [2, 8],
        ]),
        frozen: { rows: 1, columns: 0 },
      },
    ]);
  });

  it("differs from what was saved only by what came after", () => {
    const journal = new Journal(model);
    journal.edit([{ ...at(3), input: 1 }]);
    journal.mark();
    expect(journal.isMarked).toBe(true);
    journal.edit([{ ...at(3), input: 2 }]);
    expect(journal.isMarked).toBe(false);
    journal.edit([{ ...at(3), input: 1 }]);
    expect(journal.isMarked).toBe(true);
  });
});
