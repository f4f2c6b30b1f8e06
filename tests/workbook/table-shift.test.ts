import { strFromU8, unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import type { AxisShift } from "../../src/formula/axis-shift";
import { cellAddress } from "../../src/formula/address";
import { openWorkbook } from "../../src/workbook/read";
import { shiftSheet } from "../../src/workbook/shift-sheet";
import { insert, move, remove } from "./shifts";
import { tinyWorkbook } from "./tiny-package";

// What Excel does to a table when rows or columns of its sheet come, go and move; elements are those of ECMA-376 part 1, 18.5.1,
// the places are counted by hand.

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";
const OFFICE = "http://schemas.openxmlformats.org/officeDocument/2006/relationships";
const RELATIONSHIPS = "http://schemas.openxmlformats.org/package/2006/relationships";
const TABLE = "xl/tables/table1.xml";

const cell = (address: string, text: string): string =>
  `<c r="${address}" t="inlineStr"><is><t>${text}</t></is></c>`;
const number = (address: string, value: number): string => `<c r="${address}"><v>${String(value)}</v></c>`;
const sum = (row: number): string =>
  `<c r="D${String(row)}"><f>Offer[[#This Row],[price]]*$G$9</f><v>0</v></c>`;

/** A table in B2:D5: headings, two rows, a row of totals; it is filtered by its second column and sorted by its first. */
const MARKUP = `<table xmlns="${MAIN}" id="1" name="Offer" displayName="Offer" ref="B2:D5" totalsRowCount="1"><autoFilter ref="B2:D4"><filterColumn colId="1"><filters><filter val="3"/></filters></filterColumn></autoFilter><sortState ref="B3:D4"><sortCondition ref="B3:B4"/></sortState><tableColumns count="3"><tableColumn id="1" name="item" totalsRowLabel="Total"/><tableColumn id="7" name="price"/><tableColumn id="3" name="sum"><calculatedColumnFormula>Offer[[#This Row],[price]]*$G$9</calculatedColumnFormula><totalsRowFormula>SUM(Offer[sum])*$G$9</totalsRowFormula></tableColumn></tableColumns></table>`;
const ROWS =
  `<row r="2">${cell("B2", "item")}${cell("C2", "price")}${cell("D2", "sum")}</row>` +
  `<row r="3">${cell("B3", "red")}${number("C3", 3)}${sum(3)}</row>` +
  `<row r="4">${cell("B4", "blue")}${number("C4", 4)}${sum(4)}</row>` +
  `<row r="5">${cell("B5", "Total")}<c r="D5"><f>SUM(Offer[sum])*$G$9</f><v>0</v></c></row>`;

function file(markup = MARKUP, rows = ROWS): Uint8Array {
  return tinyWorkbook({
    rows,
    behind: '<tableParts count="1"><tablePart r:id="rId1"/></tableParts>',
    overrides: `<Override PartName="/${TABLE}" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.table+xml"/>`,
    parts: {
      [TABLE]: markup,
      "xl/worksheets/_rels/sheet1.xml.rels": `<Relationships xmlns="${RELATIONSHIPS}"><Relationship Id="rId1" Type="${OFFICE}/table" Target="../tables/table1.xml"/></Relationships>`,
    },
  });
}

const tableOf = (bytes: Uint8Array): string => strFromU8(unzipSync(bytes)[TABLE] ?? new Uint8Array());
const after = (shift: AxisShift, markup = MARKUP): string => tableOf(shiftSheet(file(markup), 0, shift));
/** Formulas and values of a workbook's first sheet by address. */
function contentOf(bytes: Uint8Array): Record<string, unknown> {
  const cells = openWorkbook(bytes).model.sheets[0]?.cells ?? [];
  return Object.fromEntries(
    cells
      .filter(({ value, formula }) => value !== null || formula !== undefined)
      .map(({ row, column, value, formula }) => [cellAddress(row, column), formula?.text ?? value]),
  );
}
const ref = (xml: string, local: string): readonly string[] =>
  [...xml.matchAll(new RegExp(`<${local} [^>]*?ref="([^"]*)"`, "g"))].map(([, found = ""]) => found);

describe("rows", () => {
  it.each<[string, AxisShift, readonly string[]]>([
    ["in front move everything", insert("row", 0, 2), ["B4:D7", "B4:D6", "B5:D6", "B5:B6"]],
    ["in front of the headings too", insert("row", 1), ["B3:D6", "B3:D5", "B4:D5", "B4:B5"]],
    ["inside make it longer", insert("row", 3), ["B2:D6", "B2:D5", "B3:D5", "B3:B5"]],
    ["behind change nothing", insert("row", 5), ["B2:D5", "B2:D4", "B3:D4", "B3:B4"]],
    ["of it go", remove("row", 3), ["B2:D4", "B2:D3", "B3:D3", "B3"]],
    ["of it change places", move("row", 3, 1, 2), ["B2:D5", "B2:D4", "B3:D4", "B3:B4"]],
  ])("%s", (_what, shift, places) => {
    const xml = after(shift);
    expect(["table", "autoFilter", "sortState", "sortCondition"].flatMap((local) => ref(xml, local))).toEqual(
      places,
    );
  });

  it("that come are computed like the others, with what the formula reads moved along", () => {
    const bytes = shiftSheet(file(), 0, insert("row", 3, 2));
    const formula = "Offer[[#This Row],[price]]*$G$11";
    expect(contentOf(bytes)).toMatchObject({ D3: formula, D4: formula, D5: formula, D6: formula });
    expect(tableOf(bytes)).toContain(`<calculatedColumnFormula>${formula}</calculatedColumnFormula>`);
    expect(tableOf(bytes)).toContain("<totalsRowFormula>SUM(Offer[sum])*$G$11</totalsRowFormula>");
    // In front of the table, and where columns come, nothing is computed.
    expect(Object.keys(contentOf(shiftSheet(file(), 0, insert("row", 1))))).toHaveLength(11);
    expect(contentOf(shiftSheet(file(), 0, insert("column", 4)))).not.toHaveProperty("E3");
    // An array formula fills one cell only (18.5.1.1).
    const array = MARKUP.replace("<calculatedColumnFormula>", '<calculatedColumnFormula array="1">');
    expect(contentOf(shiftSheet(file(array), 0, insert("row", 3)))).not.toHaveProperty("D4");
  });

  it("that come below a blank one, which the file leaves out, are computed too", () => {
    const blank = ROWS.replace(/<row r="3">.*?<\/row>/, "");
    const bytes = shiftSheet(file(MARKUP, blank), 0, insert("row", 3));
    expect(contentOf(bytes)).toMatchObject({ D4: "Offer[[#This Row],[price]]*$G$10", B5: "blue" });
  });

  it("at its end belong to it in front of the totals and not behind them", () => {
    expect(contentOf(shiftSheet(file(), 0, insert("row", 4)))).toHaveProperty("D5");
    expect(contentOf(shiftSheet(file(), 0, insert("row", 5)))).not.toHaveProperty("D6");
  });

  it("take the totals with them where these go", () => {
    const xml = after(remove("row", 4));
    expect(xml).toMatch(/ref="B2:D4" totalsRowShown="0">/);
    expect(xml).not.toContain("totalsRowCount");
    expect(after(remove("row", 3))).toContain('totalsRowCount="1"');
  });

  const HEADING = "the table Offer needs its heading row: take the whole table or none of it";
  const ONE = "the table Offer must keep one row at least";
  const PLACES = "the table Offer keeps its heading and its totals where they are";
  it.each<[string, AxisShift, string | undefined]>([
    ["its headings", remove("row", 1), HEADING],
    ["its headings and a row", remove("row", 0, 3), HEADING],
    ["all but its totals", remove("row", 0, 4), HEADING],
    ["all its rows", remove("row", 2, 2), ONE],
    ["all its rows and the totals", remove("row", 2, 5), ONE],
    ["a row and the totals", remove("row", 3, 2), undefined],
    ["all of it", remove("row", 1, 4), undefined],
    ["rows in front", remove("row", 0), undefined],
    ["rows behind", remove("row", 5), undefined],
    ["its headings, moved", move("row", 1, 1, 9), HEADING],
    ["the totals, moved", move("row", 4, 1, 9), PLACES],
    ["all of it, moved", move("row", 1, 4, 9), undefined],
    ["a row, moved in front", move("row", 3, 1, 0), undefined],
  ])("that go or move and are %s", (_what, shift, fault) => {
    const act = (): unknown => shiftSheet(file(), 0, shift);
    if (fault === undefined) expect(act).not.toThrow();
    else expect(act).toThrow(fault);
  });
});

describe("columns", () => {
  const names = (xml: string): readonly string[] =>
    [...xml.matchAll(/<tableColumn [^>]*?name="([^"]*)"/g)].map(([, name = ""]) => name);
  const filtered = (xml: string): string | undefined => /colId="(\d+)"/.exec(xml)?.[1];

  it("that come have a number and a name of their own, in the cell too", () => {
    const taken = MARKUP.replace('name="item"', 'name="COLUMN1"');
    const xml = after(insert("column", 2, 2), taken);
    expect(names(xml)).toEqual(["COLUMN1", "Column2", "Column3", "price", "sum"]);
    expect(xml).toContain('<tableColumns count="5">');
    // Numbers of columns differ from each other in a table (18.5.1.3): those beyond the greatest are free.
    expect(xml).toMatch(/id="8" name="Column2".*id="9" name="Column3"/);
    expect(ref(xml, "table")).toEqual(["B2:F5"]);
    expect(filtered(xml)).toBe("3");
    expect(contentOf(shiftSheet(file(), 0, insert("column", 2, 2)))).toMatchObject({
      B2: "item",
      C2: "Column1",
      D2: "Column2",
      E2: "price",
    });
  });

  it("that come in front of the table or behind it are none of its", () => {
    for (const [at, place] of [
      [1, "C2:E5"],
      [0, "C2:E5"],
      [4, "B2:D5"],
    ] as const) {
      const xml = after(insert("column", at));
      expect(names(xml)).toEqual(["item", "price", "sum"]);
      expect(ref(xml, "table")).toEqual([place]);
      // What it is filtered and sorted by stays.
      expect(filtered(xml)).toBe("1");
      expect(ref(xml, "sortCondition")).toEqual([at < 2 ? "C3:C4" : "B3:B4"]);
    }
    expect(names(after(insert("column", 3)))).toEqual(["item", "price", "Column1", "sum"]);
  });

  it("of a table without headings get their names in the table only", () => {
    const bare = MARKUP.replace('ref="B2:D5"', 'ref="B3:D5" headerRowCount="0"').replace(
      /<autoFilter.*<\/sortState>/,
      "",
    );
    const bytes = shiftSheet(file(bare), 0, insert("column", 2));
    expect(names(tableOf(bytes))).toContain("Column1");
    expect(contentOf(bytes)).toMatchObject({ B3: "red", D3: 3 });
    expect(contentOf(bytes)).not.toHaveProperty("C3");
  });

  it("that go take what filters and sorts by them along", () => {
    const without = after(remove("column", 2));
    expect(names(without)).toEqual(["item", "sum"]);
    expect(filtered(without)).toBeUndefined();
    expect(ref(without, "sortCondition")).toEqual(["B3:B4"]);
    const first = after(remove("column", 1));
    expect(names(first)).toEqual(["price", "sum"]);
    expect(first).toContain('<tableColumns count="2">');
    expect(filtered(first)).toBe("0");
    expect(first).not.toContain("sort");
    const left = after(remove("column", 0, 2));
    expect(ref(left, "table")).toEqual(["A2:B5"]);
    expect(names(left)).toEqual(["price", "sum"]);
  });

  it("change places inside it with their names, formulas and filters", () => {
    const xml = after(move("column", 3, 1, 1));
    expect(names(xml)).toEqual(["sum", "item", "price"]);
    expect(filtered(xml)).toBe("2");
    expect(xml).toMatch(/<tableColumn id="3" name="sum"><calculatedColumnFormula>.*<tableColumn id="1"/);
    expect(names(after(move("column", 1, 1, 4)))).toEqual(["price", "sum", "item"]);
  });

  it.each<[string, AxisShift, boolean]>([
    ["one of it, out of it", move("column", 2, 1, 0), false],
    ["one of it, far behind", move("column", 2, 1, 5), false],
    ["one of it, to its end", move("column", 2, 1, 4), true],
    ["one of it, to its beginning", move("column", 2, 1, 1), true],
    ["another, into it", move("column", 6, 1, 2), false],
    ["another, to its last column", move("column", 6, 1, 3), false],
    ["another, in front of it", move("column", 6, 1, 1), true],
    ["another, behind it", move("column", 6, 1, 4), true],
    ["one left of it, behind it", move("column", 0, 1, 5), true],
    ["one left of it, into it", move("column", 0, 1, 3), false],
    ["one left of it with its first", move("column", 0, 2, 6), false],
    ["its last with one behind it", move("column", 3, 2, 0), false],
    ["all of it", move("column", 1, 3, 7), true],
    ["all of it and its neighbours", move("column", 0, 5, 9), true],
  ])("move or not: %s", (_what, shift, isFine) => {
    const act = (): unknown => shiftSheet(file(), 0, shift);
    if (isFine) expect(act).not.toThrow();
    else expect(act).toThrow("the table Offer keeps its columns together: move them inside the table only");
  });
});

it("reads and writes names and formulas that markup escapes", () => {
  const escaped = MARKUP.replaceAll("price", "a&amp;b").replace("*$G$9<", "&amp;$G$9&lt;&gt;1<");
  const xml = after(insert("row", 6), escaped);
  expect(xml).toMatch(
    /<calculatedColumnFormula>Offer\[\[#This Row\],\[a&amp;b\]\]&amp;\$G\$10&lt;(&gt;|>)1</,
  );
  expect(xml).toContain('name="a&amp;b"');
});
