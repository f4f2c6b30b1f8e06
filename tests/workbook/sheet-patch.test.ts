import { describe, expect, it } from "vitest";
import type { CellChange } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";
import { type TinyWorkbook, tinyWorkbook } from "./tiny-package";

// What is written into a sheet's part beside what was asked for: nothing. Cells and rows are those of ECMA-376 part 1, 18.3.1.4,
// 18.3.1.40 and 18.3.1.73.

const SHEET = "xl/worksheets/sheet1.xml";
type Change = Omit<CellChange, "sheet">;

/** A sheet's markup from its extent to its last row after some changes. */
function patched(tiny: TinyWorkbook, ...changes: readonly Change[]): string {
  const opened = openWorkbook(tinyWorkbook({ styles: "<cellXfs><xf/><xf/></cellXfs>", ...tiny }));
  const bytes = opened.patched(changes.map((change) => ({ sheet: 0, ...change })));
  const text = openWorkbook(bytes).parts.readText(SHEET);
  return text.slice(text.indexOf(">", text.indexOf("<worksheet")) + 1, text.indexOf("</sheetData>"));
}
const rowsAfter = (rows: string, ...changes: readonly Change[]): string =>
  patched({ rows, strings: "<si><t>shared</t></si>" }, ...changes).replace("<sheetData>", "");
const at = (row: number, column: number): { row: number; column: number } => ({ row, column });

describe("a cell that gets another style", () => {
  it.each([
    ["a shared text", '<c r="A1" t="s"><v>0</v></c>', '<c r="A1" t="s" s="1"><v>0</v></c>'],
    [
      "a text in several fonts",
      '<c r="A1" t="inlineStr"><is><r><rPr><b/></rPr><t>a</t></r><r><t>b</t></r></is></c>',
      '<c r="A1" t="inlineStr" s="1"><is><r><rPr><b/></rPr><t>a</t></r><r><t>b</t></r></is></c>',
    ],
    [
      "the text that its formula gave",
      '<c r="A1" t="str" s="0"><f ca="1">B1</f><v>x</v></c>',
      '<c r="A1" t="str" s="1"><f ca="1">B1</f><v>x</v></c>',
    ],
    [
      "a picture in it",
      '<c r="A1" t="e" vm="1"><v>#VALUE!</v></c>',
      '<c r="A1" t="e" vm="1" s="1"><v>#VALUE!</v></c>',
    ],
    [
      "a what-if table",
      '<c r="A1"><f t="dataTable" ref="A1:A2" dt2D="0" dtr="0" r1="C1"/><v>1</v></c>',
      '<c r="A1" s="1"><f t="dataTable" ref="A1:A2" dt2D="0" dtr="0" r1="C1"/><v>1</v></c>',
    ],
    [
      "a formula over several cells",
      '<c r="A1"><f t="array" ref="A1:A2">B1:B2</f><v>1</v></c>',
      '<c r="A1" s="1"><f t="array" ref="A1:A2">B1:B2</f><v>1</v></c>',
    ],
    [
      "a formula that others share",
      '<c r="A1"><f t="shared" ref="A1:B1" si="0">C1</f><v>1</v></c><c r="B1"><f t="shared" si="0"/><v>2</v></c>',
      '<c r="A1" s="1"><f t="shared" ref="A1:B1" si="0">C1</f><v>1</v></c><c r="B1"><f t="shared" si="0"/><v>2</v></c>',
    ],
    [
      "what an extension says",
      '<c r="A1"><v>1</v><extLst><ext uri="u"/></extLst></c>',
      '<c r="A1" s="1"><v>1</v><extLst><ext uri="u"/></extLst></c>',
    ],
    ["nothing", '<c r="A1"/>', '<c r="A1" s="1"/>'],
  ])("keeps %s", (_what, before, after) => {
    const row = (cells: string): string => `<row r="1">${cells}</row>`;
    expect(rowsAfter(row(before), { ...at(0, 0), style: 1 })).toBe(row(after));
  });
});

describe("a cell that gets another value", () => {
  const row = (cells: string): string => `<row r="1">${cells}</row>`;
  it.each<[string, string, Partial<Change>, string]>([
    ["over a number", '<c r="A1" s="1"><v>1</v></c>', { value: 2 }, '<c r="A1" s="1"><v>2</v></c>'],
    ["over a text", '<c r="A1" t="s"><v>0</v></c>', { value: 2 }, '<c r="A1"><v>2</v></c>'],
    [
      "over a text inside",
      '<c r="A1" t="inlineStr"><is><t>a</t></is></c>',
      { value: "b" },
      '<c r="A1" t="inlineStr"><is><t>b</t></is></c>',
    ],
    [
      "over a picture",
      '<c r="A1" t="e" vm="1"><v>#VALUE!</v></c>',
      { value: { error: "#N/A" } },
      '<c r="A1" t="e"><v>#N/A</v></c>',
    ],
    ["that is gone", '<c r="A1"><v>1</v></c>', { value: null }, ""],
    [
      "that is gone, with a look left",
      '<c r="A1" s="1" t="s"><v>0</v></c>',
      { value: null },
      '<c r="A1" s="1"/>',
    ],
    [
      "that is gone, with a hint left",
      '<c r="A1" ph="1"><v>1</v></c>',
      { value: null },
      '<c r="A1" ph="1"/>',
    ],
    [
      "and a formula",
      '<c r="A1" t="s"><v>0</v></c>',
      { formula: { text: "B1", kind: "normal" } },
      '<c r="A1" t="str"><f>B1</f><v>shared</v></c>',
    ],
    ["of its formula", '<c r="A1"><f>B1</f></c>', { value: "x" }, '<c r="A1" t="str"><f>B1</f><v>x</v></c>'],
    [
      "in place of its formula",
      '<c r="A1" cm="1"><f t="array" ref="A1:A2">B1:B2</f><v>1</v></c>',
      { formula: null, value: null },
      "",
    ],
    [
      "of another formula",
      '<c r="A1"><f ca="1">B1</f><v>1</v></c>',
      { formula: { text: "C1", kind: "normal" } },
      '<c r="A1"><f>C1</f><v>1</v></c>',
    ],
    [
      "of a formula over several cells",
      '<c r="A1"><v>1</v></c>',
      {
        formula: { text: "C1:C2", kind: "array" },
        range: { firstRow: 0, firstColumn: 0, lastRow: 1, lastColumn: 0 },
      },
      '<c r="A1"><f t="array" ref="A1:A2">C1:C2</f><v>1</v></c>',
    ],
  ])("is written %s", (_what, before, change, after) => {
    expect(rowsAfter(row(before), { ...at(0, 0), ...change })).toBe(row(after));
  });
});

describe("a cell that was not there", () => {
  const three =
    '<row r="2"><c r="B2"><v>1</v></c><c r="D2"><v>2</v></c></row><row r="4"><c r="B4"><v>3</v></c></row>';
  const cell = (address: string): string => `<c r="${address}"><v>9</v></c>`;

  it("stands in its row and column, in their order", () => {
    const places = [at(0, 0), at(1, 0), at(1, 2), at(1, 4), at(2, 1), at(5, 1)];
    const changes = places.map((place) => ({ ...place, value: 9 }));
    const expected =
      `<row r="1">${cell("A1")}</row>` +
      `<row r="2">${cell("A2")}<c r="B2"><v>1</v></c>${cell("C2")}<c r="D2"><v>2</v></c>${cell("E2")}</row>` +
      `<row r="3">${cell("B3")}</row><row r="4"><c r="B4"><v>3</v></c></row><row r="6">${cell("B6")}</row>`;
    expect(rowsAfter(three, ...changes)).toBe(expected);
    expect(rowsAfter(three, ...changes.toReversed())).toBe(expected);
  });

  it("that is to hold nothing is none", () => {
    expect(rowsAfter(three, { ...at(1, 2), value: null }, { ...at(7, 7), value: null })).toBe(three);
    expect(rowsAfter(three, { ...at(1, 2), value: null, style: 1 })).toContain('<c r="C2" s="1"/>');
  });

  it.each([
    // The attribute spans says where cells are, so that a program need not look (18.3.1.73).
    ["2:4", at(1, 2), "2:4"],
    ["2:4", at(1, 0), "1:4"],
    ["2:4", at(1, 9), "2:10"],
  ])("widens what its row says, %s, where need be: %o", (spans, place, wider) => {
    const row = `<row r="2" spans="${spans}"><c r="B2"><v>1</v></c></row>`;
    expect(rowsAfter(row, { ...place, value: 9 })).toContain(`<row r="2" spans="${wider}">`);
  });

  it.each([
    ['<dimension ref="B2:D4"/>', at(2, 2), '<dimension ref="B2:D4"/>'],
    ['<dimension ref="B2:D4"/>', at(0, 0), '<dimension ref="A1:D4"/>'],
    ['<dimension ref="B2:D4"/>', at(8, 8), '<dimension ref="B2:I9"/>'],
    ['<dimension ref="B2:D4"></dimension>', at(8, 8), '<dimension ref="B2:I9"></dimension>'],
    ['<dimension ref="nowhere"/>', at(8, 8), '<dimension ref="nowhere"/>'],
    ["", at(8, 8), ""],
  ])("widens the extent %s where need be: %o", (before, place, after) => {
    expect(patched({ before, rows: three }, { ...place, value: 9 })).toContain(`${after}<sheetData>`);
  });

  it("looks like its row, or else its column", () => {
    const before = '<cols><col min="1" max="1" width="9"/><col min="3" max="5" width="9" style="1"/></cols>';
    const rows = '<row r="1" s="0" customFormat="1"/><row r="2" s="1"/>';
    const found = patched(
      { before, rows },
      ...[at(0, 2), at(1, 1), at(1, 2), at(1, 4), at(1, 5), at(2, 3)].map((place) => ({
        ...place,
        value: 9,
      })),
    );
    for (const [address, style] of [
      ["C1", ' s="0"'],
      ["B2", ""],
      ["C2", ' s="1"'],
      ["E2", ' s="1"'],
      ["F2", ""],
      ["D3", ' s="1"'],
    ] as const)
      expect(found).toContain(`<c r="${address}"${style}><v>9</v></c>`);
  });

  it("is told what it lacks where the sheet has no place for cells", () => {
    const bare = `<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>`;
    expect(() => patched({ parts: { [SHEET]: bare } }, { ...at(0, 0), value: 1 })).toThrow(
      'the file is damaged: sheet "Sheet one" has no place for cells',
    );
  });
});
