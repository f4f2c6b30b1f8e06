import { describe, expect, it } from "vitest";
import { jobTables, type TableCells } from "../../src/formula/job-tables";
import type { Scope, TableInfo } from "../../src/formula/scope";

const PIECES = [
  ["name", "kind", "printed", "height"],
  ["Door", "column", 11, 2],
];
const TERMS = [
  ["term", "value"],
  ["pay", 20],
];

const sheet = (name: string, rows: TableCells["rows"], firstRow = 0, firstColumn = 0): TableCells => ({
  sheet: name,
  rows,
  range: {
    firstRow,
    firstColumn,
    lastRow: firstRow + rows.length - 1,
    lastColumn: firstColumn + Math.max(...rows.map((row) => row.length)) - 1,
  },
});

const scopeOf = (sheets: readonly TableCells[], tables: readonly TableInfo[] = []): Scope => ({
  sheets: sheets.map(({ sheet: name }) => ({ name })),
  tables,
  names: [],
});

const found = (
  sheets: readonly TableCells[],
  at?: Parameters<typeof jobTables>[2],
  tables?: readonly TableInfo[],
): readonly string[] =>
  jobTables(scopeOf(sheets, tables), sheets, at).map(
    ({ sort, reference, holdsCell }) => `${sort} ${reference}${holdsCell === true ? " holds the cell" : ""}`,
  );

describe("the tables of a job in a workbook", () => {
  it("names a table of the workbook as a whole, so that it grows", () => {
    const pieces = sheet("Job", PIECES, 2, 1);
    const table: TableInfo = {
      name: "Pieces",
      sheet: "Job",
      range: pieces.range,
      columns: ["name", "kind", "printed", "height"],
      headerRows: 1,
      totalsRows: 0,
    };
    expect(found([pieces], undefined, [table])).toEqual(["pieces Pieces[#All]"]);
    const withTotal = sheet("Job", [...PIECES, ["Total", "", "", 2]], 2, 1);
    expect(found([withTotal], undefined, [{ ...table, range: withTotal.range, totalsRows: 1 }])).toEqual([
      "pieces Pieces[[#Headers],[#Data]]",
    ]);
  });

  it("gives what is only cells free rows below, as far as nothing else stands there", () => {
    expect(found([sheet("My job", PIECES, 2, 1)])).toEqual(["pieces 'My job'!B3:E54"]);
    const note = [null, null, "thanks", null];
    const blank = [null, null, null, null];
    // Rows 1 and 2 are the table, 3 to 5 are blank, 6 says something: one blank row stays before it.
    expect(found([sheet("Job", [...PIECES, blank, blank, blank, note])])).toEqual(["pieces Job!A1:D4"]);
  });

  it("keeps out of the cell that takes the formula, and looks first at its sheet", () => {
    const sheets = [sheet("Terms", TERMS), sheet("Job", PIECES)];
    expect(found(sheets, { sheet: "Job", row: 9, column: 2 })).toEqual([
      "pieces Job!A1:D8",
      "terms Terms!A1:B52",
    ]);
    // Beside the table it is free.
    expect(found(sheets, { sheet: "Job", row: 9, column: 5 })[0]).toBe("pieces Job!A1:D52");
  });

  it("finds the table in which the chosen cell lies, its own rows only, and says that it lies there", () => {
    const sheets = [sheet("Terms", TERMS), sheet("Job", PIECES)];
    expect(found(sheets, { sheet: "Job", row: 0, column: 0 })).toEqual([
      "pieces Job!A1:D2 holds the cell",
      "terms Terms!A1:B52",
    ]);
    const table: TableInfo = {
      name: "Pieces",
      sheet: "Job",
      range: sheet("Job", PIECES).range,
      columns: ["name", "kind", "printed", "height"],
      headerRows: 1,
      totalsRows: 0,
    };
    expect(found(sheets, { sheet: "Job", row: 1, column: 1 }, [table])[0]).toBe(
      "pieces Pieces[#All] holds the cell",
    );
  });
});
