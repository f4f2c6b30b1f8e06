import { afterEach, expect, it } from "vitest";
import { UniverEngine } from "../../src/sheet/univer-engine";
import { openWorkbook } from "../../src/workbook/read";
import { tinyWorkbook } from "../workbook/tiny-package";
import { workbookOf } from "./workbook-of";

const engine = new UniverEngine([]);
afterEach(() => {
  engine.dispose();
});

// Microsoft support, SUBTOTAL: 1 to 11 take in rows that a person hid, 101 to 111 do not, neither what a filter hides.
it.each([
  ["hidden by a person", undefined, 60, 40],
  ["filtered out", { firstRow: 0, firstColumn: 0, lastRow: 2, lastColumn: 0 }, 40, 40],
])("SUBTOTAL over rows that are %s", async (_, filter, withHidden, without) => {
  const workbook = workbookOf({
    S: { A1: 10, A2: 20, A3: 30, C1: "=SUBTOTAL(9,A1:A3)", C2: "=SUBTOTAL(109,A1:A3)" },
  });
  const [sheet] = workbook.sheets;
  if (sheet === undefined) throw new Error("no sheet");
  const hidden = { ...sheet, hiddenRows: new Set([1]), ...(filter === undefined ? {} : { filter }) };
  await engine.load({ ...workbook, sheets: [hidden] });
  await engine.recalculate();
  expect([0, 1].map((row) => engine.value({ sheet: 0, row, column: 2 }))).toEqual([withHidden, without]);
});

// A filter leaves out rows of its own range only; a row beyond it was hidden by a person. A table's filter is as good.
it.each([
  ["of the sheet", [2, 3], [], 60],
  ["that begins at the row", [1, 3], [], 40],
  ["that ends at the row", [0, 1], [], 40],
  ["that ends above it", [0, 0], [], 60],
  ["of a table that is filtered", undefined, [{ sheet: 0, isFiltered: true }], 40],
  ["of a table that is not filtered", undefined, [{ sheet: 0, isFiltered: false }], 60],
  ["of a table on another sheet", undefined, [{ sheet: 1, isFiltered: true }], 60],
] as readonly (readonly [
  string,
  readonly [number, number] | undefined,
  readonly { readonly sheet: number; readonly isFiltered: boolean }[],
  number,
])[])("SUBTOTAL over a hidden row and a filter %s", async (_, rows, tables, all) => {
  const workbook = workbookOf(
    { S: { A1: 10, A2: 20, A3: 30, C1: "=SUBTOTAL(9,A1:A3)", C2: "=SUBTOTAL(9,A2)" }, T: { A1: 1 } },
    {
      tables: tables.map((table) => ({
        ...table,
        name: "Prices",
        range: { firstRow: 0, firstColumn: 0, lastRow: 1, lastColumn: 0 },
        columns: ["Price"],
        headerRows: 1,
        totalsRows: 0,
      })),
    },
  );
  const [sheet, other] = workbook.sheets;
  if (sheet === undefined || other === undefined) throw new Error("no sheet");
  const filter =
    rows === undefined
      ? {}
      : { filter: { firstRow: rows[0], lastRow: rows[1], firstColumn: 0, lastColumn: 0 } };
  await engine.load({ ...workbook, sheets: [{ ...sheet, hiddenRows: new Set([1]), ...filter }, other] });
  await engine.recalculate();
  expect(engine.value({ sheet: 0, row: 0, column: 2 })).toBe(all);
  expect(engine.value({ sheet: 0, row: 1, column: 2 })).toBe(all === 40 ? 0 : 20);
});

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const CRITERIA =
  '<filterColumn colId="0"><filters><filter val="10"/><filter val="30"/></filters></filterColumn>';
const ROWS = [
  '<row r="1"><c r="A1" t="inlineStr"><is><t>Price</t></is></c><c r="C1"><f>SUBTOTAL(9,A2:A4)</f><v>0</v></c></row>',
  '<row r="2"><c r="A2"><v>10</v></c><c r="C2"><f>SUBTOTAL(109,A2:A4)</f><v>0</v></c></row>',
  '<row r="3" hidden="1"><c r="A3"><v>20</v></c></row>',
  '<row r="4"><c r="A4"><v>30</v></c></row>',
].join("");

function tablePart(header: string, content: string): object {
  return {
    behind: '<tableParts count="1"><tablePart r:id="rId1"/></tableParts>',
    overrides:
      '<Override PartName="/xl/tables/table1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml"/>',
    parts: {
      "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="rId1" Type="${OFFICE}/table" Target="../tables/table1.xml"/></Relationships>`,
      "xl/tables/table1.xml": `<table xmlns="${MAIN}" id="1" name="Prices" displayName="Prices" ref="A1:A4">${content}<tableColumns count="1"><tableColumn id="1" name="${header}"/></tableColumns></table>`,
    },
  };
}

// ISO/IEC 29500-1, 18.3.1.2: a filter has criteria (filterColumn) where it leaves rows out; without them none is filtered.
it.each([
  ["a filter with criteria", { behind: `<autoFilter ref="A1:A4">${CRITERIA}</autoFilter>` }, 40],
  ["a filter without criteria", { behind: '<autoFilter ref="A1:A4"/>' }, 60],
  ["a filter over other rows", { behind: `<autoFilter ref="A6:A9">${CRITERIA}</autoFilter>` }, 60],
  ["no filter", {}, 60],
  ["a table with criteria", tablePart("Price", `<autoFilter ref="A1:A4">${CRITERIA}</autoFilter>`), 40],
  ["a table without criteria", tablePart("Price", '<autoFilter ref="A1:A4"/>'), 60],
])("SUBTOTAL over a file with %s", async (_, markup, withHidden) => {
  await engine.load(openWorkbook(tinyWorkbook({ rows: ROWS, ...markup })).model);
  await engine.recalculate();
  expect([0, 1].map((row) => engine.value({ sheet: 0, row, column: 2 }))).toEqual([withHidden, 40]);
});

// Excel keeps outer spaces of a header in the table, and a formula may name the column with or without them.
it.each(["Prices[Price]", "Prices[ Price ]", "Prices[[ Price ]]", "Prices[[#Data],[Price]]"])(
  "a column whose header has outer spaces is found by %s",
  async (reference) => {
    const rows = ROWS.replace("SUBTOTAL(9,A2:A4)", `SUM(${reference})`);
    await engine.load(openWorkbook(tinyWorkbook({ rows, ...tablePart(" Price ", "") })).model);
    const { uncomputed } = await engine.recalculate();
    expect([uncomputed, engine.value({ sheet: 0, row: 0, column: 2 })]).toEqual([[], 60]);
  },
);
