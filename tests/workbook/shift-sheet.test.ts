import { existsSync, readdirSync, readFileSync } from "node:fs";
import { join } from "node:path";
import { strFromU8, unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import type { AxisShift } from "../../src/formula/axis-shift";
import { cellAddress, parseCell } from "../../src/formula/address";
import { createWorkbook } from "../../src/workbook/create";
import { openWorkbook } from "../../src/workbook/read";
import { shiftSheet } from "../../src/workbook/shift-sheet";
import { tinyWorkbook, zipParts } from "./tiny-package";

const PLAIN = { author: "test", generator: "test", date: "2026-01-01T00:00:00Z" };
const insertRow = (at: number, count = 1): AxisShift => ({ kind: "insert", axis: "row", at, count });
const deleteRow = (at: number, count = 1): AxisShift => ({ kind: "delete", axis: "row", at, count });
const insertColumn = (at: number, count = 1): AxisShift => ({ kind: "insert", axis: "column", at, count });
const deleteColumn = (at: number, count = 1): AxisShift => ({ kind: "delete", axis: "column", at, count });

/** A supplier list with its sum, used by an offer on another sheet. */
function supplierList(): Uint8Array {
  return createWorkbook({
    ...PLAIN,
    names: [
      { name: "bag_price", text: "Suppliers!$B$3" },
      { name: "all_prices", text: "Suppliers!$B$2:$B$4" },
    ],
    sheets: [
      {
        name: "Offer",
        cells: {
          A1: { value: 12, formula: "SUM(Suppliers!B2:B4)" },
          A2: { value: 4, formula: "bag_price*2-Suppliers!B3" },
        },
      },
      {
        name: "Suppliers",
        columnWidths: { B: 14, C: 30 },
        rowHeights: { 4: 33 },
        merges: ["D2:D4"],
        frozen: { rows: 1, columns: 0 },
        notes: { B4: "ask again" },
        choices: [{ range: "C2:C4", from: ["net", "gross"] }],
        page: { orientation: "portrait", printArea: "A1:D5", repeatedRows: "1:1" },
        tables: [{ name: "Prices", range: "F1:G4" }],
        cells: {
          A1: { value: "item" },
          B1: { value: "price" },
          A2: { value: "red" },
          B2: { value: 3, style: { numberFormat: "0.00", fill: "#ffff00" } },
          A3: { value: "blue" },
          B3: { value: 4, style: { numberFormat: "0.00" } },
          A4: { value: "gold" },
          B4: { value: 5 },
          A5: { value: "sum" },
          B5: { value: 12, formula: "SUM(B2:B4)" },
          F1: { value: "size" },
          G1: { value: "cost" },
          F2: { value: 1 },
          G2: { value: 2 },
          F3: { value: 3 },
          G3: { value: 4 },
          F4: { value: 5 },
          G4: { value: 6 },
          I1: { value: 10, formula: "SUM(Prices[cost])-Prices[[#Totals],[cost]]" },
        },
      },
    ],
  });
}

const xmlOf = (bytes: Uint8Array, part: string): string =>
  strFromU8(unzipSync(bytes)[part] ?? new Uint8Array());
const formulaOf = (bytes: Uint8Array, sheet: number, address: string): string | undefined => {
  const place = parseCell(address);
  return openWorkbook(bytes).model.sheets[sheet]?.cells.find(
    ({ row, column }) => row === place?.row && column === place.column,
  )?.formula?.text;
};

describe("a new supplier row inside the sum's range", () => {
  const shifted = shiftSheet(supplierList(), 1, insertRow(3));
  const { model } = openWorkbook(shifted);
  const sheet = model.sheets[1];

  it("is taken in by the sum, by other sheets, by names, and by the printed area", () => {
    expect(formulaOf(shifted, 1, "B6")).toBe("SUM(B2:B5)");
    expect(formulaOf(shifted, 0, "A1")).toBe("SUM(Suppliers!B2:B5)");
    expect(formulaOf(shifted, 0, "A2")).toBe("bag_price*2-Suppliers!B3");
    expect(model.names.map(({ name, text }) => [name, text])).toEqual(
      expect.arrayContaining([
        ["bag_price", "Suppliers!$B$3"],
        ["all_prices", "Suppliers!$B$2:$B$5"],
        ["_xlnm.Print_Area", "Suppliers!$A$1:$D$6"],
        ["_xlnm.Print_Titles", "Suppliers!$1:$1"],
      ]),
    );
  });

  it("moves merged cells, heights, notes, choices and tables", () => {
    expect(sheet?.merges).toEqual([{ firstRow: 1, lastRow: 4, firstColumn: 3, lastColumn: 3 }]);
    expect(sheet?.rowHeights.get(4)).toBe(33);
    expect([...(sheet?.notes ?? [])]).toEqual([["B5", "ask again"]]);
    expect(xmlOf(shifted, "xl/worksheets/sheet2.xml")).toContain('sqref="C2:C5"');
    expect(model.tables[0]?.range).toEqual({ firstRow: 0, lastRow: 4, firstColumn: 5, lastColumn: 6 });
  });

  it("looks like the row above it", () => {
    const cell = sheet?.cells.find(({ row, column }) => row === 3 && column === 1);
    expect(cell).toMatchObject({ value: null });
    expect(model.styles[cell?.style ?? 0]).toMatchObject({ numberFormat: "0.00" });
  });

  it("comes out again without a trace in what the sheets hold", () => {
    const back = openWorkbook(shiftSheet(shifted, 1, deleteRow(3))).model;
    expect(back).toEqual(openWorkbook(supplierList()).model);
  });
});

describe("columns", () => {
  it("bring their widths, and the table gets a column with a heading", () => {
    const shifted = shiftSheet(supplierList(), 1, insertColumn(6));
    const { model } = openWorkbook(shifted);
    expect(model.tables[0]).toMatchObject({ columns: ["size", "Column1", "cost"] });
    expect(model.sheets[1]?.cells.find(({ row, column }) => row === 0 && column === 6)?.value).toBe(
      "Column1",
    );
    const wider = openWorkbook(shiftSheet(supplierList(), 1, insertColumn(2))).model.sheets[1];
    expect([...(wider?.columnWidths ?? [])]).toEqual([
      [1, 14],
      [2, 14],
      [3, 30],
    ]);
  });

  it("that are deleted leave #REF! where they were meant", () => {
    const shifted = shiftSheet(supplierList(), 1, deleteColumn(6));
    expect(formulaOf(shifted, 1, "H1")).toBe("SUM(#REF!)-#REF!");
    expect(openWorkbook(shifted).model.tables[0]?.columns).toEqual(["size"]);
    const all = shiftSheet(supplierList(), 1, deleteColumn(5, 2));
    expect(openWorkbook(all).model.tables).toEqual([]);
    expect(xmlOf(all, "xl/worksheets/sheet2.xml")).not.toContain("tablePart");
    expect(formulaOf(shiftSheet(supplierList(), 1, deleteColumn(1)), 0, "A1")).toBe("SUM(Suppliers!#REF!)");
  });

  it("that move take their formulas along", () => {
    const shifted = shiftSheet(supplierList(), 1, { kind: "move", axis: "column", at: 1, count: 1, to: 0 });
    expect(formulaOf(shifted, 1, "A5")).toBe("SUM(A2:A4)");
    expect(formulaOf(shifted, 0, "A1")).toBe("SUM(Suppliers!A2:A4)");
    expect(
      openWorkbook(shifted)
        .model.sheets[1]?.cells.slice(0, 2)
        .map(({ value }) => value),
    ).toEqual(["price", "item"]);
  });
});

describe("rows", () => {
  it("that a table cannot do without are refused with a sentence", () => {
    expect(() => shiftSheet(supplierList(), 1, deleteRow(0))).toThrow(
      /^the table Prices needs its heading row/,
    );
    expect(() => shiftSheet(supplierList(), 1, deleteRow(1, 3))).toThrow(
      /^the table Prices must keep one row/,
    );
  });

  it("move among each other with everything that points at them", () => {
    const shifted = shiftSheet(supplierList(), 1, { kind: "move", axis: "row", at: 2, count: 1, to: 4 });
    expect(formulaOf(shifted, 0, "A2")).toBe("bag_price*2-Suppliers!B4");
    expect(formulaOf(shifted, 0, "A1")).toBe("SUM(Suppliers!B2:B4)");
    expect(openWorkbook(shifted).model.names.find(({ name }) => name === "bag_price")?.text).toBe(
      "Suppliers!$B$4",
    );
  });

  it("keep formats and checks by condition on the cells they were made for", () => {
    const rule = (range: string, formula: string): string =>
      `<conditionalFormatting sqref="${range}"><cfRule type="expression" priority="1"><formula>${formula}</formula></cfRule></conditionalFormatting>`;
    const bytes = tinyWorkbook({
      rows: '<row r="2"><c r="A2"><v>1</v></c></row><row r="3"><c r="A3"><v>2</v></c></row>',
      behind:
        rule("A2:A9", "A2&gt;$D$3") +
        rule("B1:B2", "B1=1") +
        '<dataValidations count="2"><dataValidation sqref="A2"><formula1>$D$3</formula1></dataValidation><dataValidation sqref="C2:C9 E3"><formula1>C2&gt;0</formula1></dataValidation></dataValidations>' +
        '<hyperlinks><hyperlink ref="A2" location="\'Sheet one\'!D3"/></hyperlinks><rowBreaks count="1" manualBreakCount="1"><brk id="5" max="16383" man="1"/></rowBreaks>',
    });
    const xml = xmlOf(shiftSheet(bytes, 0, deleteRow(1)), "xl/worksheets/sheet1.xml");
    // Row 2 is gone: the rule begins with what was row 3 and reads it in its own row; D3 is D2 now.
    expect(xml).toContain(rule("A2:A8", "A2&gt;$D$2"));
    expect(xml).toContain(rule("B1", "B1=1"));
    expect(xml).toContain(
      '<dataValidations count="1"><dataValidation sqref="C2:C8 E2"><formula1>C2&gt;0</formula1>',
    );
    expect(xml).not.toContain("hyperlink");
    expect(xml).toContain('<brk id="4"');
    const longer = xmlOf(shiftSheet(bytes, 0, insertRow(0)), "xl/worksheets/sheet1.xml");
    expect(longer).toContain(rule("A3:A10", "A3&gt;$D$4"));
    expect(longer).toContain('ref="A3" location="\'Sheet one\'!D4"');
  });

  it("write out shared formulas and keep spills in one piece", () => {
    const bytes = createWorkbook({
      ...PLAIN,
      sheets: [
        {
          name: "S",
          cells: {
            A1: { value: 7 },
            B2: {
              value: 1,
              formula: {
                text: "_xlfn.SEQUENCE(3)",
                kind: "dynamic",
                range: { firstRow: 1, lastRow: 3, firstColumn: 1, lastColumn: 1 },
              },
            },
            B3: { value: 2 },
            B4: { value: 3 },
            B6: { value: "behind" },
          },
        },
      ],
    });
    const { model } = openWorkbook(shiftSheet(bytes, 0, insertRow(2, 2)));
    expect(model.sheets[0]?.cells.map(({ row, value }) => [row, value])).toEqual([
      [0, 7],
      [1, 1],
      [2, 2],
      [3, 3],
      [7, "behind"],
    ]);
    expect(model.sheets[0]?.cells[1]?.formula?.range).toEqual({
      firstRow: 1,
      lastRow: 3,
      firstColumn: 1,
      lastColumn: 1,
    });
    const shared = tinyWorkbook({
      rows:
        '<row r="1"><c r="A1"><f t="shared" ref="A1:A3" si="0">B1*2</f><v>2</v></c></row>' +
        '<row r="2"><c r="A2"><f t="shared" si="0"/><v>4</v></c></row><row r="3"><c r="A3"><f t="shared" si="0"/><v>6</v></c></row>',
    });
    const shifted = shiftSheet(shared, 0, insertRow(1));
    expect(["A1", "A3", "A4"].map((address) => formulaOf(shifted, 0, address))).toEqual([
      "B1*2",
      "B3*2",
      "B4*2",
    ]);
  });

  it("stay where a formula fills several cells as one", () => {
    const array = tinyWorkbook({
      rows: '<row r="1"><c r="A1"><f t="array" ref="A1:A3">B1:B3*2</f><v>2</v></c></row>',
    });
    expect(() => shiftSheet(array, 0, insertRow(1))).toThrow(
      "the formula in A1 does not allow it: it fills several cells that must stay together",
    );
    expect(formulaOf(shiftSheet(array, 0, insertRow(0)), 0, "A2")).toBe("B2:B4*2");
  });
});

const RELATIONSHIPS = "http://schemas.openxmlformats.org/package/2006/relationships";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const SPREADSHEET = "application/vnd.openxmlformats-officedocument.spreadsheetml";

/** A small workbook whose sheet has these parts, each of a kind of relationship. */
function withParts(
  linked: readonly { kind: string; part: string; content: string; type?: string }[],
  more: Parameters<typeof tinyWorkbook>[0] = {},
): Uint8Array {
  const links = linked.map(
    ({ kind, part }, at) =>
      `<Relationship Id="rId${String(at + 1)}" Type="${OFFICE}/${kind}" Target="/${part}"/>`,
  );
  return tinyWorkbook({
    rows: '<row r="9"><c r="C9"><v>1</v></c></row>',
    ...more,
    overrides:
      linked
        .map(({ part, type }) =>
          type === undefined ? "" : `<Override PartName="/${part}" ContentType="${type}"/>`,
        )
        .join("") + (more.overrides ?? ""),
    parts: {
      "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="${RELATIONSHIPS}">${links.join("")}</Relationships>`,
      ...Object.fromEntries(linked.map(({ part, content }) => [part, content])),
      ...more.parts,
    },
  });
}

describe("what cannot be moved is refused with a sentence", () => {
  const bytes = tinyWorkbook({ rows: '<row r="2"><c r="B2"><v>1</v></c></row>' });
  it.each<[AxisShift, string]>([
    [insertRow(-1), 'the sheet "Sheet one" has no such rows'],
    [insertRow(1.5), "no such rows"],
    [insertRow(1, 1.5), "no such rows"],
    [insertRow(1, 0), "no such rows"],
    // A sheet has 1,048,576 rows and 16,384 columns.
    [deleteRow(1_048_575, 2), "no such rows"],
    [deleteColumn(16_384), 'the sheet "Sheet one" has no such columns'],
    [{ kind: "move", axis: "row", at: 2, count: 3, to: 3 }, "rows cannot be moved into themselves"],
    [{ kind: "move", axis: "row", at: 2, count: 3, to: 4 }, "rows cannot be moved into themselves"],
    [{ kind: "move", axis: "column", at: 2, count: 1, to: -1 }, "columns cannot be moved into themselves"],
    [
      { kind: "move", axis: "column", at: 2, count: 1, to: 16_385 },
      "columns cannot be moved into themselves",
    ],
    [{ kind: "move", axis: "column", at: 2, count: 1, to: 0.5 }, "columns cannot be moved into themselves"],
  ])("%o", (shift, sentence) => {
    expect(() => shiftSheet(bytes, 0, shift)).toThrow(sentence);
  });

  it("but what is allowed to the last row is done", () => {
    expect(() => shiftSheet(bytes, 0, deleteRow(1_048_574, 2))).not.toThrow();
    for (const to of [0, 2, 5, 1_048_576])
      expect(() => shiftSheet(bytes, 0, { kind: "move", axis: "row", at: 2, count: 3, to })).not.toThrow();
  });

  it("and so are sheets that are not there, protected, or full to the last row", () => {
    expect(() => shiftSheet(bytes, 1, insertRow(0))).toThrow("the workbook has no sheet 2");
    const locked = tinyWorkbook({ behind: '<sheetProtection sheet="1"/>' });
    expect(() => shiftSheet(locked, 0, insertRow(0))).toThrow('the sheet "Sheet one" is protected');
    const full = (cell: string): Uint8Array =>
      tinyWorkbook({ rows: `<row r="1048575"><c r="XFC1048575"${cell}</c></row>` });
    expect(() => shiftSheet(full("><v>1</v>"), 0, insertRow(0, 2))).toThrow(
      'the last rows of the sheet "Sheet one" hold something: empty them first',
    );
    expect(() => shiftSheet(full("><f>1+1</f>"), 0, insertColumn(0, 2))).toThrow(
      "the last columns of the sheet",
    );
    expect(() => shiftSheet(full("><v>1</v>"), 0, insertRow(0))).not.toThrow();
    expect(() => shiftSheet(full("><v>1</v>"), 0, insertColumn(0))).not.toThrow();
    expect(() => shiftSheet(full(' s="0">'), 0, insertRow(0, 2))).not.toThrow();
    expect(() => shiftSheet(full("><v>1</v>"), 0, deleteRow(0, 2))).not.toThrow();
  });
});

describe("notes", () => {
  const comments = (...places: readonly string[]): string =>
    `<comments xmlns="${MAIN}"><authors><author/></authors><commentList>${places
      .map((place) => `<comment ref="${place}" authorId="0"><text><t>${place}?</t></text></comment>`)
      .join("")}</commentList></comments>`;
  const threads = (place: string): string =>
    `<ThreadedComments xmlns="http://schemas.microsoft.com/office/spreadsheetml/2018/threadedcomments"><threadedComment ref="${place}" id="{1}"><text>x</text></threadedComment></ThreadedComments>`;
  // An anchor names left column, top row, right column and bottom row, each with its offset (ECMA-376 part 4, 19.4.2.3).
  const vml = (anchor: string, row: number, column: number): string =>
    `<xml xmlns:x="urn:schemas-microsoft-com:office:excel"><x:ClientData ObjectType="Note"><x:Anchor>${anchor}</x:Anchor><x:Row>${String(row)}</x:Row><x:Column>${String(column)}</x:Column><br></x:ClientData></xml>`;
  const bytes = withParts([
    {
      kind: "comments",
      part: "xl/comments1.xml",
      content: comments("A2", "C5"),
      type: `${SPREADSHEET}.comments+xml`,
    },
    { kind: "threadedComment", part: "xl/threadedComments/threadedComment1.xml", content: threads("C5") },
    {
      kind: "vmlDrawing",
      part: "xl/drawings/vmlDrawing1.vml",
      content: vml("3, 15, 3, 10, 5, 15, 7, 4", 4, 2),
    },
  ]);
  const after = (shift: AxisShift): readonly string[] => {
    const shifted = shiftSheet(bytes, 0, shift);
    return [
      "xl/comments1.xml",
      "xl/threadedComments/threadedComment1.xml",
      "xl/drawings/vmlDrawing1.vml",
    ].map((part) => xmlOf(shifted, part));
  };

  it("move with their cells, and so do the boxes that show them", () => {
    expect(after(insertRow(2, 2)).map((text) => text.replaceAll("C5?", "C7?"))).toEqual([
      comments("A2", "C7"),
      threads("C7"),
      vml("3, 15, 5, 10, 5, 15, 9, 4", 6, 2),
    ]);
    expect(after(insertColumn(1)).map((text) => text.replaceAll("C5?", "D5?"))).toEqual([
      comments("A2", "D5"),
      threads("D5"),
      vml("4, 15, 3, 10, 6, 15, 7, 4", 4, 3),
    ]);
  });

  it("go with their cells", () => {
    const [notes, thread] = after(deleteRow(4));
    expect(notes).toBe(comments("A2"));
    expect(thread).not.toContain("threadedComment ");
  });

  it("are left as they are written where nothing of them moves", () => {
    expect(after(insertRow(20))).toEqual([
      comments("A2", "C5"),
      threads("C5"),
      vml("3, 15, 3, 10, 5, 15, 7, 4", 4, 2),
    ]);
  });
});

describe("pictures and charts", () => {
  const anchor = (kind: string, ...[left, top, right, bottom]: readonly number[]): string => {
    const corner = (name: string, column?: number, row?: number): string =>
      `<xdr:${name}><xdr:col>${String(column)}</xdr:col><xdr:colOff>0</xdr:colOff><xdr:row>${String(row)}</xdr:row><xdr:rowOff>0</xdr:rowOff></xdr:${name}>`;
    return `<xdr:twoCellAnchor${kind}>${corner("from", left, top)}${corner("to", right, bottom)}<xdr:row>7</xdr:row></xdr:twoCellAnchor>`;
  };
  const drawing = (...anchors: readonly string[]): string =>
    `<xdr:wsDr xmlns:xdr="http://schemas.openxmlformats.org/drawingml/2006/spreadsheetDrawing">${anchors.join("")}</xdr:wsDr>`;
  const after = (text: string, shift: AxisShift): string =>
    xmlOf(
      shiftSheet(withParts([{ kind: "drawing", part: "xl/drawings/drawing1.xml", content: text }]), 0, shift),
      "xl/drawings/drawing1.xml",
    );

  it("grow with the cells below them, keep their size or their place, as they are anchored", () => {
    const all = drawing(
      anchor("", 1, 2, 4, 8),
      anchor(' editAs="twoCell"', 1, 2, 4, 8),
      anchor(' editAs="oneCell"', 1, 2, 4, 8),
      anchor(' editAs="absolute"', 1, 2, 4, 8),
    );
    expect(after(all, insertRow(5, 3))).toBe(
      drawing(
        anchor("", 1, 2, 4, 11),
        anchor(' editAs="twoCell"', 1, 2, 4, 11),
        anchor(' editAs="oneCell"', 1, 2, 4, 8),
        anchor(' editAs="absolute"', 1, 2, 4, 8),
      ),
    );
    expect(after(all, insertColumn(0, 2))).toBe(
      drawing(
        anchor("", 3, 2, 6, 8),
        anchor(' editAs="twoCell"', 3, 2, 6, 8),
        anchor(' editAs="oneCell"', 3, 2, 6, 8),
        anchor(' editAs="absolute"', 1, 2, 4, 8),
      ),
    );
    expect(after(drawing(anchor("", 1, 2, 4, 8)), deleteRow(1, 3))).toBe(drawing(anchor("", 1, 1, 4, 5)));
  });

  it("of cells elsewhere read them where they are now", () => {
    const CHART = "application/vnd.openxmlformats-officedocument.drawingml.chart+xml";
    const chart = (range: string, other: string): string =>
      `<c:chart xmlns:c="http://schemas.openxmlformats.org/drawingml/2006/chart"><c:f>'Sheet one'!${range}</c:f><c:f>${other}</c:f></c:chart>`;
    const bytes = withParts([
      { kind: "drawing", part: "xl/drawings/drawing1.xml", content: drawing() },
      { kind: "chart", part: "xl/charts/chart1.xml", content: chart("$C$9:$C$12", "C9&amp;1"), type: CHART },
      { kind: "other", part: "xl/other.xml", content: chart("$C$9", "C9"), type: "application/xml" },
    ]);
    const shifted = shiftSheet(bytes, 0, insertRow(10));
    expect(xmlOf(shifted, "xl/charts/chart1.xml")).toBe(chart("$C$9:$C$13", "C9&amp;1"));
    expect(xmlOf(shifted, "xl/other.xml")).toBe(chart("$C$9", "C9"));
  });
});

describe("pivot tables", () => {
  const pivot = (place: string): string =>
    `<pivotTableDefinition xmlns="${MAIN}"><location ref="${place}"/></pivotTableDefinition>`;
  const cache = (sheet: string, place: string): string =>
    `<pivotCacheDefinition xmlns="${MAIN}"><cacheSource type="worksheet"><worksheetSource ref="${place}" sheet="${sheet}"/></cacheSource></pivotCacheDefinition>`;
  const file = (sheet = "Sheet one"): Uint8Array =>
    withParts(
      [
        {
          kind: "pivotTable",
          part: "xl/pivotTables/pivotTable1.xml",
          content: pivot("F5:H9"),
          type: `${SPREADSHEET}.pivotTable+xml`,
        },
      ],
      {
        links: `<Relationship Id="rId8" Type="${OFFICE}/pivotCacheDefinition" Target="pivotCache/pivotCacheDefinition1.xml"/>`,
        overrides: `<Override PartName="/xl/pivotCache/pivotCacheDefinition1.xml" ContentType="${SPREADSHEET}.pivotCacheDefinition+xml"/>`,
        parts: { "xl/pivotCache/pivotCacheDefinition1.xml": cache(sheet, "A3:C20") },
      },
    );
  const after = (bytes: Uint8Array, shift: AxisShift): readonly string[] => {
    const shifted = shiftSheet(bytes, 0, shift);
    return [
      xmlOf(shifted, "xl/pivotTables/pivotTable1.xml"),
      xmlOf(shifted, "xl/pivotCache/pivotCacheDefinition1.xml"),
    ];
  };

  it("move as a whole, and read their list where it is now", () => {
    expect(after(file(), insertRow(3))).toEqual([pivot("F6:H10"), cache("Sheet one", "A3:C21")]);
    expect(after(file(), insertColumn(2))).toEqual([pivot("G5:I9"), cache("Sheet one", "A3:D20")]);
    expect(after(file("Other"), insertRow(3))).toEqual([pivot("F6:H10"), cache("Other", "A3:C20")]);
  });

  it.each([insertRow(6), deleteRow(6), deleteRow(0, 20), insertColumn(6), deleteColumn(6)])(
    "are refused where %o would cut them",
    (shift) => {
      expect(() => shiftSheet(file(), 0, shift)).toThrow("the pivot table in F5:H9 must stay in one piece");
    },
  );
});

describe("names and the order of calculation", () => {
  const name = (attributes: string, text: string): string =>
    `<definedName ${attributes}>${text}</definedName>`;
  const names = (...each: readonly string[]): string =>
    each.length === 0 ? "" : `<definedNames>${each.join("")}</definedNames>`;
  const after = (text: string, shift: AxisShift): string => {
    const xml = xmlOf(
      shiftSheet(tinyWorkbook({ rows: "<row/>", workbookBehind: text }), 0, shift),
      "xl/workbook.xml",
    );
    return xml.slice(xml.indexOf("</sheets>") + "</sheets>".length, xml.indexOf("</workbook>"));
  };

  it("say #REF! where their cells are gone, but what is printed is no longer said", () => {
    const area = name('name="_xlnm.Print_Area" localSheetId="0"', "'Sheet one'!$A$1:$B$4");
    const rate = name('name="rate"', "'Sheet one'!$A$2&amp;\"x\"");
    expect(after(names(area, rate), deleteRow(1))).toBe(
      names(
        name('name="_xlnm.Print_Area" localSheetId="0"', "'Sheet one'!$A$1:$B$3"),
        name('name="rate"', "'Sheet one'!#REF!&amp;\"x\""),
      ),
    );
    expect(after(names(area, rate), deleteRow(0, 4))).toBe(
      names(name('name="rate"', "'Sheet one'!#REF!&amp;\"x\"")),
    );
    expect(after(names(area), deleteRow(0, 4))).toBe("");
    expect(after(names(area), insertRow(9))).toBe(names(area));
  });

  it("that belong to a sheet speak of its cells without naming it", () => {
    expect(
      after(names(name('name="here" localSheetId="0"', "$B$5"), name('name="all"', "$B$5")), insertRow(2)),
    ).toBe(names(name('name="here" localSheetId="0"', "$B$6"), name('name="all"', "$B$5")));
  });

  it("leaves no chain of calculation that names cells where they no longer are", () => {
    const chained = tinyWorkbook({
      rows: '<row r="2"><c r="A2"><f>1+1</f><v>2</v></c></row>',
      links: `<Relationship Id="rId8" Type="${OFFICE}/calcChain" Target="calcChain.xml"/>`,
      overrides: `<Override PartName="/xl/calcChain.xml" ContentType="${SPREADSHEET}.calcChain+xml"/>`,
      parts: { "xl/calcChain.xml": `<calcChain xmlns="${MAIN}"><c r="A2" i="1"/></calcChain>` },
    });
    const shifted = shiftSheet(chained, 0, insertRow(0));
    expect(Object.keys(unzipSync(shifted))).not.toContain("xl/calcChain.xml");
    expect(xmlOf(shifted, "xl/_rels/workbook.xml.rels")).not.toContain("calcChain");
  });
});

describe("a formula that fills cells", () => {
  const range = { firstRow: 1, lastRow: 2, firstColumn: 1, lastColumn: 2 };
  const spilling = createWorkbook({
    ...PLAIN,
    sheets: [
      {
        name: "S",
        cells: {
          B2: { value: 1, formula: { text: "_xlfn.SEQUENCE(2,2)", kind: "dynamic", range } },
          C2: { value: 2 },
          B3: { value: 3 },
          C3: { value: 4 },
          A4: { value: "below" },
          D3: { value: "beside" },
        },
      },
    ],
  });
  const cellsOf = (bytes: Uint8Array): Record<string, unknown> =>
    Object.fromEntries(
      openWorkbook(bytes)
        .model.sheets[0]?.cells.filter(({ value }) => value !== null)
        .map(({ row, column, value }) => [cellAddress(row, column), value]) ?? [],
    );

  it.each<[string, AxisShift, Record<string, unknown>]>([
    ["in front of it, above", insertRow(0), { B3: 1, C3: 2, B4: 3, C4: 4, A5: "below", D4: "beside" }],
    ["inside it, above", insertRow(2), { B2: 1, C2: 2, B3: 3, C3: 4, A5: "below", D4: "beside" }],
    ["in front of it, left", insertColumn(1), { C2: 1, D2: 2, C3: 3, D3: 4, A4: "below", E3: "beside" }],
    ["inside it, left", insertColumn(2), { B2: 1, C2: 2, B3: 3, C3: 4, A4: "below", E3: "beside" }],
    ["gone with its first cell", deleteRow(1), { A3: "below", D2: "beside" }],
    // What is in its way stays; the formula will say so itself when it is computed.
    ["with something in its way", deleteColumn(2), { B2: 1, C2: 2, B3: 3, C3: "beside", A4: "below" }],
  ])("keeps its values together: %s", (_what, shift, cells) => {
    expect(cellsOf(shiftSheet(spilling, 0, shift))).toEqual(cells);
  });
});

it("leaves no value of a formula that fills cells behind in a cell with a look", () => {
  const range = { firstRow: 0, lastRow: 1, firstColumn: 0, lastColumn: 0 };
  const bytes = createWorkbook({
    ...PLAIN,
    sheets: [
      {
        name: "S",
        cells: {
          A1: { value: 1, formula: { text: "_xlfn.SEQUENCE(2)", kind: "dynamic", range } },
          A2: { value: 2, style: { bold: true } },
        },
      },
    ],
  });
  const { sheets, styles } = openWorkbook(shiftSheet(bytes, 0, insertRow(1, 2))).model;
  const cells = sheets[0]?.cells.map(({ row, value, style }) => [row, value, styles[style]?.bold ?? false]);
  expect(cells).toEqual([
    [0, 1, false],
    [1, 2, false],
    [3, null, true],
  ]);
});

it("takes one of two tables out of a sheet", () => {
  const two = createWorkbook({
    ...PLAIN,
    sheets: [
      {
        name: "S",
        tables: [
          { name: "Left", range: "A1:B2" },
          { name: "Right", range: "D1:E2" },
        ],
        cells: Object.fromEntries(
          ["A1", "B1", "D1", "E1"].map((address) => [address, { value: `over ${address}` }]),
        ),
      },
    ],
  });
  const shifted = shiftSheet(two, 0, deleteColumn(0, 2));
  const { tables } = openWorkbook(shifted).model;
  expect(tables.map(({ name, range }) => [name, range.firstColumn])).toEqual([["Right", 1]]);
  expect(xmlOf(shifted, "xl/worksheets/sheet1.xml")).toMatch(
    /<tableParts count="1"><tablePart [^>]*\/><\/tableParts>/,
  );
  expect(Object.keys(unzipSync(shifted)).filter((part) => part.includes("/tables/"))).toHaveLength(1);
});

it("moves what the tables of other sheets compute", () => {
  const file = createWorkbook({
    ...PLAIN,
    sheets: [
      { name: "Rates", cells: { A5: { value: 2 } } },
      { name: "Offer", tables: [{ name: "Lines", range: "A1:A2" }], cells: { A1: { value: "price" } } },
    ],
  });
  const computed = (formula: string): string =>
    `><calculatedColumnFormula>${formula}</calculatedColumnFormula></tableColumn>`;
  const parts = Object.fromEntries(Object.entries(unzipSync(file)).map(([part, bytes]) => [part, bytes]));
  const table = xmlOf(file, "xl/tables/table1.xml").replace(
    /(<tableColumn [^>]*?)\/>/,
    `$1${computed("Rates!$A$5+A9")}`,
  );
  const bytes = zipParts({ ...parts, "xl/tables/table1.xml": table });
  const shifted = shiftSheet(bytes, 0, insertRow(1));
  expect(xmlOf(shifted, "xl/tables/table1.xml")).toBe(table.replace("$A$5+A9", "$A$6+A9"));
});

// Real workbooks lie beside this repository; LIST.md there names their origin.
const FOLDER = join(import.meta.dirname, "../../../shared/reference/xlsx");
const files = existsSync(FOLDER) ? readdirSync(FOLDER).filter((name) => name.endsWith(".xlsx")) : [];

describe.skipIf(files.length === 0).each(files)("in %s", { timeout: 60_000 }, (name) => {
  const bytes = existsSync(join(FOLDER, name))
    ? new Uint8Array(readFileSync(join(FOLDER, name)))
    : new Uint8Array();

  it("rows and columns that come and go again change nothing that the sheets hold", () => {
    const before = openWorkbook(bytes).model;
    for (const position of [...before.sheets.keys()].slice(0, 2)) {
      if (before.sheets[position]?.isProtected) continue;
      for (const axis of ["row", "column"] as const) {
        {
          const at = 3;
          const there = { kind: "insert", axis, at, count: 2 } as const;
          let bytesAfter: Uint8Array;
          try {
            bytesAfter = shiftSheet(shiftSheet(bytes, position, there), position, {
              ...there,
              kind: "delete",
            });
          } catch (error) {
            // What Excel refuses too: cells that belong together.
            expect(String(error)).toMatch(/must stay|needs its heading|keeps/);
            continue;
          }
          const after = openWorkbook(bytesAfter).model;
          expect(after.names, `${axis} ${at}`).toEqual(before.names);
          expect(after.tables.map(({ columns, range }) => [columns, range])).toEqual(
            before.tables.map(({ columns, range }) => [columns, range]),
          );
          for (const [index, sheet] of before.sheets.entries()) {
            const { cells, ...rest } = sheet;
            const { cells: cellsAfter, ...restAfter } = after.sheets[index] ?? sheet;
            const filled = (list: typeof cells): readonly unknown[] =>
              list.filter(({ value, formula }) => value !== null || formula);
            expect(filled(cellsAfter), `${axis} ${at} ${sheet.name}`).toEqual(filled(cells));
            expect(restAfter.merges).toEqual(rest.merges);
            expect(restAfter.notes).toEqual(rest.notes);
            expect(restAfter.columnWidths).toEqual(rest.columnWidths);
          }
        }
      }
    }
  });
});
