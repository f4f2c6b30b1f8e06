import { describe, expect, it } from "vitest";
import type { CellChange } from "../../src/workbook/model";
import { WorkbookPackage } from "../../src/workbook/package";
import { proveChanges, type ReadFile } from "../../src/workbook/proof";
import { openWorkbook } from "../../src/workbook/read";
import type { LayoutChange } from "../../src/workbook/sheet-layout";
import { tinyParts, type TinyWorkbook, zipParts } from "./tiny-package";

const STYLES = "<cellXfs><xf/><xf/></cellXfs>";
const ROWS =
  '<row r="1" ht="20"><c r="A1"><v>1</v></c><c r="B1"><f>A1+1</f><v>2</v></c><c r="C1" s="1"><v>3</v></c></row>' +
  '<row r="2"><c r="A2"><f t="array" ref="A2:A3" ca="1">B1:C1</f><v>1</v></c></row>' +
  '<row r="3"><c r="A3"><f ca="1"/><v>2</v></c></row>';
const TINY: TinyWorkbook = {
  rows: ROWS,
  before: '<dimension ref="A1:C3"/>',
  behind: '<mergeCells count="1"><mergeCell ref="E1:F1"/></mergeCells>',
  styles: STYLES,
  strings: "<si><t>text</t></si>",
  parts: { "xl/media/picture.png": new Uint8Array([1, 2, 3]) },
};

// Both files are packed by the same ZIP writer, so that parts that are equal are equal in their bytes.
function file(change: TinyWorkbook = {}): ReadFile {
  return openWorkbook(zipParts(tinyParts({ ...TINY, ...change, parts: { ...TINY.parts, ...change.parts } })));
}
const rows = (from: string, to: string): TinyWorkbook => {
  expect(ROWS).toContain(from);
  return { rows: ROWS.replace(from, to) };
};
const value = (row: number, column: number, content: number): CellChange => {
  return { sheet: 0, row, column, value: content };
};

describe("a result as it was meant", () => {
  it.each<[string, TinyWorkbook, readonly CellChange[]]>([
    ["without changes", {}, []],
    ["with a value", rows("<v>1</v>", "<v>7</v>"), [value(0, 0, 7)]],
    ["with the last of two values", rows("<v>1</v>", "<v>7</v>"), [value(0, 0, 5), value(0, 0, 7)]],
    [
      "with a formula",
      rows("<f>A1+1</f>", "<f>A1+2</f>"),
      [{ sheet: 0, row: 0, column: 1, formula: { text: "A1+2", kind: "normal" } }],
    ],
    [
      "with a shorter range whose rest has no formula",
      { rows: ROWS.replace("A2:A3", "A2").replace('<f ca="1"/><v>2</v>', "") },
      [
        { sheet: 0, row: 1, column: 0, range: { firstRow: 1, firstColumn: 0, lastRow: 1, lastColumn: 0 } },
        { sheet: 0, row: 2, column: 0, value: null },
      ],
    ],
    [
      "with a row more and a wider dimension",
      { rows: `${ROWS}<row r="9"><c r="A9"><v>1</v></c></row>`, before: '<dimension ref="A1:C9"/>' },
      [value(8, 0, 1)],
    ],
  ])("passes %s", (_what, written, changes) => {
    expect(() => {
      proveChanges(file(), file(written), { changes, layouts: [] });
    }).not.toThrow();
  });
});

describe("a result that is not what was meant", () => {
  const shorter: CellChange = {
    sheet: 0,
    row: 1,
    column: 0,
    range: { firstRow: 1, firstColumn: 0, lastRow: 1, lastColumn: 0 },
  };
  it.each<[string, TinyWorkbook, readonly CellChange[], RegExp]>([
    ["another value", rows("<v>1</v>", "<v>8</v>"), [value(0, 0, 7)], /cell A1 of sheet "Sheet one" holds/],
    ["a value lost", rows("<v>3</v>", ""), [value(0, 0, 1)], /cell C1 .* holds something else/],
    [
      "a cell too many",
      { rows: `${ROWS}<row r="4"><c r="D4"><v>1</v></c></row>` },
      [value(0, 0, 1)],
      /D4 .* nowhere/,
    ],
    ["another formula", rows("A1+1", "A1+2"), [value(0, 0, 1)], /cell B1 .* holds something else/],
    [
      "another look",
      rows('<c r="C1" s="1">', '<c r="C1">'),
      [value(0, 0, 1)],
      /cell C1 .* holds something else/,
    ],
    ["another range", rows("A2:A3", "A2:A4"), [value(0, 0, 1)], /cell A2 .* holds something else/],
    [
      "a formula outside its range",
      { rows: ROWS.replace("A2:A3", "A2").replace("<v>2</v></c></row>", "</c></row>") },
      [shorter, { sheet: 0, row: 2, column: 0, value: null }, { sheet: 0, row: 0, column: 1, value: 2 }],
      /cell A3 .* has a formula outside the range/,
    ],
    [
      "a formula in the range of another",
      { rows: ROWS.replace('<f ca="1"/>', "<f>1+1</f>") },
      [{ sheet: 0, row: 2, column: 0, formula: { text: "1+1", kind: "normal" } }],
      /cell A3 .* has a formula outside the range/,
    ],
    [
      "another height of a row",
      rows('ht="20"', 'ht="21"'),
      [value(0, 0, 1)],
      /the rows of sheet "Sheet one" changed/,
    ],
    ["other merged cells", { behind: "" }, [value(0, 0, 1)], /around the cells of sheet "Sheet one" changed/],
    [
      "another picture",
      { parts: { "xl/media/picture.png": new Uint8Array([1, 2, 4]) } },
      [],
      /picture.png changed/,
    ],
    ["a picture lost", { parts: { "xl/media/picture.png": null } }, [], /picture.png is missing/],
    ["a part too many", { parts: { "xl/evil.xml": "<a/>" } }, [], /evil.xml is new/],
    ["a change to a sheet that nobody asked for", rows("<v>1</v>", "<v>8</v>"), [], /sheet1.xml changed/],
  ])("is refused with %s", (_what, written, changes, sentence) => {
    expect(() => {
      proveChanges(file(), file(written), { changes, layouts: [] });
    }).toThrow(sentence);
  });

  it("is refused where a part that may change is no XML", () => {
    const parts = WorkbookPackage.open(zipParts(tinyParts({ ...TINY, styles: "<cellXfs><xf/>" })));
    expect(() => {
      proveChanges(file(), { parts, model: file().model }, { changes: [], layouts: [] });
    }).toThrow(/styles\.xml of the file is damaged/);
  });
});

describe("a look or a layout that is not what was meant", () => {
  const LOOKS = {
    styles:
      "<fonts><font/><font><b/></font></fonts><fills><fill/></fills><borders><border/></borders>" +
      '<cellXfs><xf/><xf fontId="1"/><xf numFmtId="2"/></cellXfs>',
  };
  const bold: CellChange = { sheet: 0, row: 0, column: 1, look: { bold: true } };
  const prove = (
    written: TinyWorkbook,
    changes: readonly CellChange[],
    layouts: readonly LayoutChange[] = [],
  ): (() => void) => {
    return () => {
      proveChanges(file(LOOKS), file({ ...LOOKS, ...written }), { changes, layouts });
    };
  };

  it("is refused with another look or format, and passes as meant", () => {
    const styled = rows('<c r="B1">', '<c r="B1" s="1">');
    expect(prove(styled, [bold])).not.toThrow();
    expect(prove({ rows: ROWS }, [bold, value(0, 0, 1)])).toThrow(/cell B1 .* holds something else/);
    expect(prove(styled, [{ ...bold, look: { italic: true } }])).toThrow(/cell B1 .* holds something else/);
    const format: CellChange = { sheet: 0, row: 0, column: 1, numberFormat: "0.00" };
    expect(prove(rows('<c r="B1">', '<c r="B1" s="2">'), [format])).not.toThrow();
    expect(prove(styled, [format])).toThrow(/cell B1 .* holds something else/);
  });

  it("is refused with another height, width or pane, and passes as meant", () => {
    const high = rows('ht="20"', 'ht="21"');
    const cols = '<dimension ref="A1:C3"/><cols><col min="2" max="2" width="9" customWidth="1"/></cols>';
    const views =
      '<dimension ref="A1:C3"/><sheetViews><sheetView><pane ySplit="1" state="frozen"/></sheetView></sheetViews>';
    expect(prove(high, [], [{ sheet: 0, rowHeights: new Map([[0, 21]]) }])).not.toThrow();
    expect(prove(high, [], [{ sheet: 0, rowHeights: new Map([[0, 22]]) }])).toThrow(/the rows of sheet/);
    expect(prove({ before: cols }, [], [{ sheet: 0, columnWidths: new Map([[1, 9]]) }])).not.toThrow();
    expect(prove({ before: cols }, [], [{ sheet: 0, columnWidths: new Map([[1, 8]]) }])).toThrow(
      /the columns of/,
    );
    expect(prove({ before: cols }, [value(0, 0, 1)])).toThrow(/the columns of sheet/);
    const frozen = { rows: 1, columns: 0 };
    expect(prove({ before: views }, [], [{ sheet: 0, frozen }])).not.toThrow();
    expect(prove({ before: views }, [], [{ sheet: 0, frozen: { rows: 2, columns: 0 } }])).toThrow(
      /the panes of/,
    );
    expect(prove({ before: cols, behind: "" }, [], [{ sheet: 0, columnWidths: new Map([[1, 9]]) }])).toThrow(
      /around the cells/,
    );
  });

  it("is refused with cells in another order", () => {
    const swapped = rows(
      '<c r="A1"><v>1</v></c><c r="B1"><f>A1+1</f><v>2</v></c>',
      '<c r="B1"><f>A1+1</f><v>2</v></c><c r="A1"><v>1</v></c>',
    );
    expect(prove(swapped, [value(0, 0, 1)])).toThrow(/holds something else/);
  });
});

it("leaves a fault alone that the file had already", () => {
  const stray = { rows: ROWS.replace("A2:A3", "A2") };
  const written = { rows: stray.rows.replace("<v>1</v>", "<v>7</v>") };
  expect(() => {
    proveChanges(file(stray), file(written), { changes: [value(0, 0, 7)], layouts: [] });
  }).not.toThrow();
});
