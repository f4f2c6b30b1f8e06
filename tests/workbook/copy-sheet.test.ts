import { strFromU8, unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import { copySheet } from "../../src/workbook/copy-sheet";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";
import { tinyWorkbook, zipParts } from "./tiny-package";

const RELATIONSHIPS = "http://schemas.openxmlformats.org/package/2006/relationships";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const DRAWING = "http://schemas.openxmlformats.org/drawingml/2006";

const links = (...entries: readonly (readonly [string, string, string])[]): string => {
  const each = entries.map(
    ([id, kind, target]) => `<Relationship Id="${id}" Type="${OFFICE}/${kind}" Target="${target}"/>`,
  );
  return `<Relationships xmlns="${RELATIONSHIPS}">${each.join("")}</Relationships>`;
};

/** A sheet with a chart of its column A and a text box beside it; ECMA-376 part 1, 21.2.2.65. */
const charted = tinyWorkbook({
  rows: '<row r="1"><c r="A1"><v>1</v></c></row><row r="2"><c r="A2"><v>2</v></c></row>',
  before: '<sheetViews><sheetView tabSelected="1" workbookViewId="0"/></sheetViews>',
  behind: '<drawing r:id="rId1"/>',
  overrides:
    '<Override PartName="/xl/drawings/drawing1.xml" ContentType="application/vnd.openxmlformats-officedocument.drawing+xml"/>' +
    '<Override PartName="/xl/charts/chart1.xml" ContentType="application/vnd.openxmlformats-officedocument.drawingml.chart+xml"/>',
  parts: {
    "xl/worksheets/_rels/sheet1.xml.rels": links(["rId1", "drawing", "../drawings/drawing1.xml"]),
    "xl/drawings/_rels/drawing1.xml.rels": links(["rId1", "chart", "../charts/chart1.xml"]),
    "xl/drawings/drawing1.xml": `<xdr:wsDr xmlns:xdr="${DRAWING}/spreadsheetDrawing" xmlns:c="${DRAWING}/chart" xmlns:r="${OFFICE}"><c:chart r:id="rId1"/></xdr:wsDr>`,
    "xl/charts/chart1.xml": `<c:chartSpace xmlns:c="${DRAWING}/chart"><c:ser><c:val><c:numRef><c:f>'Sheet one'!$A$1:$A$2</c:f></c:numRef></c:val></c:ser></c:chartSpace>`,
  },
});

const partsOf = (bytes: Uint8Array): Record<string, string> =>
  Object.fromEntries(Object.entries(unzipSync(bytes)).map(([name, content]) => [name, strFromU8(content)]));

describe("a copy of a sheet", () => {
  it("has a chart of its own over its own cells, and leaves the original's", () => {
    const before = partsOf(charted);
    const after = partsOf(copySheet(charted, 0, "Bob's copy"));
    expect(after["xl/charts/chart1.xml"]).toBe(before["xl/charts/chart1.xml"]);
    expect(after["xl/charts/chart2.xml"]).toContain("<c:f>'Bob''s copy'!$A$1:$A$2</c:f>");
    expect(after["xl/drawings/_rels/drawing2.xml.rels"]).toContain('Target="/xl/charts/chart2.xml"');
    expect(after["xl/worksheets/_rels/sheet2.xml.rels"]).toContain('Target="/xl/drawings/drawing2.xml"');
    expect(after["[Content_Types].xml"]).toMatch(/PartName="\/xl\/charts\/chart2\.xml"[^>]*chart\+xml/);
    expect(openWorkbook(copySheet(charted, 0, "x")).model.sheets.map(({ cells }) => cells.length)).toEqual([
      2, 2,
    ]);
  });

  it("is not selected together with the original", () => {
    const after = partsOf(copySheet(charted, 0, "Copy"));
    expect(after["xl/worksheets/sheet1.xml"]).toContain('tabSelected="1"');
    expect(after["xl/worksheets/sheet2.xml"]).not.toContain("tabSelected");
  });

  it("reads its own table where a column of it is computed, by a name that nothing else has", () => {
    const file = createWorkbook({
      author: "test",
      generator: "test",
      date: "2026-01-01T00:00:00Z",
      names: [{ name: "Lines_2", text: "Offer!$D$1" }],
      sheets: [
        {
          name: "Offer",
          tables: [{ name: "Lines", range: "A1:B2" }],
          cells: {
            A1: { value: "price" },
            B1: { value: "double" },
            A2: { value: 3 },
            B2: { value: 6, formula: "Lines[[#This Row],[price]]*2" },
          },
        },
      ],
    });
    const parts = partsOf(file);
    const computed = parts["xl/tables/table1.xml"]?.replace(
      /(<tableColumn id="2"[^>]*)\/>/,
      "$1><calculatedColumnFormula>Lines[[#This Row],[price]]*2</calculatedColumnFormula></tableColumn>",
    );
    const zipped = zipParts({ ...parts, "xl/tables/table1.xml": computed ?? "" });
    const after = partsOf(copySheet(zipped, 0, "Copy"));
    expect(after["xl/tables/table2.xml"]).toContain(
      "<calculatedColumnFormula>Lines_3[[#This Row],[price]]*2</calculatedColumnFormula>",
    );
    expect(after["xl/tables/table1.xml"]).toBe(computed);
    expect(after["xl/tables/table2.xml"]).toMatch(/ id="2"/);
  });

  // A table's number is its own in the whole workbook (ECMA-376 part 1, 18.5.1.2).
  it("numbers its tables beyond all others, and names them beyond all names", () => {
    const table = (id: number, name: string, more = ""): string =>
      `<table xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main" id="${String(id)}" name="${name}" displayName="${name}" ref="A1:A2"${more}><tableColumns count="1"><tableColumn id="1" name="price"/></tableColumns></table>`;
    const file = tinyWorkbook({
      rows: '<row r="1"><c r="A1" t="inlineStr"><is><t>price</t></is></c><c r="B1"><f>SUM(Lines[price],Lines)+LINES2</f><v>0</v></c></row>',
      behind: '<tableParts count="1"><tablePart r:id="rId1"/></tableParts>',
      overrides:
        '<Override PartName="/xl/tables/table9.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml"/>',
      parts: {
        "xl/worksheets/_rels/sheet1.xml.rels": links(["rId1", "table", "../tables/table9.xml"]),
        "xl/tables/table9.xml": table(41, "Lines", ' xmlns:xr="urn:xr" xr:uid="{1}"'),
      },
    });
    const once = copySheet(file, 0, "Copy");
    const twice = partsOf(copySheet(once, 0, "Another"));
    expect(twice["xl/tables/table9.xml"]).toBe(table(41, "Lines", ' xmlns:xr="urn:xr" xr:uid="{1}"'));
    expect(twice["xl/tables/table1.xml"]).toContain('id="42" name="Lines_2" displayName="Lines_2"');
    expect(twice["xl/tables/table2.xml"]).toContain('id="43" name="Lines_3" displayName="Lines_3"');
    expect(twice["xl/tables/table1.xml"]).not.toContain("xr:uid");
    expect(twice["xl/worksheets/sheet2.xml"]).toContain("<f>SUM(Lines_2[price],Lines_2)+LINES2</f>");
    expect(twice["xl/worksheets/sheet3.xml"]).toContain("<f>SUM(Lines_3[price],Lines_3)+LINES2</f>");
    expect(openWorkbook(once).model.tables.map(({ name, sheet }) => [name, sheet])).toEqual([
      ["Lines", 0],
      ["Lines_2", 1],
    ]);
  });

  it("has notes of its own, and the pictures and addresses of the original", () => {
    const relationships = links(
      ["rId1", "comments", "../comments1.xml"],
      ["rId2", "vmlDrawing", "../drawings/vmlDrawing1.vml"],
      ["rId3", "image", "../media/image1.png"],
      ["rId4", "comments", "../lost.xml"],
    ).replace(
      "</Relationships>",
      `<Relationship Id="rId9" Type="${OFFICE}/hyperlink" Target="https://example.com/" TargetMode="External"/></Relationships>`,
    );
    const TYPE = "application/vnd.openxmlformats-officedocument.spreadsheetml.comments+xml";
    const file = tinyWorkbook({
      behind: '<legacyDrawing r:id="rId2"/>',
      overrides: `<Default Extension="vml" ContentType="application/vnd.openxmlformats-officedocument.vmlDrawing"/><Default Extension="png" ContentType="image/png"/><Override PartName="/xl/comments1.xml" ContentType="${TYPE}"/>`,
      parts: {
        "xl/worksheets/_rels/sheet1.xml.rels": relationships,
        "xl/comments1.xml":
          '<comments xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><authors><author/></authors><commentList><comment ref="A1" authorId="0"><text><t>ask</t></text></comment></commentList></comments>',
        "xl/drawings/vmlDrawing1.vml": "<xml><br></xml>",
        "xl/media/image1.png": new Uint8Array([1, 2]),
      },
    });
    const copy = copySheet(file, 0, "Copy");
    const after = partsOf(copy);
    const copied = after["xl/worksheets/_rels/sheet2.xml.rels"];
    for (const target of [
      "/xl/comments2.xml",
      "/xl/drawings/vmlDrawing2.vml",
      "/xl/media/image1.png",
      "https://example.com/",
    ])
      expect(copied).toContain(`Target="${target}"`);
    expect(after["xl/comments2.xml"]).toBe(after["xl/comments1.xml"]);
    expect(after["[Content_Types].xml"]).toContain(`PartName="/xl/comments2.xml" ContentType="${TYPE}"`);
    expect(after["[Content_Types].xml"]).not.toContain("vmlDrawing2.vml");
    expect(Object.keys(after).filter((part) => part.includes("/media/"))).toEqual(["xl/media/image1.png"]);
    expect(openWorkbook(copy).model.sheets.map(({ notes }) => [...notes])).toEqual([
      [["A1", "ask"]],
      [["A1", "ask"]],
    ]);
  });

  it("has the names that belong to the original, over its own cells, and a number that no sheet had", () => {
    const name = (more: string, text: string): string =>
      `<definedName name="rate"${more}>${text}</definedName>`;
    const area = `<definedName name="_xlnm.Print_Area" localSheetId="0">'Sheet one'!$A$1:$B$2</definedName>`;
    const file = tinyWorkbook({
      workbookBehind: `<definedNames>${area}${name(' localSheetId="0"', "'Sheet one'!$A$1&amp;\"x\"")}${name("", "'Sheet one'!$A$9")}</definedNames>`,
    });
    const renumbered = partsOf(file)["xl/workbook.xml"]?.replace('sheetId="1"', 'sheetId="7"') ?? "";
    const after = partsOf(
      copySheet(zipParts({ ...partsOf(file), "xl/workbook.xml": renumbered }), 0, "A & B"),
    );
    const workbook = after["xl/workbook.xml"] ?? "";
    expect(workbook).toMatch(/<sheet name="A &amp; B" sheetId="8" [^>]*r:id="rId4"\/>/);
    expect([...workbook.matchAll(/<definedName .*?<\/definedName>/g)].map(([text]) => text).slice(3)).toEqual(
      [
        `<definedName name="_xlnm.Print_Area" localSheetId="1">'A &amp; B'!$A$1:$B$2</definedName>`,
        name(' localSheetId="1"', "'A &amp; B'!$A$1&amp;\"x\""),
      ],
    );
  });

  it("takes the names of its original and of no other sheet", () => {
    const file = createWorkbook({
      author: "test",
      generator: "test",
      date: "2026-01-01T00:00:00Z",
      sheets: [
        { name: "One", cells: {}, page: { orientation: "portrait", printArea: "A1:B2" } },
        { name: "Two", cells: {}, page: { orientation: "portrait", printArea: "C3:D4" } },
      ],
    });
    const { names } = openWorkbook(copySheet(file, 1, "Three")).model;
    expect(names.map(({ sheet, text }) => [sheet, text])).toEqual([
      [0, "One!$A$1:$B$2"],
      [1, "Two!$C$3:$D$4"],
      [2, "Three!$C$3:$D$4"],
    ]);
  });

  it("is refused for a sheet that is not there and for one with a pivot table", () => {
    expect(() => copySheet(charted, 1, "Copy")).toThrow("no sheet 2");
    const pivot = tinyWorkbook({
      overrides:
        '<Override PartName="/xl/pivotTables/pivotTable1.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.pivotTable+xml"/>',
      parts: {
        "xl/worksheets/_rels/sheet1.xml.rels": links([
          "rId1",
          "pivotTable",
          "../pivotTables/pivotTable1.xml",
        ]),
        "xl/pivotTables/pivotTable1.xml": "<pivotTableDefinition/>",
      },
    });
    expect(() => copySheet(pivot, 0, "Copy")).toThrow("pivot table");
  });
});
