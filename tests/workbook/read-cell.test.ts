import { describe, expect, it } from "vitest";
import { CellReader } from "../../src/workbook/read-cell";
import { openWorkbook } from "../../src/workbook/read";
import type { WorkbookCell } from "../../src/workbook/model";
import { type TinyWorkbook, tinyWorkbook } from "./tiny-package";

// Cells and their types: ECMA-376 part 1, 18.3.1.4 and 18.18.11; formulas: 18.3.1.40.

const cellsOf = (rows: string, more: TinyWorkbook = {}): readonly WorkbookCell[] =>
  openWorkbook(tinyWorkbook({ ...more, rows })).model.sheets[0]?.cells ?? [];
const cellOf = (cell: string, more: TinyWorkbook = {}): WorkbookCell | undefined =>
  cellsOf(`<row r="1">${cell}</row>`, more)[0];

describe("the value of a cell", () => {
  it.each([
    ['<c r="A1" t="inlineStr"/>', null],
    ['<c r="A1" t="inlineStr"><v>1</v></c>', null],
    ['<c r="A1" t="inlineStr"><is/></c>', ""],
    ['<c r="A1" t="s"/>', null],
    ['<c r="A1" t="s"><v> 0 </v></c>', "shared"],
    ['<c r="A1" t="str"><v xml:space="preserve"> x </v></c>', " x "],
    ['<c r="A1" t="str"><v>a_x0041_b</v></c>', "aAb"],
    ['<c r="A1"><v> </v></c>', null],
    ['<c r="A1"><v> 7 </v></c>', 7],
    ['<c r="A1" t="b"><v>true</v></c>', true],
    ['<c r="A1" t="b"><v>false</v></c>', false],
    ['<c r="A1" t="e"><v> #N/A </v></c>', { error: "#N/A" }],
    // ISO 8601: a time with its zone, and one without, which is that of the sheet.
    ['<c r="A1" t="d"><v>2026-06-20T06:00:00Z</v></c>', 46_193.25],
    ['<c r="A1" t="d"><v>2026-06-20T06:00:00z</v></c>', 46_193.25],
    ['<c r="A1" t="d"><v>2026-06-20T06:00:00+06:00</v></c>', 46_193],
    ['<c r="A1" t="d"><v>2026-06-20T06:00:00-06:00</v></c>', 46_193.5],
    ['<c r="A1" t="d"><v>1970-01-01</v></c>', 25_569],
  ])("%s is %j", (cell, value) => {
    expect(cellOf(cell, { strings: "<si><t>shared</t></si>" })?.value).toEqual(value);
  });

  it("is no negative zero, which no sheet shows", () => {
    expect(Object.is(cellOf('<c r="A1"><v>-0</v></c>')?.value, 0)).toBe(true);
  });

  it("has a style of the file, or the first", () => {
    const styles = "<cellXfs><xf/><xf/></cellXfs>";
    expect(["0", "1", "2", "x"].map((s) => cellOf(`<c r="A1" s="${s}"/>`, { styles })?.style)).toEqual([
      0, 1, 0, 0,
    ]);
  });
});

describe("the formula of a cell", () => {
  it("is none where it has no text, which an array formula elsewhere fills", () => {
    expect(cellOf('<c r="A1"><f ca="1"/><v>1</v></c>')).toEqual({
      row: 0,
      column: 0,
      value: 1,
      style: 0,
      isFilled: true,
    });
    expect(cellOf('<c r="A1"><f t="normal"></f><v>1</v></c>')).toHaveProperty("isFilled", true);
    expect(cellOf('<c r="A1"><v>1</v></c>')).toEqual({ row: 0, column: 0, value: 1, style: 0 });
    expect(cellOf('<c r="A1"><f>B1</f></c>')).not.toHaveProperty("isFilled");
  });

  it("fills what it says, and nothing where it says nothing", () => {
    expect(cellOf('<c r="A1"><f t="array">B1</f></c>')?.formula).toEqual({ text: "B1", kind: "array" });
    expect(cellOf('<c r="A1"><f t="dataTable" r1="C1"/></c>')?.formula).toEqual({
      text: "TABLE(,C1)",
      kind: "dataTable",
    });
    expect(cellOf('<c r="A1"><f t="dataTable" dtr="1"/></c>')?.formula).toEqual({
      text: "TABLE(,)",
      kind: "dataTable",
    });
    expect(() => cellOf('<c r="A1"><f t="array" ref="?">B1</f></c>')).toThrow(
      'the file is damaged: a range in "Sheet one" cannot be read',
    );
  });

  it("that is shared belongs to the sheet, and one without a range shares nothing", () => {
    const shared =
      '<c r="A1"><f t="shared" ref="A1:B1" si="3">C1</f></c><c r="B1"><f t="shared" si="3"/></c>';
    expect(cellsOf(`<row r="1">${shared}</row>`).map(({ formula }) => formula?.text)).toEqual(["C1", "D1"]);
    const alone = '<c r="A1"><f t="shared" si="3">C1</f></c><c r="B1"><f t="shared" si="3"/></c>';
    expect(() => cellsOf(`<row r="1">${alone}</row>`)).toThrow(
      'the file is damaged: cell B1 of sheet "Sheet one" shares a formula that is missing',
    );
  });

  it("is refused where it is shared and longer than any formula", () => {
    const shared = (length: number): string =>
      `<row r="1"><c r="A1"><f t="shared" ref="A1:B1" si="0">"${"x".repeat(length - 2)}"</f></c><c r="B1"><f t="shared" si="0"/></c></row>`;
    expect(cellsOf(shared(65_536))[1]?.formula?.text).toHaveLength(65_536);
    expect(() => cellsOf(shared(65_537))).toThrow(
      'cell B1 of sheet "Sheet one" shares a formula that is too long',
    );
  });
});

it("reads two million cells and merged ranges of a file and no more", () => {
  const reader = new CellReader([], new Set(), false, []);
  const spend = (count: number): void => {
    for (let at = 0; at < count; at++) reader.spend();
  };
  expect(() => {
    spend(2_000_000);
  }).not.toThrow();
  expect(() => {
    spend(1);
  }).toThrow("the file is too large to open: it has too many cells");
});
