import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import type { AxisShift } from "../../src/formula/axis-shift";
import { parseCell } from "../../src/formula/address";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";
import { shiftSheet } from "../../src/workbook/shift-sheet";
import { tinyWorkbook } from "./tiny-package";

const PLAIN = { author: "test", generator: "test", date: "2026-01-01T00:00:00Z" };
const insertRow = (at: number, count = 1): AxisShift => ({ kind: "insert", axis: "row", at, count });
const deleteRow = (at: number, count = 1): AxisShift => ({ kind: "delete", axis: "row", at, count });
const insertColumn = (at: number, count = 1): AxisShift => ({ kind: "insert", axis: "column", at, count });
const deleteColumn = (at: number, count = 1): AxisShift => ({ kind: "delete", axis: "column", at, count });

/** A supplier list with its sum, used by an offer on another sheet. */
function supplierList(): Uint8Array {
  return createWorkbook({
    ...PLAIN,
    names: [
      { name: "bag_price", text: "Suppliers!$B$3" },
      { name: "all_prices", text: "Suppliers!$B$2:$B$4" },
    ],
    sheets: [
      {
        name: "Offer",
        cells: {
          A1: { value: 12, formula: "SUM(Suppliers!B2:B4)" },
          A2: { value: 4, formula: "bag_price*2-Suppliers!B3" },
        },
      },
      {
        name: "Suppliers",
        columnWidths: { B: 14, C: 30 },
        rowHeights: { 4: 33 },
        merges: ["D2:D4"],
        frozen: { rows: 1, columns: 0 },
        notes: { B4: "ask again" },
        choices: [{ range: "C2:C4", from: ["net", "gross"] }],
        page: { orientation: "portrait", printArea: "A1:D5", repeatedRows: "1:1" },
        tables: [{ name: "Prices", range: "F1:G4" }],
        cells: {
          A1: { value: "item" },
          B1: { value: "price" },
          A2: { value: "red" },
          B2: { value: 3, style: { numberFormat: "0.00", fill: "#ffff00" } },
          A3: { value: "blue" },
          B3: { value: 4, style: { numberFormat: "0.00" } },
          A4: { value: "gold" },
          B4: { value: 5 },
          A5: { value: "sum" },
          B5: { value: 12, formula: "SUM(B2:B4)" },
          F1: { value: "size" },
          G1: { value: "cost" },
          F2: { value: 1 },
          G2: { value: 2 },
          F3: { value: 3 },
          G3: { value: 4 },
          F4: { value: 5 },
          G4: { value: 6 },
          I1: { value: 10, formula: "SUM(Prices[cost])-Prices[[#Totals],[cost]]" },
        },
      },
    ],
  });
}

const xmlOf = (bytes: Uint8Array, part: string): string =>
  strFromU8(unzipSync(bytes)[part] ?? new Uint8Array());
const formulaOf = (bytes: Uint8Array, sheet: number, address: string): string | undefined => {
  const place = parseCell(address);
  return openWorkbook(bytes).model.sheets[sheet]?.cells.find(
    ({ row, column }) => row === place?.row && column === place.column,
  )?.formula?.text;
};

describe("a new supplier row inside the sum's range", () => {
  const shifted = shiftSheet(supplierList(), 1, insertRow(3));
  const { model } = openWorkbook(shifted);
  const sheet = model.sheets[1];

  it("is taken in by the sum, by other sheets, by names, and by the printed area", () => {
    expect(formulaOf(shifted, 1, "B6")).toBe("SUM(B2:B5)");
    expect(formulaOf(shifted, 0, "A1")).toBe("SUM(Suppliers!B2:B5)");
    expect(formulaOf(shifted, 0, "A2")).toBe("bag_price*2-Suppliers!B3");
    expect(model.names.map(({ name, text }) => [name, text])).toEqual(
      expect.arrayContaining([
        ["bag_price", "Suppliers!$B$3"],
        ["all_prices", "Suppliers!$B$2:$B$5"],
        ["_xlnm.Print_Area", "Suppliers!$A$1:$D$6"],
        ["_xlnm.Print_Titles", "Suppliers!$1:$1"],
      ]),
    );
  });

  it("moves merged cells, heights, notes, choices and tables", () => {
    expect(sheet?.merges).toEqual([{ firstRow: 1, lastRow: 4, firstColumn: 3, lastColumn: 3 }]);
    expect(sheet?.rowHeights.get(4)).toBe(33);
    expect([...(sheet?.notes ?? [])]).toEqual([["B5", "ask again"]]);
    expect(xmlOf(shifted, "xl/worksheets/sheet2.xml")).toContain('sqref="C2:C5"');
    expect(model.tables[0]?.range).toEqual({ firstRow: 0, lastRow: 4, firstColumn: 5, lastColumn: 6 });
  });

  it("looks like the row above it", () => {
    const cell = sheet?.cells.find(({ row, column }) => row === 3 && column === 1);
    expect(cell).toMatchObject({ value: null });
    expect(model.styles[cell?.style ?? 0]).toMatchObject({ numberFormat: "0.00" });
  });

  it("comes out again without a trace in what the sheets hold", () => {
    const back = openWorkbook(shiftSheet(shifted, 1, deleteRow(3))).model;
    expect(back).toEqual(openWorkbook(supplierList()).model);
  });
});

describe("columns", () => {
  it("bring their widths, and the table gets a column with a heading", () => {
    const shifted = shiftSheet(supplierList(), 1, insertColumn(6));
    const { model } = openWorkbook(shifted);
    expect(model.tables[0]).toMatchObject({ columns: ["size", "Column1", "cost"] });
    expect(model.sheets[1]?.cells.find(({ row, column }) => row === 0 && column === 6)?.value).toBe(
      "Column1",
    );
    const wider = openWorkbook(shiftSheet(supplierList(), 1, insertColumn(2))).model.sheets[1];
    expect([...(wider?.columnWidths ?? [])]).toEqual([
      [1, 14],
      [2, 14],
      [3, 30],
    ]);
  });

  it("that are deleted leave #REF! where they were meant", () => {
    const shifted = shiftSheet(supplierList(), 1, deleteColumn(6));
    expect(formulaOf(shifted, 1, "H1")).toBe("SUM(#REF!)-#REF!");
    expect(openWorkbook(shifted).model.tables[0]?.columns).toEqual(["size"]);
    const all = shiftSheet(supplierList(), 1, deleteColumn(5, 2));
    expect(openWorkbook(all).model.tables).toEqual([]);
    expect(xmlOf(all, "xl/worksheets/sheet2.xml")).not.toContain("tablePart");
    expect(formulaOf(shiftSheet(supplierList(), 1, deleteColumn(1)), 0, "A1")).toBe("SUM(Suppliers!#REF!)");
  });

  it("that move take their formulas along", () => {
    const shifted = shiftSheet(supplierList(), 1, { kind: "move", axis: "column", at: 1, count: 1, to: 0 });
    expect(formulaOf(shifted, 1, "A5")).toBe("SUM(A2:A4)");
    expect(formulaOf(shifted, 0, "A1")).toBe("SUM(Suppliers!A2:A4)");
    expect(
      openWorkbook(shifted)
        .model.sheets[1]?.cells.slice(0, 2)
        .map(({ value }) => value),
    ).toEqual(["price", "item"]);
  });
});

describe("rows", () => {
  it("that a table cannot do without are refused with a sentence", () => {
    expect(() => shiftSheet(supplierList(), 1, deleteRow(0))).toThrow(
      /^the table Prices needs its heading row/,
    );
    expect(() => shiftSheet(supplierList(), 1, deleteRow(1, 3))).toThrow(
      /^the table Prices must keep one row/,
    );
  });

  it("move among each other with everything that points at them", () => {
    const shifted = shiftSheet(supplierList(), 1, { kind: "move", axis: "row", at: 2, count: 1, to: 4 });
    expect(formulaOf(shifted, 0, "A2")).toBe("bag_price*2-Suppliers!B4");
    expect(formulaOf(shifted, 0, "A1")).toBe("SUM(Suppliers!B2:B4)");
    expect(openWorkbook(shifted).model.names.find(({ name }) => name === "bag_price")?.text).toBe(
      "Suppliers!$B$4",
    );
  });

  it("keep formats and checks by condition on the cells they were made for", () => {
    const rule = (range: string, formula: string): string =>
      `<conditionalFormatting sqref="${range}"><cfRule type="expression" priority="1"><formula>${formula}</formula></cfRule></conditionalFormatting>`;
    const bytes = tinyWorkbook({
      rows: '<row r="2"><c r="A2"><v>1</v></c></row><row r="3"><c r="A3"><v>2</v></c></row>',
      behind:
        rule("A2:A9", "A2&gt;$D$3") +
        rule("B1:B2", "B1=1") +
        '<dataValidations count="2"><dataValidation sqref="A2"><formula1>$D$3</formula1></dataValidation><dataValidation sqref="C2:C9 E3"><formula1>C2&gt;0</formula1></dataValidation></dataValidations>' +
        '<hyperlinks><hyperlink ref="A2" location="\'Sheet one\'!D3"/></hyperlinks><rowBreaks count="1" manualBreakCount="1"><brk id="5" max="16383" man="1"/></rowBreaks>',
    });
    const xml = xmlOf(shiftSheet(bytes, 0, deleteRow(1)), "xl/worksheets/sheet1.xml");
    // Row 2 is gone: the rule begins with what was row 3 and reads it in its own row; D3 is D2 now.
    expect(xml).toContain(rule("A2:A8", "A2&gt;$D$2"));
    expect(xml).toContain(rule("B1", "B1=1"));
    expect(xml).toContain(
      '<dataValidations count="1"><dataValidation sqref="C2:C8 E2"><formula1>C2&gt;0</formula1>',
    );
    expect(xml).not.toContain("hyperlink");
    expect(xml).toContain('<brk id="4"');
    const longer = xmlOf(shiftSheet(bytes, 0, insertRow(0)), "xl/worksheets/sheet1.xml");
    expect(longer).toContain(rule("A3:A10", "A3&gt;$D$4"));
    expect(longer).toContain('ref="A3" location="\'Sheet one\'!D4"');
  });

  it("write out shared formulas and keep spills in one piece", () => {
    const bytes = createWorkbook({
      ...PLAIN,
      sheets: [
        {
          name: "S",
          cells: {
            A1: { value: 7 },
            B2: {
              value: 1,
              formula: {
                text: "_xlfn.SEQUENCE(3)",
                kind: "dynamic",
                range: { firstRow: 1, lastRow: 3, firstColumn: 1, lastColumn: 1 },
              },
            },
            B3: { value: 2 },
            B4: { value: 3 },
            B6: { value: "behind" },
          },
        },
      ],
    });
    const { model } = openWorkbook(shiftSheet(bytes, 0, insertRow(2, 2)));
    expect(model.sheets[0]?.cells.map(({ row, value }) => [row, value])).toEqual([
      [0, 7],
      [1, 1],
      [2, 2],
      [3, 3],
      [7, "behind"],
    ]);
    expect(model.sheets[0]?.cells[1]?.formula?.range).toEqual({
      firstRow: 1,
      lastRow: 3,
      firstColumn: 1,
      lastColumn: 1,
    });
    const shared = tinyWorkbook({
      rows:
        '<row r="1"><c r="A1"><f t="shared" ref="A1:A3" si="0">B1*2</f><v>2</v></c></row>' +
        '<row r="2"><c r="A2"><f t="shared" si="0"/><v>4</v></c></row><row r="3"><c r="A3"><f t="shared" si="0"/><v>6</v></c></row>',
    });
    const shifted = shiftSheet(shared, 0, insertRow(1));
    expect(["A1", "A3", "A4"].map((address) => formulaOf(shifted, 0, address))).toEqual([
      "B1*2",
      "B3*2",
      "B4*2",
    ]);
  });

  it("stay where a formula fills several cells as one", () => {
    const array = tinyWorkbook({
      rows: '<row r="1"><c r="A1"><f t="array" ref="A1:A3">B1:B3*2</f><v>2</v></c></row>',
    });
    expect(() => shiftSheet(array, 0, insertRow(1))).toThrow(
      "the formula in A1 does not allow it: it fills several cells that must stay together",
    );
    expect(formulaOf(shiftSheet(array, 0, insertRow(0)), 0, "A2")).toBe("B2:B4*2");
  });
});

// Real workbooks lie beside this repository; LIST.md there names their origin.
const FOLDER = join(import.meta.dirname, "../../../shared/reference/xlsx");
const files = existsSync(FOLDER) ? readdirSync(FOLDER).filter((name) => name.endsWith(".xlsx")) : [];

describe.skipIf(files.length === 0).each(files)("in %s", { timeout: 60_000 }, (name) => {
  const bytes = existsSync(join(FOLDER, name))
    ? new Uint8Array(readFileSync(join(FOLDER, name)))
    : new Uint8Array();

  it("rows and columns that come and go again change nothing that the sheets hold", () => {
    const before = openWorkbook(bytes).model;
    for (const position of [...before.sheets.keys()].slice(0, 2)) {
      if (before.sheets[position]?.isProtected) continue;
      for (const axis of ["row", "column"] as const) {
        {
          const at = 3;
          const there = { kind: "insert", axis, at, count: 2 } as const;
          let bytesAfter: Uint8Array;
          try {
            bytesAfter = shiftSheet(shiftSheet(bytes, position, there), position, {
              ...there,
              kind: "delete",
            });
          } catch (error) {
            // What Excel refuses too: cells that belong together.
            expect(String(error)).toMatch(/must stay|needs its heading|keeps/);
            continue;
          }
          const after = openWorkbook(bytesAfter).model;
          expect(after.names, `${axis} ${at}`).toEqual(before.names);
          expect(after.tables.map(({ columns, range }) => [columns, range])).toEqual(
            before.tables.map(({ columns, range }) => [columns, range]),
          );
          for (const [index, sheet] of before.sheets.entries()) {
            const { cells, ...rest } = sheet;
            const { cells: cellsAfter, ...restAfter } = after.sheets[index] ?? sheet;
            const filled = (list: typeof cells): readonly unknown[] =>
              list.filter(({ value, formula }) => value !== null || formula);
            expect(filled(cellsAfter), `${axis} ${at} ${sheet.name}`).toEqual(filled(cells));
            expect(restAfter.merges).toEqual(rest.merges);
            expect(restAfter.notes).toEqual(rest.notes);
            expect(restAfter.columnWidths).toEqual(rest.columnWidths);
          }
        }
      }
    }
  });
});
