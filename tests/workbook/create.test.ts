import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { createWorkbook, type WorkbookDescription } from "../../src/workbook/create";
import type { SheetDescription } from "../../src/workbook/create-sheet";
import { openWorkbook } from "../../src/workbook/read";
import { readXml } from "../../src/workbook/xml";

const first: SheetDescription = {
  name: "Start",
  tabColor: "#3366cc",
  cells: {
    A1: {
      value: "Head",
      style: { bold: true, fontSize: 16, fontColor: "#ffffff", fill: "#3366cc", horizontal: "center" },
    },
    B3: {
      value: 0.5,
      style: {
        numberFormat: "0.0%",
        borders: { top: { style: "thin" }, left: { style: "medium", color: "#ff0000" } },
      },
    },
    A3: {
      value: " <a> & \n_x0041_",
      style: { wrap: true, vertical: "top", italic: true, underline: true, strike: true },
    },
    C3: { formula: "B3*2", value: 1, style: { numberFormat: '0.0" m"' } },
    D3: { value: true, style: { numberFormat: '0.0" m"', fontName: "Arial" } },
    E3: { value: { error: "#N/A" } },
    A4: { style: { fill: "#eeeeee" } },
  },
  columnWidths: { C: 8.5, A: 30 },
  rowHeights: { 1: 28, 9: 12 },
  merges: ["A1:C1"],
  frozen: { rows: 1, columns: 2 },
  notes: { B3: "A note\nwith <two> lines", A1: "Other" },
  page: {
    orientation: "landscape",
    fit: { wide: 1, tall: 0 },
    printArea: "A1:E9",
    repeatedRows: "1:2",
    paper: 9,
  },
  choices: [
    { range: "B3:B9", from: ["a", 'b"c'], refusal: "pick one" },
    { range: "C3", from: "Prices[Item]" },
  ],
  showGridLines: false,
};
const second: SheetDescription = {
  name: "It's",
  state: "hidden",
  cells: {
    A1: { value: "Item" },
    B1: { value: "Price\neach" },
    A2: { value: "x" },
    B2: { value: 2 },
    D1: {
      formula: {
        text: "A2:A3",
        kind: "dynamic",
        range: { firstRow: 0, firstColumn: 3, lastRow: 1, lastColumn: 3 },
      },
      value: "x",
    },
    D2: { value: "y" },
  },
  notes: { A2: "third" },
  tables: [{ name: "Prices", range: "A1:B2", style: "TableStyleMedium2" }],
};
const workbook: WorkbookDescription = {
  title: "A & B",
  author: "Somebody",
  generator: "test",
  date: "2026-01-01T00:00:00Z",
  sheets: [first, second],
  names: [
    { name: "margin", text: "Start!$B$3" },
    { name: "local", text: "Start!$A$1", sheet: 0 },
  ],
};

describe("a new workbook", () => {
  const bytes = createWorkbook(workbook);
  const { model, parts } = openWorkbook(bytes);

  it("is the same every time and well-formed in every part", () => {
    expect(createWorkbook(structuredClone(workbook))).toEqual(bytes);
    const files = unzipSync(bytes);
    expect(Object.keys(files)[0]).toBe("[Content_Types].xml");
    for (const name of Object.keys(files)) {
      expect(() => readXml(parts.readText(name), name)).not.toThrow();
      if (name !== "[Content_Types].xml") expect(parts.contentType(name)).toBeTypeOf("string");
    }
  });

  it("reads back with its cells, formulas and looks", () => {
    const cells = new Map(
      model.sheets[0]?.cells.map((cell) => [`${String(cell.row)},${String(cell.column)}`, cell]),
    );
    const at = (row: number, column: number) => {
      const cell = cells.get(`${String(row)},${String(column)}`);
      return { value: cell?.value, formula: cell?.formula?.text, style: model.styles[cell?.style ?? -1] };
    };
    const font = { fontName: "Calibri", fontSize: 11 };
    expect(cells.size).toBe(7);
    expect(at(0, 0)).toEqual({
      value: "Head",
      formula: undefined,
      style: { numberFormat: "General", ...font, ...first.cells["A1"]?.style },
    });
    expect(at(2, 0)).toEqual({
      value: " <a> & \n_x0041_",
      formula: undefined,
      style: { numberFormat: "General", ...font, ...first.cells["A3"]?.style },
    });
    expect(at(2, 1).style).toEqual({
      numberFormat: "0.0%",
      ...font,
      borders: { top: { style: "thin", color: "#000000" }, left: { style: "medium", color: "#ff0000" } },
    });
    expect(at(2, 2)).toEqual({ value: 1, formula: "B3*2", style: { numberFormat: '0.0" m"', ...font } });
    expect(at(2, 3)).toEqual({
      value: true,
      formula: undefined,
      style: { numberFormat: '0.0" m"', fontName: "Arial", fontSize: 11 },
    });
    expect(at(2, 4).value).toEqual({ error: "#N/A" });
    expect(at(3, 0)).toMatchObject({ value: null, style: { fill: "#eeeeee" } });
    expect(model.sheets[1]?.cells.slice(2, 4)).toMatchObject([
      { value: "x", formula: { kind: "dynamic", range: { lastRow: 1, lastColumn: 3 } } },
      { value: "x" },
    ]);
    expect(parts.readText("xl/worksheets/sheet2.xml")).toContain('<c r="D2" t="str"><v>y</v></c>');
  });

  it("reads back with everything around the cells", () => {
    expect(model.sheets[0]).toMatchObject({
      name: "Start",
      state: "visible",
      merges: [{ firstRow: 0, firstColumn: 0, lastRow: 0, lastColumn: 2 }],
      frozenRows: 1,
      frozenColumns: 2,
      showGridLines: false,
    });
    expect(model.sheets[1]?.state).toBe("hidden");
    expect([...(model.sheets[0]?.columnWidths ?? [])]).toEqual([
      [0, 30],
      [2, 8.5],
    ]);
    expect([...(model.sheets[0]?.rowHeights ?? [])]).toEqual([
      [0, 28],
      [8, 12],
    ]);
    expect([...(model.sheets[0]?.notes ?? [])]).toEqual([
      ["A1", "Other"],
      ["B3", "A note\nwith <two> lines"],
    ]);
    expect(model.tables).toMatchObject([
      { name: "Prices", sheet: 1, columns: ["Item", "Price\neach"], headerRows: 1 },
    ]);
    expect(model.names).toEqual([
      { name: "_xlnm.Print_Area", text: "Start!$A$1:$E$9", sheet: 0, isHidden: false },
      { name: "_xlnm.Print_Titles", text: "Start!$1:$2", sheet: 0, isHidden: false },
      { name: "local", text: "Start!$A$1", sheet: 0, isHidden: false },
      { name: "margin", text: "Start!$B$3", isHidden: false },
    ]);
    expect(parts.readText("docProps/app.xml")).toContain("<Application>test</Application>");
    expect(parts.readText("docProps/core.xml")).toContain(">2026-01-01T00:00:00Z</dcterms:created>");
  });

  it("has the elements of a worksheet in the order that the schema asks for", () => {
    // CT_Worksheet, ECMA-376 part 1, 18.3.1.99.
    const order = [
      "sheetPr",
      "dimension",
      "sheetViews",
      "sheetFormatPr",
      "cols",
      "sheetData",
      "mergeCells",
      "dataValidations",
      "pageMargins",
      "pageSetup",
      "legacyDrawing",
      "tableParts",
    ];
    for (const part of ["xl/worksheets/sheet1.xml", "xl/worksheets/sheet2.xml"]) {
      const found = readXml(parts.readText(part), part).children.map((child) => child.local);
      expect(found).toEqual(order.filter((name) => found.includes(name)));
    }
    const sheet = parts.readText("xl/worksheets/sheet1.xml");
    expect(sheet).toContain('<formula1>"a,b""c"</formula1>');
    expect(sheet).toContain(
      '<pageSetup paperSize="9" fitToWidth="1" fitToHeight="0" orientation="landscape"/>',
    );
    expect(sheet).toContain('<dimension ref="A1:E4"/>');
  });

  it("has shapes for its notes with numbers that no other sheet uses", () => {
    const ids = ["xl/drawings/vmlDrawing1.vml", "xl/drawings/vmlDrawing2.vml"].flatMap((part) => {
      return readXml(parts.readText(part), part)
        .all("shape", "urn:schemas-microsoft-com:vml")
        .map((shape) => shape.get("id"));
    });
    expect(ids.length).toBe(3);
    expect(new Set(ids).size).toBe(3);
  });
});

describe("a workbook that Excel would refuse", () => {
  const one = (
    change: Partial<SheetDescription>,
    more: Partial<WorkbookDescription> = {},
  ): (() => Uint8Array) => {
    return () =>
      createWorkbook({ ...workbook, names: [], sheets: [{ name: "S", cells: {}, ...change }], ...more });
  };
  const header = { A1: { value: "a" }, B1: { value: "A" } };
  it.each<[string, () => Uint8Array, RegExp]>([
    ["no sheets", one({}, { sheets: [] }), /needs a sheet/],
    ["hidden sheets only", one({ state: "hidden" }), /visible/],
    ["a sheet name with a slash", one({ name: "a/b" }), /must not contain/],
    [
      "a sheet name twice",
      one(
        {},
        {
          sheets: [
            { name: "S", cells: {} },
            { name: "s", cells: {} },
          ],
        },
      ),
      /used twice/,
    ],
    ["a name that reads like a cell", one({}, { names: [{ name: "A1", text: "1" }] }), /reads like a cell/],
    [
      "a name twice",
      one(
        {},
        {
          names: [
            { name: "a", text: "1" },
            { name: "A", text: "2" },
          ],
        },
      ),
      /used twice/,
    ],
    ["a cell outside", one({ cells: { XFE1: { value: 1 } } }), /no cell/],
    ["a number that is not finite", one({ cells: { A1: { value: NaN } } }), /not finite/],
    ["a formula with its sign", one({ cells: { A1: { formula: "=1" } } }), /equals sign/],
    ["a column that is none", one({ columnWidths: { "1": 3 } }), /no column/],
    ["a merge that is none", one({ merges: ["A"] }), /no range/],
    [
      "a table without a heading",
      one({ cells: {}, tables: [{ name: "T", range: "A1:B2" }] }),
      /different text/,
    ],
    [
      "a table with a heading twice",
      one({ cells: header, tables: [{ name: "T", range: "A1:B2" }] }),
      /different text/,
    ],
    ["a choice with a comma", one({ choices: [{ range: "A1", from: ["a,b"] }] }), /do not fit/],
  ])("%s", (_name, create, sentence) => {
    expect(create).toThrow(sentence);
  });
});
