import { strFromU8, unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { addSheet } from "../../src/workbook/add-sheet";
import { openWorkbook } from "../../src/workbook/read";
import { tinyParts, tinyWorkbook } from "./tiny-package";

const tinyText = (part: string): string => String(tinyParts()[part]);

describe("adding a sheet", () => {
  const file = tinyWorkbook({ rows: '<row r="1"><c r="A1"><v>1</v></c></row>' });

  it("puts it behind the others and leaves their parts as they were", () => {
    const rows = [["a & b", 1.5, null, true], [], [{ error: "#N/A" }, " x"]];
    const bytes = addSheet(file, { name: "Kept <formulas>", rows, columnWidths: [20, 8], state: "hidden" });
    const { model } = openWorkbook(bytes);
    expect(model.sheets.map((sheet) => [sheet.name, sheet.state])).toEqual([
      ["Sheet one", "visible"],
      ["Kept <formulas>", "hidden"],
    ]);
    expect(model.sheets[1]?.cells.map((cell) => [cell.row, cell.column, cell.value])).toEqual([
      [0, 0, "a & b"],
      [0, 1, 1.5],
      [0, 3, true],
      [2, 0, { error: "#N/A" }],
      [2, 1, " x"],
    ]);
    expect([...(model.sheets[1]?.columnWidths ?? [])]).toEqual([
      [0, 20],
      [1, 8],
    ]);
    const before = unzipSync(file);
    const after = unzipSync(bytes);
    const changed = Object.keys(after).filter((name) => String(before[name]) !== String(after[name]));
    expect(changed).toEqual([
      "[Content_Types].xml",
      "xl/workbook.xml",
      "xl/_rels/workbook.xml.rels",
      "xl/worksheets/sheet2.xml",
    ]);
    expect(openWorkbook(addSheet(bytes, { name: "More", rows: [] })).model.sheets.length).toBe(3);
  });

  it("refuses names that are taken or not allowed, and values that no cell holds", () => {
    expect(() => addSheet(file, { name: "SHEET ONE", rows: [] })).toThrow(/already/);
    expect(() => addSheet(file, { name: "a:b", rows: [] })).toThrow(/must not contain/);
    expect(() => addSheet(file, { name: "x", rows: [[Infinity]] })).toThrow(/not finite/);
  });

  it("gives it an id above all others, and no state or widths where none are meant", () => {
    const other = tinyWorkbook({
      parts: { "xl/workbook.xml": tinyText("xl/workbook.xml").replace('sheetId="1"', 'sheetId="7"') },
    });
    const parts = unzipSync(addSheet(other, { name: "Plain", rows: [[null], [1]], state: "visible" }));
    const entry = /<sheet name="Plain"[^>]*>/.exec(strFromU8(parts["xl/workbook.xml"] ?? new Uint8Array()));
    expect(entry?.[0]).toContain('sheetId="8"');
    expect(entry?.[0]).not.toContain("state");
    const markup = strFromU8(parts["xl/worksheets/sheet2.xml"] ?? new Uint8Array());
    expect(markup).toMatch(/<sheetData><row r="2"><c r="A2"><v>1<\/v><\/c><\/row><\/sheetData>/);
    expect(markup).not.toContain("<cols");
  });

  // 1,048,576 rows and 16,384 columns: Excel specifications and limits.
  it("refuses more rows and columns than Excel has, and takes as many", () => {
    const wide = new Array<null>(16_384).fill(null);
    expect(openWorkbook(addSheet(file, { name: "Wide", rows: [wide] })).model.sheets.length).toBe(2);
    expect(() => addSheet(file, { name: "Wide", rows: [[], [...wide, null]] })).toThrow(
      "more rows or columns",
    );
    const tall = new Array<readonly null[]>(1_048_576).fill([]);
    expect(openWorkbook(addSheet(file, { name: "Tall", rows: tall })).model.sheets.length).toBe(2);
    expect(() => addSheet(file, { name: "Tall", rows: [...tall, []] })).toThrow("more rows or columns");
  });
});
