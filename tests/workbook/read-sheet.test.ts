import { describe, expect, it } from "vitest";
import { CellReader } from "../../src/workbook/read-cell";
import { openWorkbook } from "../../src/workbook/read";
import { readSheet } from "../../src/workbook/read-sheet";
import type { SheetModel } from "../../src/workbook/model";
import { type TinyWorkbook, tinyWorkbook } from "./tiny-package";

// What a sheet's part says beside its cells: ECMA-376 part 1, 18.3.1.

function sheetOf(tiny: TinyWorkbook): SheetModel {
  const [sheet] = openWorkbook(tinyWorkbook(tiny)).model.sheets;
  if (sheet === undefined) throw new Error("there is no sheet");
  return sheet;
}

describe("columns", () => {
  const columns = (...each: readonly string[]): SheetModel =>
    sheetOf({ before: `<cols>${each.join("")}</cols>` });

  it("have a width, are hidden, or neither", () => {
    const sheet = columns(
      '<col min="1" max="2" width="9.5"/>',
      '<col min="4" max="5" hidden="1"/>',
      '<col min="7" max="7" style="1"/>',
    );
    expect([...sheet.columnWidths]).toEqual([
      [0, 9.5],
      [1, 9.5],
    ]);
    expect([...sheet.hiddenColumns]).toEqual([3, 4]);
  });

  it("end with the sheet, which has 16,384", () => {
    const sheet = columns('<col min="16383" max="99999" width="9"/>');
    expect([...sheet.columnWidths.keys()]).toEqual([16_382, 16_383]);
  });

  it.each([
    ['<col min="2" max="3" width="9"/>', '<col min="3" max="4" width="9"/>'],
    ['<col min="2" max="3" width="9"/>', '<col min="1" max="1" width="9"/>'],
    ['<col min="0" max="3" width="9"/>', ""],
    ['<col min="5" max="2" width="9"/>', '<col min="4" max="4" width="9"/>'],
  ])("are refused where one is listed twice or none: %s%s", (one, other) => {
    expect(() => columns(one, other)).toThrow('the file is damaged: sheet "Sheet one" lists a column twice');
  });

  it("are those of the sheet, not of something in it", () => {
    expect(sheetOf({ behind: '<extLst><col min="1" max="1" width="3"/></extLst>' }).columnWidths.size).toBe(
      0,
    );
  });
});

describe("what the first window shows", () => {
  const view = (attributes: string, content = ""): string =>
    `<sheetView workbookViewId="0"${attributes}>${content}</sheetView>`;
  const shown = (...views: readonly string[]): readonly unknown[] => {
    const sheet = sheetOf({ before: `<sheetViews>${views.join("")}</sheetViews>` });
    return [sheet.frozenRows, sheet.frozenColumns, sheet.showGridLines];
  };

  it("is frozen, with or without lines, and other windows do not count", () => {
    const frozen = '<pane xSplit="1" ySplit="2" state="frozen"/>';
    expect(shown(view(""))).toEqual([0, 0, true]);
    expect(shown(view(' showGridLines="0"', frozen))).toEqual([2, 1, false]);
    expect(shown(view("", '<pane ySplit="3" state="frozenSplit"/>'))).toEqual([3, 0, true]);
    expect(shown(view("", '<pane xSplit="3" state="frozen"/>'))).toEqual([0, 3, true]);
    expect(shown(view("", '<pane xSplit="900" ySplit="900" state="split"/>'))).toEqual([0, 0, true]);
    expect(shown(view("", '<pane xSplit="900" ySplit="900"/>'))).toEqual([0, 0, true]);
    expect(shown(view(""), view(' showGridLines="0"', frozen))).toEqual([0, 0, true]);
    expect(shown(view(' showGridLines="0"', frozen), view(""))).toEqual([2, 1, false]);
  });

  it("is not what another person's window shows", () => {
    const other =
      '<customSheetViews><customSheetView guid="{1}"><pane ySplit="4" state="frozen"/></customSheetView></customSheetViews>';
    expect(sheetOf({ behind: other }).frozenRows).toBe(0);
  });
});

it("has rows with heights and hidden ones", () => {
  const sheet = sheetOf({
    rows: '<row r="2" ht="33.5"/><row r="3" hidden="1"/><row r="4" hidden="0" ht="0"/>',
  });
  expect([...sheet.rowHeights]).toEqual([
    [1, 33.5],
    [3, 0],
  ]);
  expect([...sheet.hiddenRows]).toEqual([2]);
});

it("is protected where the file says so", () => {
  const isProtected = (behind: string): boolean => sheetOf({ behind }).isProtected;
  expect(isProtected('<sheetProtection sheet="1"/>')).toBe(true);
  expect(isProtected('<sheetProtection sheet="0"/>')).toBe(false);
  // The attribute is 0 where it is not given (18.3.1.85).
  expect(isProtected('<sheetProtection objects="1"/>')).toBe(false);
  expect(isProtected("")).toBe(false);
});

it("has a filter where a column of it filters", () => {
  const filter = (content: string): unknown =>
    sheetOf({ behind: `<autoFilter ref="A1:C5">${content}</autoFilter>` }).filter;
  expect(filter('<filterColumn colId="0"/>')).toEqual({
    firstRow: 0,
    firstColumn: 0,
    lastRow: 4,
    lastColumn: 2,
  });
  expect(filter("")).toBeUndefined();
  expect(sheetOf({ behind: '<filterColumn colId="0"/>' }).filter).toBeUndefined();
});

it("has merged cells, and refuses those that cannot be read", () => {
  const merges = (ref: string): unknown =>
    sheetOf({ behind: `<mergeCells><mergeCell ref="${ref}"/></mergeCells>` }).merges;
  expect(merges("B2:C3")).toEqual([{ firstRow: 1, firstColumn: 1, lastRow: 2, lastColumn: 2 }]);
  expect(() => merges("nowhere")).toThrow('a range in "Sheet one" cannot be read');
});

it("names what a plain grid does not draw", () => {
  expect(sheetOf({}).undrawn).toBeUndefined();
  const behind =
    '<hyperlinks><hyperlink ref="A1" location="B1"/></hyperlinks><conditionalFormatting sqref="A1"><cfRule type="top10" priority="1"/></conditionalFormatting>';
  expect([...(sheetOf({ behind }).undrawn ?? [])]).toEqual(["links", "formats by condition"]);
});

it("is refused where its part is something else", () => {
  const part = '<chartsheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>';
  expect(() => sheetOf({ parts: { "xl/worksheets/sheet1.xml": part } })).toThrow(
    'the file is damaged: the part of sheet "Sheet one" holds something else',
  );
});

it("has the notes of its cells, with spaces, without hints and without those of no cell", () => {
  const comments =
    '<comments xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><authors><author>me</author></authors><commentList>' +
    '<comment ref="B2" authorId="0"><text><r><t>me:</t></r><r><t xml:space="preserve"> ask_x0041_</t></r><rPh sb="0" eb="1"><t>HINT</t></rPh></text></comment>' +
    '<comment ref="nowhere" authorId="0"><text><t>lost</t></text></comment>' +
    '<comment ref="C3" authorId="0"><text><t>plain</t></text></comment></commentList></comments>';
  const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
  const links = (target: string): string =>
    `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${OFFICE}/comments" Target="${target}"/></Relationships>`;
  const notes = (target: string): unknown => [
    ...sheetOf({
      parts: { "xl/worksheets/_rels/sheet1.xml.rels": links(target), "xl/comments1.xml": comments },
    }).notes,
  ];
  expect(notes("../comments1.xml")).toEqual([
    ["B2", "me: askA"],
    ["C3", "plain"],
  ]);
  expect(notes("../comments7.xml")).toEqual([]);
});

it("tells every five hundred rows how far it is", () => {
  const rows = Array.from({ length: 1_200 }, (_, at) => `<row r="${String(at + 1)}"/>`).join("");
  const { parts, model } = openWorkbook(tinyWorkbook({ rows }));
  const told: number[] = [];
  const reader = new CellReader([], new Set(), false, model.styles);
  readSheet(parts, "xl/worksheets/sheet1.xml", "S", "visible", reader, undefined, (share) =>
    told.push(share),
  );
  expect(told).toHaveLength(2);
  expect(told[0]).toBeCloseTo(500 / 1_200, 1);
  expect(told[1]).toBeCloseTo(1_000 / 1_200, 1);
});
