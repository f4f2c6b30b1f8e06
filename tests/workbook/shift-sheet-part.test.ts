import { strFromU8, unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import type { AxisShift } from "../../src/formula/axis-shift";
import { shiftSheet } from "../../src/workbook/shift-sheet";
import { insert, move, remove } from "./shifts";
import { tinyParts, tinyWorkbook, zipParts } from "./tiny-package";

// The rows and cells of a sheet after a shift; markup is that of ECMA-376 part 1, 18.3.1, places are counted by hand and formulas
// follow Excel's rules for references.

const PART = "xl/worksheets/sheet1.xml";
const partOf = (bytes: Uint8Array, part = PART): string =>
  strFromU8(unzipSync(bytes)[part] ?? new Uint8Array());
const rowsOf = (xml: string): string => /<sheetData>(.*)<\/sheetData>/.exec(xml)?.[1] ?? "";
const after = (rows: string, shift: AxisShift): string =>
  rowsOf(partOf(shiftSheet(tinyWorkbook({ rows, styles: "<cellXfs><xf/><xf/></cellXfs>" }), 0, shift)));

describe("rows and cells", () => {
  const rows =
    '<row  r="1"><c r="A1"  s="1"><v>1</v></c></row>' +
    '<row r="3" ht="20" customHeight="1" spans="1:3"><c r="A3" s="1"><v>2</v></c><c r="C3" t="s"><v>0</v></c></row>';
  const strings = "<si><t>x</t></si>";
  const shifted = (shift: AxisShift): string =>
    rowsOf(
      partOf(shiftSheet(tinyWorkbook({ rows, strings, styles: "<cellXfs><xf/><xf/></cellXfs>" }), 0, shift)),
    );
  const first = '<row  r="1"><c r="A1"  s="1"><v>1</v></c></row>';

  it.each<[string, AxisShift, string]>([
    [
      "move down with all that they say, and those above stay as they are written",
      insert("row", 1),
      // The new row looks like the one above it, and holds nothing.
      `${first}<row r="2"><c r="A2" s="1"/></row><row r="4" ht="20" customHeight="1" spans="1:3"><c r="A4" s="1"><v>2</v></c><c r="C4" t="s"><v>0</v></c></row>`,
    ],
    [
      "come below a row that is high, and are as high",
      insert("row", 3, 2),
      `${rows}<row r="4" ht="20" customHeight="1"><c r="A4" s="1"/></row><row r="5" ht="20" customHeight="1"><c r="A5" s="1"/></row>`,
    ],
    [
      "come below a row that is not there, and say nothing",
      insert("row", 2),
      first + rows.slice(first.length).replaceAll("3", "4").replace("1:4", "1:3"),
    ],
    [
      "come on top, and say nothing",
      insert("row", 0),
      `<row r="2"><c r="A2" s="1"><v>1</v></c></row><row r="4" ht="20" customHeight="1" spans="1:3"><c r="A4" s="1"><v>2</v></c><c r="C4" t="s"><v>0</v></c></row>`,
    ],
    ["go with their cells", remove("row", 2), first],
    [
      "move up",
      move("row", 2, 1, 0),
      '<row r="1" ht="20" customHeight="1" spans="1:3"><c r="A1" s="1"><v>2</v></c><c r="C1" t="s"><v>0</v></c></row><row r="2"><c r="A2" s="1"><v>1</v></c></row>',
    ],
    [
      "get cells like those on the left of a new column",
      insert("column", 1, 2),
      '<row r="1"><c r="A1"  s="1"><v>1</v></c><c r="B1" s="1"/><c r="C1" s="1"/></row><row r="3" ht="20" customHeight="1"><c r="A3" s="1"><v>2</v></c><c r="B3" s="1"/><c r="C3" s="1"/><c r="E3" t="s"><v>0</v></c></row>',
    ],
    ["get none right of a cell without a style", insert("column", 3), rows],
    [
      "lose the cells of a column",
      remove("column", 0),
      '<row r="1"></row><row r="3" ht="20" customHeight="1"><c r="B3" t="s"><v>0</v></c></row>',
    ],
    [
      "have them in order where a column moves",
      move("column", 2, 1, 0),
      '<row r="1"><c r="B1" s="1"><v>1</v></c></row><row r="3" ht="20" customHeight="1"><c r="A3" t="s"><v>0</v></c><c r="B3" s="1"><v>2</v></c></row>',
    ],
  ])("%s", (_what, shift, expected) => {
    expect(shifted(shift)).toBe(expected);
  });

  it("say where they are once they move", () => {
    expect(after("<row><c><v>1</v></c></row>", insert("row", 0))).toBe(
      '<row r="2"><c r="A2"><v>1</v></c></row>',
    );
  });

  it("are written with the prefix of the file", () => {
    const xml = `<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:sheetData><x:row r="1" s="1" customFormat="1"><x:c r="A1" s="1"><x:v>1</x:v></x:c></x:row></x:sheetData></x:worksheet>`;
    const bytes = tinyWorkbook({ parts: { [PART]: xml }, styles: "<cellXfs><xf/><xf/></cellXfs>" });
    expect(partOf(shiftSheet(bytes, 0, insert("row", 1)))).toContain(
      '</x:row><x:row r="2" s="1" customFormat="1"><x:c r="A2" s="1"/></x:row></x:sheetData>',
    );
  });
});

describe("formulas", () => {
  const cell = (address: string, formula: string): string => `<c r="${address}">${formula}<v>0</v></c>`;
  const row = (number: number, ...cells: readonly string[]): string =>
    `<row r="${String(number)}">${cells.join("")}</row>`;

  it.each<[string, string, AxisShift, string]>([
    [
      "move with what they read",
      row(1, cell("A1", "<f>B5&amp;C9</f>")),
      insert("row", 6),
      row(1, cell("A1", "<f>B5&amp;C10</f>")),
    ],
    [
      "keep what they say about themselves",
      row(1, cell("A1", '<f ca="1">B5</f>')),
      insert("row", 2),
      row(1, cell("A1", '<f ca="1">B6</f>')),
    ],
    [
      "over several cells move as one",
      row(3, cell("A3", '<f t="array" ref="A3:A4">B3:B4*C9</f>')),
      insert("row", 0),
      row(4, cell("A4", '<f t="array" ref="A4:A5">B4:B5*C10</f>')),
    ],
    [
      "of what-if tables move with their input cells",
      row(3, cell("A3", '<f t="dataTable" ref="A3:A4" dt2D="1" dtr="1" r1="C1" r2="D8"/>')),
      insert("row", 1),
      row(4, cell("A4", '<f t="dataTable" ref="A4:A5" dt2D="1" dtr="1" r1="C1" r2="D9"/>')),
    ],
    [
      "that are shared are written out, each for its own cell",
      row(1, cell("A1", '<f t="shared" ref="A1:A2" si="0">B1*C$9</f>')) +
        row(2, cell("A2", '<f t="shared" si="0"/>')),
      insert("row", 5),
      row(1, cell("A1", "<f>B1*C$10</f>")) + row(2, cell("A2", "<f>B2*C$10</f>")),
    ],
    [
      "that no shift reaches stay as they are written",
      row(1, cell("A1", "<f  ca='1' >B1</f >")),
      insert("row", 5),
      row(1, cell("A1", "<f  ca='1' >B1</f >")),
    ],
    [
      "say #REF! for what is deleted",
      row(1, cell("A1", "<f>B5+C9</f>")),
      remove("row", 4),
      row(1, cell("A1", "<f>#REF!+C8</f>")),
    ],
  ])("%s", (_what, rows, shift, expected) => {
    expect(after(rows, shift)).toBe(expected);
  });

  it("of what-if tables keep their input cells", () => {
    const table = row(3, cell("B3", '<f t="dataTable" ref="B3:B4" dtr="1" r1="C1"/>'));
    expect(() => after(table, remove("row", 0))).toThrow(
      "the formula in B2 does not allow it: its input cell would be deleted",
    );
    expect(() => after(table, remove("row", 3))).toThrow("it fills several cells that must stay together");
    // A table in which no input is named has none to lose.
    const bare = row(3, cell("B3", '<f t="dataTable" ref="B3:B4" dtr="1"/>'));
    expect(after(bare, remove("row", 0))).toBe(row(2, cell("B2", '<f t="dataTable" ref="B2:B3" dtr="1"/>')));
  });

  it("over several cells stay in one piece sideways too", () => {
    const array = row(1, cell("A1", '<f t="array" ref="A1:B1">C1:D1</f>'));
    expect(() => after(array, insert("column", 1))).toThrow("it fills several cells that must stay together");
    expect(after(array, insert("column", 0))).toBe(row(1, cell("B1", '<f t="array" ref="B1:C1">D1:E1</f>')));
  });

  it("of another sheet change where they read this one, and nowhere else", () => {
    const SPREADSHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml";
    const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    const shared = (text: string, index: number, column: string): string =>
      cell(`${column}1`, `<f t="shared" ref="${column}1:${column}2" si="${String(index)}">${text}</f>`);
    const rows =
      row(1, shared("B1*2", 0, "A"), shared("'Sheet one'!B$9+C1", 1, "D")) +
      row(
        2,
        cell("A2", '<f t="shared" si="0"/>'),
        cell("D2", '<f t="shared" si="1"/>'),
        cell("E2", '<f t="array" ref="E2">\'Sheet one\'!A9</f>'),
      );
    const parts = tinyParts({
      rows: row(9, '<c r="A9"><v>1</v></c>'),
      overrides: `<Override PartName="/xl/worksheets/sheet2.xml" ContentType="${SPREADSHEET}.worksheet+xml"/>`,
    });
    const bytes = zipParts({
      ...parts,
      "xl/worksheets/sheet2.xml": String(tinyParts({ rows })[PART]),
      "xl/workbook.xml": String(parts["xl/workbook.xml"]).replace(
        "</sheets>",
        '<sheet name="Other" sheetId="2" r:id="rId9"/></sheets>',
      ),
      "xl/_rels/workbook.xml.rels": String(parts["xl/_rels/workbook.xml.rels"]).replace(
        "</Relationships>",
        `<Relationship Id="rId9" Type="${OFFICE}/worksheet" Target="worksheets/sheet2.xml"/></Relationships>`,
      ),
    });
    const other = rowsOf(partOf(shiftSheet(bytes, 0, insert("row", 4)), "xl/worksheets/sheet2.xml"));
    expect(other).toBe(
      row(1, shared("B1*2", 0, "A"), cell("D1", "<f>'Sheet one'!B$10+C1</f>")) +
        row(
          2,
          cell("A2", '<f t="shared" si="0"/>'),
          cell("D2", "<f>'Sheet one'!B$10+C2</f>"),
          cell("E2", '<f t="array" ref="E2">\'Sheet one\'!A10</f>'),
        ),
    );
    expect(rowsOf(partOf(shiftSheet(bytes, 0, insert("row", 20)), "xl/worksheets/sheet2.xml"))).toBe(rows);
  });
});
