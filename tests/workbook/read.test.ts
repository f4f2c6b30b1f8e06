import { describe, expect, it } from "vitest";
import { type SheetModel, WorkbookError, type WorkbookModel } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";
import { tinyParts, type TinyWorkbook, tinyWorkbook, zipParts } from "./tiny-package";

const model = (tiny: TinyWorkbook): WorkbookModel => openWorkbook(tinyWorkbook(tiny)).model;

function sheetOf(workbook: WorkbookModel): SheetModel {
  const [sheet] = workbook.sheets;
  if (sheet === undefined) throw new Error("no sheet");
  return sheet;
}

/** Values of a row of cells written as markup, in order. */
const values = (cells: string, more: TinyWorkbook = {}): unknown[] => {
  return sheetOf(model({ ...more, rows: `<row r="1">${cells}</row>` })).cells.map((cell) => cell.value);
};
const formulas = (rows: string, more: TinyWorkbook = {}): unknown[] => {
  return sheetOf(model({ ...more, rows })).cells.map((cell) => cell.formula);
};
const refusal = (tiny: TinyWorkbook): string => {
  try {
    openWorkbook(tinyWorkbook(tiny));
  } catch (error) {
    if (error instanceof WorkbookError) return error.message;
    throw error;
  }
  return "";
};

// Markup and meaning as in ECMA-376 part 1, 18.3 (worksheets) and 18.4 (shared strings).
describe("values", () => {
  it("reads numbers, texts, booleans, errors and blanks", () => {
    const cells =
      '<c r="A1"><v>1.5</v></c><c r="B1" t="n"><v>-2E-3</v></c><c r="C1" t="str"><v> x </v></c><c r="D1" t="b"><v>1</v></c>' +
      '<c r="E1" t="b"><v>0</v></c><c r="F1" t="e"><v>#DIV/0!</v></c><c r="G1" s="0"/><c r="H1"><v>-0</v></c><c r="I1" t="str"><v></v></c>';
    expect(values(cells)).toEqual([1.5, -0.002, "x", true, false, { error: "#DIV/0!" }, null, 0, ""]);
  });

  it("reads shared and inline texts, rich or plain, with the spaces that count and without phonetic hints", () => {
    const strings =
      "<si><t> plain </t></si>" +
      '<si><t xml:space="preserve"> kept </t></si>' +
      '<si><r><rPr><b/></rPr><t>rich</t></r><r><t xml:space="preserve"> text</t></r><rPh sb="0" eb="1"><t>HINT</t></rPh><phoneticPr fontId="1"/></si>' +
      "<si><t>a_x000D_\nb &amp; c</t></si><si/>";
    const cells = ["A", "B", "C", "D", "E"]
      .map((c, i) => `<c r="${c}1" t="s"><v>${String(i)}</v></c>`)
      .join("");
    const inline =
      '<c r="F1" t="inlineStr"><is><r><t>in</t></r><rPh sb="0" eb="1"><t>HINT</t></rPh><r><t>line</t></r></is></c>';
    expect(values(cells + inline, { strings })).toEqual([
      "plain",
      " kept ",
      "rich text",
      "a\r\nb & c",
      "",
      "inline",
    ]);
  });

  it("reads dates in text as day numbers of the workbook's system", () => {
    // 2026-06-20 is day 46193 of the 1900 system and 1,462 days less in the 1904 system (Excel's documentation).
    const cells = '<c r="A1" t="d"><v>2026-06-20</v></c><c r="B1" t="d"><v>2026-06-20T12:00:00</v></c>';
    expect(values(cells)).toEqual([46_193, 46_193.5]);
    expect(values(cells, { workbookBefore: '<workbookPr date1904="1"/>' })).toEqual([44_731, 44_731.5]);
  });

  it("places cells and rows that do not say where they are behind the one before", () => {
    const rows =
      '<row><c><v>1</v></c><c r="C1"><v>2</v></c><c><v>3</v></c></row><row r="5"><c><v>4</v></c></row><row><c><v>5</v></c></row>';
    const places = sheetOf(model({ rows })).cells.map((cell) => [cell.row, cell.column]);
    expect(places).toEqual([
      [0, 0],
      [0, 2],
      [0, 3],
      [4, 0],
      [5, 0],
    ]);
  });

  it.each([
    ['<row r="1"><c r="A1" t="s"><v>7</v></c></row>', /A1 .*missing/],
    ['<row r="1"><c r="A1"><v>1,5</v></c></row>', /A1 .*number/],
    ['<row r="1"><c r="A1"><v>1e999</v></c></row>', /A1 .*number/],
    ['<row r="1"><c r="A1" t="x"><v>1</v></c></row>', /unknown/],
    ['<row r="1"><c r="A1" t="d"><v>soon</v></c></row>', /date/],
    ['<row r="1"><c r="A2"><v>1</v></c></row>', /belongs elsewhere/],
    ['<row r="1"><c r="XFE1"/></row>', /belongs elsewhere/],
    ['<row r="1"><c r="A1"/><c r="A1"/></row>', /A1 twice/],
    ['<row r="1"/><row r="1"/>', /row 1 twice/],
    ['<row r="0"/>', /outside/],
    ['<row r="1048577"/>', /outside/],
    ['<row r="1"><c r="A1"><f t="shared" si="0"/></c></row>', /shares a formula/],
    ['<row r="1"><c r="A1"><f t="array" ref="?">1</f></c></row>', /range/],
  ])("refuses %s", (rows, sentence) => {
    expect(refusal({ rows })).toMatch(sentence);
  });
});

describe("formulas", () => {
  it("writes shared formulas out for each of their cells", () => {
    const rows =
      '<row r="1"><c r="B1"><f t="shared" ref="B1:C3" si="0">A1*$A1+A$1&amp;"A1"</f></c><c r="C1"><f t="shared" si="0"/></c></row>' +
      '<row r="3"><c r="B3"><f t="shared" si="0"/></c><c r="C3"><f t="shared" si="0">OWN(A1)</f></c></row>' +
      '<row r="4"><c r="A4"><f t="shared" ref="A4:A5" si="0">SUM(B:B,4:4)</f></c></row><row r="5"><c r="A5"><f t="shared" si="0"/></c></row>';
    expect(formulas(rows)).toEqual(
      [
        'A1*$A1+A$1&"A1"',
        'B1*$A1+B$1&"A1"',
        'A3*$A3+A$1&"A1"',
        "OWN(A1)",
        "SUM(B:B,4:4)",
        "SUM(B:B,5:5)",
      ].map((text) => ({
        text,
        kind: "normal",
      })),
    );
  });

  it("tells array formulas, spilling formulas and what-if tables apart", () => {
    const metadata =
      '<metadata xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" xmlns:xda="http://schemas.microsoft.com/office/spreadsheetml/2017/dynamicarray"><metadataTypes count="2"><metadataType name="OTHER"/><metadataType name="XLDAPR"/></metadataTypes><futureMetadata name="XLDAPR" count="2"><bk><extLst><ext uri="x"><xda:dynamicArrayProperties fDynamic="0"/></ext></extLst></bk><bk><extLst><ext uri="x"><xda:dynamicArrayProperties fDynamic="1"/></ext></extLst></bk></futureMetadata><cellMetadata count="3"><bk><rc t="2" v="0"/></bk><bk><rc t="2" v="1"/></bk><bk><rc t="1" v="1"/></bk></cellMetadata></metadata>';
    const rows =
      '<row r="1"><c r="A1"><f t="array" ref="A1:B2">X1:Y2</f></c><c r="C1" cm="1"><f t="array" ref="C1">X1</f></c><c r="D1" cm="2"><f t="array" ref="D1:D3">X1:X3</f></c><c r="E1" cm="3"><f t="array" ref="E1">X1</f></c>' +
      '<c r="F1"><f t="dataTable" ref="F1:G2" dt2D="1" dtr="1" r1="A9" r2="B9"/></c><c r="H1"><f t="dataTable" ref="H1:H2" dtr="1" r1="A9"/></c><c r="I1"><f t="dataTable" ref="I1:I2" r1="A9"/></c></row>';
    const range = (firstColumn: number, lastRow: number, lastColumn: number) => ({
      firstRow: 0,
      firstColumn,
      lastRow,
      lastColumn,
    });
    expect(
      formulas(rows, {
        parts: { "xl/metadata.xml": metadata },
        links:
          '<Relationship Id="rId9" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata" Target="metadata.xml"/>',
      }),
    ).toEqual([
      { text: "X1:Y2", kind: "array", range: range(0, 1, 1) },
      { text: "X1", kind: "array", range: range(2, 0, 2) },
      { text: "X1:X3", kind: "dynamic", range: range(3, 2, 3) },
      { text: "X1", kind: "array", range: range(4, 0, 4) },
      { text: "TABLE(A9,B9)", kind: "dataTable", range: range(5, 1, 6) },
      { text: "TABLE(A9,)", kind: "dataTable", range: range(7, 1, 7) },
      { text: "TABLE(,A9)", kind: "dataTable", range: range(8, 1, 8) },
    ]);
  });
});

describe("a sheet", () => {
  it("has widths, heights, hidden places, panes, merges and protection", () => {
    const sheet = sheetOf(
      model({
        before:
          '<sheetViews><sheetView showGridLines="0" workbookViewId="0"><pane xSplit="1" ySplit="2" topLeftCell="B3" state="frozen"/></sheetView><sheetView workbookViewId="1"/></sheetViews><cols><col min="1" max="2" width="12.5"/><col min="4" max="4" width="3" hidden="1"/></cols>',
        rows: '<row r="2" ht="30" customHeight="1"/><row r="4" hidden="1"/>',
        behind: '<sheetProtection sheet="1"/><mergeCells count="1"><mergeCell ref="A1:C2"/></mergeCells>',
      }),
    );
    expect(sheet).toMatchObject({
      name: "Sheet one",
      part: "xl/worksheets/sheet1.xml",
      state: "visible",
      frozenRows: 2,
      frozenColumns: 1,
      showGridLines: false,
      isProtected: true,
      merges: [{ firstRow: 0, firstColumn: 0, lastRow: 1, lastColumn: 2 }],
    });
    expect([...sheet.columnWidths]).toEqual([
      [0, 12.5],
      [1, 12.5],
      [3, 3],
    ]);
    expect([...sheet.hiddenColumns]).toEqual([3]);
    expect([...sheet.rowHeights]).toEqual([[1, 30]]);
    expect([...sheet.hiddenRows]).toEqual([3]);
  });

  it("is not frozen by panes that are only split", () => {
    const before =
      '<sheetViews><sheetView workbookViewId="0"><pane xSplit="2000" ySplit="600"/></sheetView></sheetViews>';
    expect(sheetOf(model({ before }))).toMatchObject({ frozenRows: 0, frozenColumns: 0 });
  });

  it("refuses columns that repeat, which could make the reading endless", () => {
    const columns = '<col min="1" max="16384" width="9"/>'.repeat(2);
    expect(refusal({ before: `<cols>${columns}</cols>` })).toMatch(/column twice/);
  });

  it("has notes and tables found through its links, wherever they are", () => {
    const office = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
    const main = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
    const workbook = model({
      parts: {
        "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="http://schemas.openxmlformats.org/package/2006/relationships"><Relationship Id="a" Type="${office}/comments" Target="/xl/odd/notes.xml"/><Relationship Id="b" Type="${office}/table" Target="../tables/t.xml"/><Relationship Id="c" Type="${office}/hyperlink" Target="https://example.com/" TargetMode="External"/></Relationships>`,
        "xl/odd/notes.xml": `<comments xmlns="${main}"><authors/><commentList><comment ref="B3" authorId="0"><text><r><t xml:space="preserve">Ann: </t></r><r><t>look</t></r></text></comment></commentList></comments>`,
        "xl/tables/t.xml": `<table xmlns="${main}" id="1" name="x" displayName="Prices" ref="A1:B4" totalsRowCount="1"><tableColumns count="2"><tableColumn id="1" name="Item"/><tableColumn id="2" name="Price_x000a_each"/></tableColumns></table>`,
      },
    });
    expect([...sheetOf(workbook).notes]).toEqual([["B3", "Ann: look"]]);
    expect(workbook.tables).toEqual([
      {
        name: "Prices",
        sheet: 0,
        range: { firstRow: 0, firstColumn: 0, lastRow: 3, lastColumn: 1 },
        columns: ["Item", "Price\neach"],
        headerRows: 1,
        totalsRows: 1,
      },
    ]);
  });

  it("is found in strict files, with any prefix, and numbered without chart sheets", () => {
    const strict = "http://purl.oclc.org/ooxml";
    const link = (id: string, kind: string, target: string): string => {
      return `<Relationship Id="${id}" Type="${strict}/officeDocument/relationships/${kind}" Target="${target}"/>`;
    };
    const relationships = (content: string): string => {
      return `<p:Relationships xmlns:p="http://schemas.openxmlformats.org/package/2006/relationships">${content.replaceAll("<Rel", "<p:Rel")}</p:Relationships>`;
    };
    const parts = tinyParts({
      parts: {
        "_rels/.rels": relationships(link("x", "officeDocument", "/xl/workbook.xml")),
        "xl/_rels/workbook.xml.rels": relationships(
          link("c", "chartsheet", "chart.xml") + link("s", "worksheet", "/xl/worksheets/sheet1.xml"),
        ),
        "xl/workbook.xml": `<q:workbook xmlns:q="${strict}/spreadsheetml/main" xmlns:z="${strict}/officeDocument/relationships" conformance="strict"><q:sheets><q:sheet name="Chart" sheetId="1" z:id="c"/><q:sheet name="Data" sheetId="2" state="veryHidden" z:id="s"/></q:sheets><q:definedNames><q:definedName name="all">Data!$A$1</q:definedName><q:definedName name="own" localSheetId="1" hidden="1">Data!$A$2</q:definedName><q:definedName name="chart" localSheetId="0">1</q:definedName></q:definedNames></q:workbook>`,
        "xl/worksheets/sheet1.xml": `<q:worksheet xmlns:q="${strict}/spreadsheetml/main"><q:sheetData><q:row r="1"><q:c r="A1"><q:f>1+1</q:f><q:v>2</q:v></q:c></q:row></q:sheetData></q:worksheet>`,
      },
    });
    const opened = openWorkbook(zipParts(parts));
    expect(sheetOf(opened.model)).toMatchObject({ name: "Data", state: "veryHidden" });
    expect(sheetOf(opened.model).cells).toEqual([
      { row: 0, column: 0, value: 2, style: 0, formula: { text: "1+1", kind: "normal" } },
    ]);
    expect(opened.model.names).toEqual([
      { name: "all", text: "Data!$A$1", isHidden: false },
      { name: "own", text: "Data!$A$2", isHidden: true, sheet: 0 },
    ]);
    const text = openWorkbook(
      opened.patched([
        { sheet: 0, row: 0, column: 0, value: 3 },
        { sheet: 0, row: 1, column: 1, value: "x" },
      ]),
    );
    expect(text.parts.readText("xl/worksheets/sheet1.xml")).toContain(
      '<q:c r="A1"><q:f>1+1</q:f><q:v>3</q:v></q:c></q:row><q:row r="2"><q:c r="B2" t="inlineStr"><q:is><q:t>x</q:t></q:is></q:c></q:row>',
    );
  });
});
