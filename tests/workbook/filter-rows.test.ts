import { describe, expect, it } from "vitest";
import { createWorkbook } from "../../src/workbook/create";
import { filterRows, listAround } from "../../src/workbook/filter-rows";
import { openWorkbook } from "../../src/workbook/read";

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
