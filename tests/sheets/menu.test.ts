import { beforeEach, describe, expect, it } from "vitest";
import { cellAddress, parseCell } from "../../src/formula/address";
import { keptSheetRows } from "../../src/partner/kept-sheet";
import { takenOver } from "../../src/sheets/formulas";
import { ScriptHost } from "./script-host";

type Content = string | number | Date;

/** A sheet of cells; a text that begins with an equals sign is a formula. */
class FakeSheet {
  readonly cells = new Map<string, Content>();
  readonly cleared: string[] = [];

  constructor(
    private readonly name: string,
    cells: Readonly<Record<string, Content>>,
    private readonly filled = "A1:D9",
  ) {
    for (const [address, content] of Object.entries(cells)) this.cells.set(address, content);
  }

  getName(): string {
    return this.name;
  }

  getDataRange(): object {
    return this.getRange(this.filled);
  }

  getRange(a1: string): object {
    const [from = "A1", to = from] = a1.split(":");
    const first = parseCell(from) ?? { row: 0, column: 0 };
    const last = parseCell(to) ?? first;
    const rows = Array.from({ length: last.row - first.row + 1 }, (_, down) =>
      Array.from(
        { length: last.column - first.column + 1 },
        (_cell, across) => this.cells.get(cellAddress(first.row + down, first.column + across)) ?? "",
      ),
    );
    const formulaOf = (cell: Content | undefined): string =>
      typeof cell === "string" && cell.startsWith("=") ? cell : "";
    return {
      getA1Notation: () => a1,
      getRow: () => first.row + 1,
      getColumn: () => first.column + 1,
      getNumRows: () => rows.length,
      getNumColumns: () => rows[0]?.length ?? 0,
      getFormula: () => formulaOf(rows[0]?.[0]),
      getFormulas: () => rows.map((row) => row.map(formulaOf)),
      getValues: () => rows,
      getDisplayValue: () => String(rows[0]?.[0] ?? ""),
      getSheet: () => this,
      setFormula: (formula: string) => this.cells.set(from, formula),
      clearContent: () => {
        this.cleared.push(a1);
        for (let row = first.row; row <= last.row; row += 1)
          for (let column = first.column; column <= last.column; column += 1)
            this.cells.delete(cellAddress(row, column));
      },
    };
  }
}

describe("the menu and sidebar of the script", () => {
  const pieces = {
    A1: 1.8,
    A2: "=_xldudf_BLN_COUNT_COLUMN(A1,9)",
    B3: "=SUM(A1:A2)",
    C1: "=BLN.AIR_LITRES(11)*2",
  };
  let sheet: FakeSheet;
  let sheets: FakeSheet[];
  let selected: string;
  let host: ScriptHost;
  let said: string[];

  beforeEach(() => {
    sheet = new FakeSheet("Jo's job", pieces);
    sheets = [sheet];
    selected = "D4";
    said = [];
    const file = {
      getSheets: () => sheets,
      getActiveSheet: () => sheet,
      getActiveRange: () => (selected === "" ? null : sheet.getRange(selected)),
      getRange: (a1: string) => {
        if (!a1.startsWith("'Jo''s job'!")) throw new Error("no such range");
        return sheet.getRange(a1.slice(a1.indexOf("!") + 1));
      },
      getSpreadsheetLocale: () => "de_DE",
      toast: (text: string) => said.push(text),
    };
    host = new ScriptHost(true, { SpreadsheetApp: { getActive: () => file } });
  });

  it("takes over formulas from Excel and leaves every other cell", () => {
    host.call("blnTakeOver", []);
    expect(sheet.cells.get("A2")).toBe("=BLN_COUNT_COLUMN(A1,9)");
    expect(sheet.cells.get("C1")).toBe("=BLN_AIR_LITRES(11)*2");
    expect(sheet.cells.get("B3")).toBe("=SUM(A1:A2)");
    expect(said).toEqual(["2 formulas taken over"]);
    host.call("blnTakeOver", []);
    expect(said).toEqual(["2 formulas taken over", "0 formulas taken over"]);
  });

  it("puts the formulas of a partner's copy back, and leaves a cell whose value has changed", () => {
    const kept = keptSheetRows({
      taken: "2027-06-01T10:00:00Z",
      formulas: [
        { sheet: "Jo's job", row: 1, column: 0, formula: "=BLN.COUNT_COLUMN(A1,9)", values: [[48]] },
        { sheet: "Jo's job", row: 4, column: 1, formula: "=BLN.AIR_LITRES(11)", values: [[13.7]] },
        {
          sheet: "Jo's job",
          row: 5,
          column: 0,
          formula: "=BLN.PALETTE_SPLIT(10,{1;1})",
          kind: "dynamic",
          range: { firstRow: 5, firstColumn: 0, lastRow: 6, lastColumn: 0 },
          values: [[5], [5]],
        },
        { sheet: "Gone", row: 0, column: 0, formula: "=BLN.AIR_LITRES(11)", values: [[13.7]] },
      ],
    });
    const list: Record<string, string> = {};
    kept.forEach((row, down) => {
      row.forEach((text, across) => {
        list[cellAddress(down, across)] = text;
      });
    });
    sheets.push(new FakeSheet("Kept formulas", list, "A1:H12"));
    for (const [address, value] of Object.entries({ A2: 48, B5: 14, A6: 5, A7: 5 }))
      sheet.cells.set(address, value);
    host.call("blnPutBack", []);
    expect(sheet.cells.get("A2")).toBe("=BLN_COUNT_COLUMN(A1,9)");
    expect(sheet.cells.get("A6")).toBe("=BLN_PALETTE_SPLIT(10,{1;1})");
    expect(sheet.cells.has("A7")).toBe(false);
    expect(sheet.cells.get("B5")).toBe(14);
    expect(said).toEqual([
      "2 formulas put back\nJo's job!B5 stays a value: it holds another value now, or rows have moved\n" +
        "Gone!A1 stays a value: its sheet is gone or has another name",
    ]);
  });

  it("says where nothing is kept", () => {
    host.call("blnPutBack", []);
    expect(said).toEqual(["This workbook is not a partner's copy: it keeps no formulas"]);
  });

  it("computes again without taking a formula away", () => {
    host.call("blnTakeOver", []);
    host.call("blnRecalculate", []);
    expect(sheet.cells.get("A2")).toBe("=BLN_COUNT_COLUMN(A1,9) ");
    host.call("blnRecalculate", []);
    expect(sheet.cells.get("A2")).toBe("=BLN_COUNT_COLUMN(A1,9)");
    expect(sheet.cells.get("B3")).toBe("=SUM(A1:A2)");
    expect(sheet.cleared).toEqual([]);
  });

  it("asks before it replaces a filled cell", () => {
    expect(host.call("blnInsert", ["=BLN_AIR_LITRES(11)", false])).toEqual({
      message: "Put in Jo's job!D4",
      asks: false,
    });
    expect(sheet.cells.get("D4")).toBe("=BLN_AIR_LITRES(11)");
    selected = "A1:B2";
    expect(host.call("blnInsert", ["=BLN_AIR_LITRES(9)", false])).toEqual({
      message: "Jo's job!A1 holds 1.8: press again to replace it",
      asks: true,
    });
    expect(sheet.cells.get("A1")).toBe(1.8);
    host.call("blnInsert", ["=BLN_AIR_LITRES(9)", true]);
    expect(sheet.cells.get("A1")).toBe("=BLN_AIR_LITRES(9)");
    selected = "";
    expect(host.call("blnInsert", ["=1", false])).toEqual({ message: "Select a cell first", asks: false });
  });

  it("reads the selection and the values behind a reference", () => {
    selected = "A1:B2";
    expect(host.call("blnSelection", [])).toBe("'Jo''s job'!A1:B2");
    sheet.cells.set("B1", new Date(2027, 5, 19));
    // 19 June 2027 is day 46557 of the spreadsheet calendar.
    expect(host.call("blnValues", ["'Jo''s job'!A1:B1"])).toEqual([[1.8, 46557]]);
    expect(host.call("blnValues", ["'Jo''s job'!D9"])).toEqual([[null]]);
    expect(host.call("blnValues", ["Nowhere!A1"])).toBeUndefined();
    expect(host.call("blnFile", [])).toEqual({ locale: "de_DE" });
  });
});

describe("takenOver", () => {
  it.each([
    ["=_xldudf_BLN_COUNT_COLUMN(A1,9)", "=BLN_COUNT_COLUMN(A1,9)"],
    ["=bln.count_column(A1,9)+1", "=BLN_COUNT_COLUMN(A1,9)+1"],
    ['=IF(A1="BLN.AIR_LITRES(1)",1,2)', '=IF(A1="BLN.AIR_LITRES(1)",1,2)'],
    ["=BLN_COUNT_COLUMN(A1,9)", "=BLN_COUNT_COLUMN(A1,9)"],
    ["plain text", "plain text"],
  ])("%s becomes %s", (before, after) => {
    expect(takenOver(before)).toBe(after);
  });
});
