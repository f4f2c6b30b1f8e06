import { describe, expect, it } from "vitest";
import { createWorkbook } from "../../src/workbook/create";
import { filterRows, listAround } from "../../src/workbook/filter-rows";
import { openWorkbook } from "../../src/workbook/read";
import { tinyWorkbook } from "./tiny-package";

const PLAIN = { author: "test", generator: "test", date: "2026-01-01T00:00:00Z" };
const RANGE = { firstRow: 0, firstColumn: 0, lastRow: 3, lastColumn: 1 };

/** Four rows of colours and counts, as a table or as plain cells. */
function list(isTable: boolean): Uint8Array {
  const rows = [
    ["colour", "count"],
    ["Gold & sand", 1],
    ["Navy", 2],
    ["Gold & sand", 3],
  ];
  const cells = Object.fromEntries(
    rows.flatMap((row, down) =>
      row.map((value, across) => [`${"AB".charAt(across)}${String(down + 1)}`, { value }]),
    ),
  );
  const tables = isTable ? [{ name: "Colours", range: "A1:B4" }] : [];
  return createWorkbook({ ...PLAIN, sheets: [{ name: "S", cells, tables }] });
}

const filtered = (bytes: Uint8Array): Uint8Array =>
  filterRows(bytes, {
    sheet: 0,
    range: RANGE,
    columns: [{ column: 0, shown: ["Gold & sand"] }],
    hidden: [2],
  });
const partOf = (bytes: Uint8Array, part: string): string => openWorkbook(bytes).parts.readText(part);

// Filters as ECMA-376 part 1, 18.3.1.2, 18.3.2.7 and 18.3.2.8 describe them.
const COLUMN = '<filterColumn colId="0"><filters><filter val="Gold &amp; sand"/></filters></filterColumn>';

describe("a filter of rows", () => {
  it("stands in the sheet behind its cells, hides the other rows, and goes again", () => {
    const bytes = filtered(list(false));
    expect(partOf(bytes, "xl/worksheets/sheet1.xml")).toContain(
      `</sheetData><autoFilter ref="A1:B4">${COLUMN}</autoFilter>`,
    );
    const [sheet] = openWorkbook(bytes).model.sheets;
    expect([...(sheet?.hiddenRows ?? [])]).toEqual([2]);
    expect(sheet?.filter).toEqual(RANGE);
    const [shown] = openWorkbook(filterRows(bytes, { sheet: 0, range: RANGE, columns: [], hidden: [] })).model
      .sheets;
    expect([...(shown?.hiddenRows ?? [])]).toEqual([]);
    expect(shown?.filter).toBeUndefined();
  });

  it("stands in the table where the list is one", () => {
    const bytes = filtered(list(true));
    expect(partOf(bytes, "xl/tables/table1.xml")).toContain(`<autoFilter ref="A1:B4">${COLUMN}</autoFilter>`);
    expect(partOf(bytes, "xl/worksheets/sheet1.xml")).not.toContain("autoFilter");
    const { model } = openWorkbook(bytes);
    expect(model.tables[0]?.isFiltered).toBe(true);
    expect([...(model.sheets[0]?.hiddenRows ?? [])]).toEqual([2]);
  });

  it("keeps blank cells by their own mark, and takes no list without rows", () => {
    const columns = [{ column: 1, shown: [""] }];
    const bytes = filterRows(list(false), { sheet: 0, range: RANGE, columns, hidden: [1, 2, 3] });
    expect(partOf(bytes, "xl/worksheets/sheet1.xml")).toContain('<filters blank="1"/>');
    const one = { ...RANGE, lastRow: 0 };
    expect(() => filterRows(list(false), { sheet: 0, range: one, columns: [], hidden: [] })).toThrow(
      "a filter takes a list",
    );
  });

  it("takes the table around a cell, else the sheet's filter, else what is selected", () => {
    const { tables } = openWorkbook(list(true)).model;
    const other = { firstRow: 10, firstColumn: 0, lastRow: 12, lastColumn: 3 };
    const selected = { firstRow: 20, firstColumn: 0, lastRow: 21, lastColumn: 0 };
    expect(listAround(tables, other, { sheet: 0, row: 2, column: 1 }, selected)).toEqual(RANGE);
    expect(listAround(tables, other, { sheet: 0, row: 11, column: 1 }, selected)).toEqual(other);
    expect(listAround(tables, other, { sheet: 0, row: 20, column: 0 }, selected)).toEqual(selected);
  });
});

describe("what a filter leaves", () => {
  const SHEET = "xl/worksheets/sheet1.xml";
  const rows =
    '<row r="1"><c r="A1"><v>1</v></c></row><row r="2" hidden="1"><c r="A2"><v>2</v></c></row><row r="3"><c r="A3"><v>3</v></c></row><row r="9" hidden="1"/>';
  const range = { firstRow: 0, firstColumn: 0, lastRow: 2, lastColumn: 0 };
  const columns = [{ column: 0, shown: ["2"] }];

  it("are hidden rows outside of the list", () => {
    const bytes = filterRows(tinyWorkbook({ rows }), { sheet: 0, range, columns, hidden: [2] });
    expect([...(openWorkbook(bytes).model.sheets[0]?.hiddenRows ?? [])]).toEqual([2, 8]);
  });

  // The order of what a sheet's part holds: ECMA-376 part 1, 18.3.1.99.
  it("is everything else in its order, and it replaces the one before", () => {
    const filter =
      '<autoFilter ref="A1:A3"><filterColumn colId="0"><filters><filter val="2"/></filters></filterColumn></autoFilter>';
    const around = (behind: string): string => {
      const bytes = filterRows(tinyWorkbook({ rows, behind }), { sheet: 0, range, columns, hidden: [] });
      return partOf(bytes, SHEET).split("</sheetData>")[1] ?? "";
    };
    const locked = '<sheetProtection objects="1"/>';
    const merges = '<mergeCells count="1"><mergeCell ref="C1:D1"/></mergeCells>';
    expect(around(locked + merges)).toBe(`${locked}${filter}${merges}</worksheet>`);
    expect(around(`${locked}<autoFilter ref="A1:B9"><filterColumn colId="1"/></autoFilter>${merges}`)).toBe(
      `${locked}${filter}${merges}</worksheet>`,
    );
  });

  it("is the file as it was where there was none and none is set", () => {
    const bytes = filterRows(tinyWorkbook({ rows: '<row r="1"/>' }), {
      sheet: 0,
      range,
      columns: [],
      hidden: [],
    });
    expect(bytes).toEqual(tinyWorkbook({ rows: '<row r="1"/>' }));
    expect(() => filterRows(tinyWorkbook(), { sheet: 1, range, columns, hidden: [] })).toThrow("no sheet 2");
  });

  it("counts its columns from the first of the list", () => {
    const right = { firstRow: 0, firstColumn: 2, lastRow: 2, lastColumn: 4 };
    const bytes = filterRows(tinyWorkbook({ rows }), {
      sheet: 0,
      range: right,
      columns: [{ column: 4, shown: ["a", "", "b & c"] }],
      hidden: [],
    });
    expect(partOf(bytes, SHEET)).toContain(
      '<autoFilter ref="C1:E3"><filterColumn colId="2"><filters blank="1"><filter val="a"/><filter val="b &amp; c"/></filters></filterColumn></autoFilter>',
    );
  });

  it("are the totals of a table, and tables elsewhere or without headings", () => {
    const table = { name: "T", sheet: 0, range: RANGE, columns: ["a", "b"], headerRows: 1, totalsRows: 1 };
    const selected = { firstRow: 20, firstColumn: 0, lastRow: 21, lastColumn: 0 };
    const at = { sheet: 0, row: 2, column: 1 };
    expect(listAround([table], undefined, at, selected)).toEqual({ ...RANGE, lastRow: 2 });
    expect(listAround([{ ...table, headerRows: 0 }], undefined, at, selected)).toEqual(selected);
    expect(listAround([table], undefined, { ...at, sheet: 1 }, selected)).toEqual(selected);
    expect(listAround([table], RANGE, { ...at, column: 2 }, selected)).toEqual(selected);
  });
});
