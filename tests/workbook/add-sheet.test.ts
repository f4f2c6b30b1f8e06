import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { addSheet } from "../../src/workbook/add-sheet";
import { openWorkbook } from "../../src/workbook/read";
import { tinyWorkbook } from "./tiny-package";

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
});
