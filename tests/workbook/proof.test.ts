import { describe, expect, it } from "vitest";
import type { CellRange } from "../../src/formula/address";
import { createWorkbook, type WorkbookDescription } from "../../src/workbook/create";
import type { CellChange } from "../../src/workbook/model";
import { WorkbookPackage } from "../../src/workbook/package";
import { proveChanges, type ReadFile } from "../../src/workbook/proof";
import { openWorkbook } from "../../src/workbook/read";
import type { LayoutChange } from "../../src/workbook/sheet-layout";
import { tinyParts, type TinyWorkbook, tinyWorkbook, zipParts } from "./tiny-package";

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

  it("is refused with another look or format than the cell had where only the other changes", () => {
    // Style 3 is bold and has two decimals, 1 is bold only and 2 has two decimals only.
    const styles = LOOKS.styles.replace("</cellXfs>", '<xf fontId="1" numFmtId="2"/></cellXfs>');
    const from = (style: number): TinyWorkbook => ({
      styles,
      ...rows('<c r="B1">', `<c r="B1" s="${String(style)}">`),
    });
    const act = (before: number, after: number, change: Partial<CellChange>): (() => void) => {
      const changes = [{ sheet: 0, row: 0, column: 1, ...change }];
      return () => {
        proveChanges(file(from(before)), file(from(after)), { changes, layouts: [] });
      };
    };
    expect(act(1, 3, { numberFormat: "0.00" })).not.toThrow();
    expect(act(1, 2, { numberFormat: "0.00" })).toThrow(/cell B1 .* holds something else/);
    expect(act(2, 3, { look: { bold: true } })).not.toThrow();
    expect(act(2, 1, { look: { bold: true } })).toThrow(/cell B1 .* holds something else/);
    expect(act(0, 3, { numberFormat: "0.00", look: { bold: true } })).not.toThrow();
    expect(act(0, 2, { numberFormat: "0.00", look: { bold: true } })).toThrow(
      /cell B1 .* holds something else/,
    );
    expect(act(0, 1, { style: 2, look: { bold: true } })).toThrow(/cell B1 .* holds something else/);
  });

  it("is refused with a new cell that looks otherwise, and leaves one that nothing was said about", () => {
    const added = (style: number): TinyWorkbook =>
      rows("<v>3</v></c></row>", `<v>3</v></c><c r="D1" s="${String(style)}"><v>4</v></c></row>`);
    const cell: CellChange = { sheet: 0, row: 0, column: 3, value: 4 };
    expect(prove(added(2), [cell])).not.toThrow();
    expect(prove(added(2), [{ ...cell, numberFormat: "0.00" }])).not.toThrow();
    expect(prove(added(1), [{ ...cell, numberFormat: "0.00" }])).toThrow(/cell D1 .* holds something else/);
    expect(prove(added(1), [{ ...cell, look: { bold: true } }])).not.toThrow();
    expect(prove(added(2), [{ ...cell, look: { bold: true } }])).toThrow(/cell D1 .* holds something else/);
  });

  it("passes in a file whose styles take no new ones", () => {
    const format: CellChange = { ...bold, numberFormat: "0.00" };
    const changed = { ...rows("<v>1</v>", "<v>1</v>") };
    expect(() => {
      proveChanges(file(), file(changed), { changes: [format], layouts: [] });
    }).not.toThrow();
    expect(prove(changed, [format])).toThrow(/cell B1 .* holds something else/);
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

describe("what a cell is meant to hold", () => {
  const SMALL = {
    rows:
      '<row r="2"><c r="B2"><v>1</v></c><c r="C2" t="str"><f>B2&amp;"x"</f><v>1x</v></c><c r="D2" t="e"><f>1/0</f><v>#DIV/0!</v></c></row>' +
      '<row r="3"><c r="B3"><f t="array" ref="B3:B4">B2:B3</f><v>1</v></c></row><row r="4"><c r="B4"><v>0</v></c></row>' +
      '<row r="5"><c r="B5" t="b"><v>1</v></c><c r="C5" s="1"/><c r="D5"><v>9</v></c></row>',
    styles: STYLES,
  };
  const prove = (from: string, to: string, ...changes: readonly Partial<CellChange>[]): (() => void) => {
    expect(SMALL.rows).toContain(from);
    const before = openWorkbook(tinyWorkbook(SMALL));
    const after = openWorkbook(tinyWorkbook({ ...SMALL, rows: SMALL.rows.replace(from, to) }));
    const all = changes.map((change): CellChange => ({ sheet: 0, row: 1, column: 1, ...change }));
    return () => {
      proveChanges(before, after, { changes: all, layouts: [] });
    };
  };
  const B2 = '<c r="B2"><v>1</v></c>';
  const formula = '<f>B2&amp;"x"</f>';
  const B3 = '<f t="array" ref="B3:B4">B2:B3</f>';
  const D5 = '<c r="D5"><v>9</v></c>';
  const at = (row: number, column: number): { row: number; column: number } => ({ row, column });
  const column = (firstRow: number, lastRow: number): CellRange => {
    return { firstRow, firstColumn: 1, lastRow, lastColumn: 1 };
  };

  it.each<[string, string, string, readonly Partial<CellChange>[]]>([
    ["a truth value", B2, '<c r="B2" t="b"><v>1</v></c>', [{ value: true }]],
    ["an error that files keep", B2, '<c r="B2" t="e"><v>#N/A</v></c>', [{ value: { error: "#N/A" } }]],
    // Later errors are kept as #VALUE! with more elsewhere (MS-XLSX).
    ["a later error", B2, '<c r="B2" t="e"><v>#VALUE!</v></c>', [{ value: { error: "#SPILL!" } }]],
    ["nothing", B2, "", [{ value: null }]],
    ["nothing, with a cell left", B2, '<c r="B2"/>', [{ value: null }]],
    ["a new cell in front", B2, `<c r="A2"><v>5</v></c>${B2}`, [{ ...at(1, 0), value: 5 }]],
    ["a new cell behind", D5, `${D5}<c r="E5"><v>5</v></c>`, [{ ...at(4, 4), value: 5 }]],
    [
      "a new cell behind one that went",
      D5,
      '<c r="E5"><v>5</v></c>',
      [
        { ...at(4, 3), value: null },
        { ...at(4, 4), value: 5 },
      ],
    ],
    ["nothing in a cell that was not there", B2, B2, [{ ...at(8, 8), value: null }]],
    ["no formula, but its value", formula, "", [{ ...at(1, 2), formula: null }]],
    [
      "another formula, but its value",
      formula,
      '<f>"1x"</f>',
      [{ ...at(1, 2), formula: { text: '"1x"', kind: "normal" } }],
    ],
    [
      "a new formula over one cell",
      B2,
      '<c r="B2"><f t="array" ref="B2">SUM(D5:D6*2)</f><v>1</v></c>',
      [{ formula: { text: "SUM(D5:D6*2)", kind: "array" } }],
    ],
    [
      "a new formula over two cells",
      "<v>9</v></c></row>",
      '<v>9</v></c></row><row r="8"><c r="B8"><f t="array" ref="B8:B9">D5:D6</f><v>1</v></c></row>',
      [{ ...at(7, 1), value: 1, formula: { text: "D5:D6", kind: "array" }, range: column(7, 8) }],
    ],
    [
      "the same formula over fewer cells",
      B3,
      '<f t="array" ref="B3">B2:B3</f>',
      [{ ...at(2, 1), formula: { text: "B2:B3", kind: "array", range: column(2, 3) }, range: column(2, 2) }],
    ],
    ["another look", '<c r="B2">', '<c r="B2" s="1">', [{ style: 1 }]],
  ])("passes with %s", (_what, from, to, changes) => {
    expect(prove(from, to, ...changes)).not.toThrow();
  });

  it.each<[string, string, string, readonly Partial<CellChange>[], string]>([
    ["a number for a truth value", B2, B2, [{ value: true }], "B2"],
    ["a text for a number", B2, '<c r="B2" t="str"><v>1</v></c>', [{ value: 1 }], "B2"],
    ["another error", B2, '<c r="B2" t="e"><v>#REF!</v></c>', [{ value: { error: "#N/A" } }], "B2"],
    [
      "a text for an error that is kept otherwise",
      B2,
      '<c r="B2" t="str"><v>#VALUE!</v></c>',
      [{ value: { error: "#SPILL!" } }],
      "B2",
    ],
    ["a text for an error", B2, '<c r="B2" t="str"><v>#N/A</v></c>', [{ value: { error: "#N/A" } }], "B2"],
    ["nothing for an error", B2, '<c r="B2"/>', [{ value: { error: "#N/A" } }], "B2"],
    ["a value that was to go", B2, B2, [{ value: null }], "B2"],
    ["no new cell", B2, B2, [{ ...at(8, 8), value: 5 }], "I9"],
    ["another value in a new cell", D5, `${D5}<c r="E5"><v>6</v></c>`, [{ ...at(4, 4), value: 5 }], "E5"],
    ["its last cell lost", D5, "", [{ value: 1 }], "D5"],
    ["a cell lost in front of a new one", D5, '<c r="E5"><v>5</v></c>', [{ ...at(4, 4), value: 5 }], "D5"],
    ["a formula that was to go", formula, formula, [{ ...at(1, 2), formula: null }], "C2"],
    ["a formula lost", formula, "", [{ value: 1 }], "C2"],
    ["a formula come", B2, '<c r="B2"><f>D5</f><v>1</v></c>', [{ value: 1 }], "B2"],
    ["a formula of another kind", formula, '<f t="array" ref="C2">B2&amp;"x"</f>', [{ value: 1 }], "C2"],
    [
      "a formula over more cells",
      B2,
      '<c r="B2"><f t="array" ref="B2:C2">D5</f><v>1</v></c>',
      [{ formula: { text: "D5", kind: "array" } }],
      "B2",
    ],
    [
      "a range as it was",
      B3,
      B3,
      [{ ...at(2, 1), formula: { text: "B2:B3", kind: "array", range: column(2, 3) }, range: column(2, 2) }],
      "B3",
    ],
    ["the look as it was", B2, B2, [{ style: 1 }], "B2"],
    [
      "a formula over the cells of one before",
      B3,
      "<f>SUM(B2:B3)</f>",
      [{ ...at(2, 1), formula: { text: "SUM(B2:B3)", kind: "array", range: column(2, 3) } }],
      "B3",
    ],
    ["another look of an empty cell", '<c r="C5" s="1"/>', '<c r="C5"/>', [{ value: 1 }], "C5"],
  ])("is refused with %s", (_what, from, to, changes, address) => {
    expect(prove(from, to, ...changes)).toThrow(`cell ${address} of sheet "Sheet one" holds something else`);
  });

  it("is refused with a cell that nobody asked for, beside one that was", () => {
    const two = `${D5}<c r="E5"><v>5</v></c><c r="F5"><v>6</v></c>`;
    expect(prove(D5, two, { ...at(4, 4), value: 5 })).toThrow('F5 of sheet "Sheet one" came from nowhere');
  });
});

describe("rows, columns and what stands around them", () => {
  const BEFORE =
    '<dimension ref="A1"/><sheetViews><sheetView workbookViewId="0"><pane xSplit="1" ySplit="2" state="frozen"/></sheetView></sheetViews><cols><col min="2" max="2" width="9"/><col min="4" max="4" width="8" hidden="1"/></cols>';
  const SIZED: TinyWorkbook = {
    before: BEFORE,
    rows: '<row r="1" ht="20"/><row r="2" hidden="1"/><row r="3"/>',
    behind: "<pageMargins/>",
  };
  const prove = (from: string, to: string, layout: Partial<LayoutChange>): (() => void) => {
    const swap = (text = ""): string => text.replace(from, to);
    expect(`${BEFORE}${SIZED.rows ?? ""}${SIZED.behind ?? ""}`).toContain(from);
    const after = { before: swap(SIZED.before), rows: swap(SIZED.rows), behind: swap(SIZED.behind) };
    const layouts = [{ sheet: 0, ...layout }];
    return () => {
      proveChanges(file(SIZED), file(after), { changes: [], layouts });
    };
  };
  const hides = (key: number, isHidden: boolean): ReadonlyMap<number, boolean> => new Map([[key, isHidden]]);

  it.each<[string, string, string, Partial<LayoutChange>]>([
    ["a row that is hidden", '<row r="3"/>', '<row r="3" hidden="1"/>', { hiddenRows: hides(2, true) }],
    ["a row that is shown", '<row r="2" hidden="1"/>', '<row r="2"/>', { hiddenRows: hides(1, false) }],
    ["a height", '<row r="3"/>', '<row r="3" ht="9"/>', { rowHeights: new Map([[2, 9]]) }],
    ["a column that is shown", ' hidden="1"/></cols>', "/></cols>", { hiddenColumns: hides(3, false) }],
    [
      "a column that is hidden, with the width that this needs",
      "</cols>",
      '<col min="6" max="6" width="10" hidden="1"/></cols>',
      { hiddenColumns: hides(5, true) },
    ],
    ["frozen columns", 'xSplit="1" ySplit="2"', 'xSplit="3" ySplit="2"', { frozen: { rows: 2, columns: 3 } }],
    ["another extent", '<dimension ref="A1"/>', '<dimension ref="A1:B3"/>', {}],
  ])("pass with %s", (_what, from, to, layout) => {
    expect(prove(from, to, layout)).not.toThrow();
  });

  it.each<[string, string, string, Partial<LayoutChange>, string]>([
    ["a row hidden unasked", '<row r="3"/>', '<row r="3" hidden="1"/>', {}, "the rows of"],
    [
      "another row hidden",
      '<row r="3"/>',
      '<row r="3" hidden="1"/>',
      { hiddenRows: hides(0, true) },
      "the rows of",
    ],
    ["a row not shown", '<row r="3"/>', '<row r="3"/>', { hiddenRows: hides(1, false) }, "the rows of"],
    ["a height lost", ' ht="20"', "", {}, "the rows of"],
    ["a height come", '<row r="3"/>', '<row r="3" ht="9"/>', {}, "the rows of"],
    ["a width lost", '<col min="2" max="2" width="9"/>', "", {}, "the columns of"],
    [
      "another column hidden",
      'width="9"/>',
      'width="9" hidden="1"/>',
      { hiddenColumns: hides(5, true) },
      "the columns of",
    ],
    [
      "a width beside a hidden column",
      "</cols>",
      '<col min="6" max="6" width="10"/></cols>',
      { hiddenColumns: hides(3, true) },
      "the columns of",
    ],
    ["a pane gone", '<pane xSplit="1" ySplit="2" state="frozen"/>', "", {}, "the panes of"],
    ["fewer frozen columns", 'xSplit="1" ', "", {}, "the panes of"],
    [
      "what the columns say beside their widths",
      'min="2" max="2"',
      'min="2" max="2" style="1"',
      {},
      "what lies around",
    ],
    [
      "what the window shows",
      'workbookViewId="0"',
      'workbookViewId="0" zoomScale="50"',
      {},
      "what lies around",
    ],
    ["what stands behind", "<pageMargins/>", "", {}, "what lies around"],
    [
      "what stands behind, with new widths",
      "<pageMargins/>",
      "",
      { columnWidths: new Map([[1, 9]]), frozen: { rows: 2, columns: 1 } },
      "what lies around",
    ],
  ])("are refused with %s", (_what, from, to, layout, sentence) => {
    expect(prove(from, to, layout)).toThrow(`${sentence} `);
    expect(prove(from, to, layout)).toThrow('sheet "Sheet one" changed');
  });
});

describe("a formula that spills", () => {
  // A cell whose mark leads to fDynamic spills ([MS-XLSX] 2.2.4.12).
  const metadata: TinyWorkbook = {
    links:
      '<Relationship Id="rId8" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata" Target="metadata.xml"/>',
    parts: {
      "xl/metadata.xml":
        '<metadata xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><metadataTypes count="1"><metadataType name="XLDAPR"/></metadataTypes><futureMetadata name="XLDAPR" count="1"><bk><extLst><ext uri="x"><p xmlns="x" fDynamic="1"/></ext></extLst></bk></futureMetadata><cellMetadata count="1"><bk><rc t="1" v="0"/></bk></cellMetadata></metadata>',
    },
  };
  const made = (kind: "array" | "dynamic" | undefined, lastRow = 3, more = ""): ReadFile => {
    const formula = kind === undefined ? "" : `<f t="array" ref="B2:B${String(lastRow + 1)}">A2:A4*2</f>`;
    const mark = kind === "dynamic" ? ' cm="1"' : "";
    return file({ ...metadata, rows: `<row r="2"><c r="B2"${mark}>${formula}<v>1</v></c></row>${more}` });
  };
  const change = (kind: "array" | "dynamic", lastRow = 3): CellChange => ({
    sheet: 0,
    row: 1,
    column: 1,
    formula: { text: "A2:A4*2", kind },
    range: { firstRow: 1, firstColumn: 1, lastRow, lastColumn: 1 },
  });
  const prove = (before: ReadFile, after: ReadFile, changes: readonly CellChange[]): (() => void) => {
    return () => {
      proveChanges(before, after, { changes, layouts: [] });
    };
  };

  it("is told from one that does not, and keeps what it fills", () => {
    expect(prove(made(undefined), made("dynamic"), [change("dynamic")])).not.toThrow();
    expect(prove(made(undefined), made("array"), [change("dynamic")])).toThrow(
      /cell B2 .* holds something else/,
    );
    expect(prove(made(undefined), made("dynamic"), [change("array")])).toThrow(
      /cell B2 .* holds something else/,
    );
    expect(prove(made(undefined), made("dynamic", 4), [change("dynamic")])).toThrow(
      /cell B2 .* holds something else/,
    );
    const alone: CellChange = { sheet: 0, row: 1, column: 1, formula: { text: "A2:A4*2", kind: "dynamic" } };
    expect(prove(made(undefined), made("dynamic", 1), [alone])).not.toThrow();
    expect(prove(made("dynamic"), made("dynamic", 1), [change("dynamic", 1)])).not.toThrow();
  });

  it("has no other formula where it fills cells", () => {
    const inside = '<row r="3"><c r="B3"><f>1+1</f><v>2</v></c></row>';
    const typed: CellChange = {
      sheet: 0,
      row: 2,
      column: 1,
      value: 2,
      formula: { text: "1+1", kind: "normal" },
    };
    expect(prove(made("dynamic"), made("dynamic", 3, inside), [typed])).toThrow(
      /cell B3 .* has a formula outside the range that it belongs to/,
    );
  });
});

describe("the parts of a file", () => {
  const two = (first: string, second: string): WorkbookDescription => ({
    author: "test",
    generator: "test",
    date: "2026-01-01T00:00:00Z",
    sheets: [
      { name: first, cells: { A1: { value: 1 } } },
      ...(second === "" ? [] : [{ name: second, cells: { A1: { value: 2 } } }]),
    ],
  });
  const made = (first: string, second: string): ReadFile => openWorkbook(createWorkbook(two(first, second)));
  const prove = (before: ReadFile, after: ReadFile): (() => void) => {
    // The list of sheets is compared whatever the parts say.
    const parts = before.parts;
    return () => {
      proveChanges(before, { parts, model: after.model }, { changes: [], layouts: [] });
    };
  };

  it("have the sheets that they had, in their order", () => {
    expect(prove(made("One", "Two"), made("One", "Two"))).not.toThrow();
    expect(prove(made("One", "Two"), made("Two", "One"))).toThrow('sheet "One" is not where it was');
    expect(prove(made("One", "Two"), made("One", ""))).toThrow('sheet "Two" is not where it was');
    expect(prove(made("One", ""), made("One", "Two"))).toThrow("it has more sheets than before");
  });

  const SPREADSHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml";
  const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
  const link = (id: string, kind: string, target: string): string =>
    `<Relationship Id="${id}" Type="${OFFICE}/${kind}" Target="${target}"/>`;
  const chained: TinyWorkbook = {
    links: link("rId9", "calcChain", "calcChain.xml"),
    parts: { "xl/calcChain.xml": "<calcChain/>" },
  };
  const act = (before: TinyWorkbook, after: TinyWorkbook): (() => void) => {
    return () => {
      proveChanges(file(before), file(after), { changes: [], layouts: [] });
    };
  };

  it("may lose the chain of calculation, and get what a spilling formula needs", () => {
    expect(act(chained, { parts: { "xl/calcChain.xml": null } })).not.toThrow();
    const metadata: TinyWorkbook = {
      links: link("rId8", "sheetMetadata", "metadata.xml"),
      overrides: `<Override PartName="/xl/metadata.xml" ContentType="${SPREADSHEET}.sheetMetadata+xml"/>`,
      parts: { "xl/metadata.xml": "<metadata/>" },
    };
    expect(act({}, metadata)).not.toThrow();
    expect(act({}, { ...metadata, parts: { "xl/metadata.xml": "<metadata>" } })).toThrow();
    expect(act({}, { ...metadata, links: "" })).toThrow("its part xl/metadata.xml is new");
    expect(act({}, { styles: `${STYLES}<dxfs count="0"/>` })).not.toThrow();
  });

  it("may not lose others, nor change the texts or the workbook", () => {
    expect(act({}, { strings: "<si><t>other</t></si>" })).toThrow("its part xl/sharedStrings.xml changed");
    expect(act({}, { workbookBehind: "<calcPr/>" })).toThrow("its part xl/workbook.xml changed");
    expect(act({ parts: { "xl/extra.xml": "<a/>" } }, {})).toThrow("its part xl/extra.xml is missing");
  });

  it("are all there to which it is linked", () => {
    const links = (before: TinyWorkbook, after: TinyWorkbook): (() => void) => act(before, after);
    expect(links(chained, { links: chained.links ?? "" })).toThrow(
      "a link leads to xl/calcChain.xml, which is missing",
    );
    // One that led nowhere before, and one that leads out of the file, are no fault of this one.
    const stray = { links: link("rId9", "calcChain", "calcChain.xml") };
    expect(links(stray, stray)).not.toThrow();
  });
});
