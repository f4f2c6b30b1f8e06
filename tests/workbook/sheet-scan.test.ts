import { describe, expect, it } from "vitest";
import { isFillMark, type ScannedCell, type ScannedRow, scanSheet } from "../../src/workbook/sheet-scan";

const MAIN = "http://schemas.openxmlformats.org/spreadsheetml/2006/main";

function scan(
  rows: string,
  around: readonly [string, string] = ["", ""],
): {
  readonly rows: readonly ScannedRow[];
  readonly cells: readonly ScannedCell[];
  readonly opened: readonly string[];
  readonly closed: readonly string[];
} {
  const found: ScannedRow[] = [];
  const opened: string[] = [];
  const closed: string[] = [];
  const xml = `<worksheet xmlns="${MAIN}" xmlns:o="urn:other">${around[0]}<sheetData>${rows}</sheetData>${around[1]}</worksheet>`;
  scanSheet(xml, "sheet1.xml", "Offer", {
    row: (row) => found.push(row),
    open: (element) => opened.push(element.name),
    close: (element) => closed.push(element.name),
  });
  return { rows: found, cells: found.flatMap(({ cells }) => cells), opened, closed };
}

// Where rows and cells are, with and without their attribute `r`: ECMA-376 part 1, 18.3.1.73 and 18.3.1.4.
describe("the place of a cell", () => {
  const places = (rows: string): readonly string[] =>
    scan(rows).cells.map(({ row, column }) => `${String(row)} ${String(column)}`);

  it.each<[string, readonly string[]]>([
    ['<row r="3"><c r="B3"/><c r="D3"/></row>', ["2 1", "2 3"]],
    ['<row r="3"><c/><c r="D3"/><c/></row><row><c/></row>', ["2 0", "2 3", "2 4", "3 0"]],
    ['<row r="3"><c r="D3"/><c r="A3"/><c/></row>', ["2 3", "2 0", "2 1"]],
    ['<row r="3"><c r="D3"/></row><row r="1"><c r="A1"/></row><row><c/></row>', ["2 3", "0 0", "1 0"]],
    ['<row r="1048576"><c r="XFD1048576"/></row>', ["1048575 16383"]],
  ])("of %s", (rows, found) => {
    expect(places(rows)).toEqual(found);
  });

  const damaged = 'the file is damaged: sheet "Offer" has ';
  it.each([
    ['<row r="0"/>', "a row outside the sheet"],
    ['<row r="x"/>', "a row outside the sheet"],
    ['<row r="1048577"/>', "a row outside the sheet"],
    ['<row r="1048576"/><row/>', "a row outside the sheet"],
    ['<row r="2"/><row r="2"/>', "row 2 twice"],
    ['<row r="2"/><row r="1"/><row r="2"/>', "row 2 twice"],
    ['<row r="2"/><row r="1"/><row/>', "row 2 twice"],
    ['<row r="3"/><row r="1"/><row r="2"/><row r="2"/>', "row 2 twice"],
    ['<row r="2"><c r="B2"/><c r="B2"/></row>', "cell B2 twice"],
    ['<row r="2"><c r="B2"/><c r="A2"/><c/></row>', "cell B2 twice"],
    ['<row r="2"><c r="C2"/><c r="A2"/><c r="B2"/><c r="B2"/></row>', "cell B2 twice"],
    ['<row r="2"><c r="B2"/><c r="A2"/><c r="D2"/><c r="D2"/></row>', "cell D2 twice"],
    ['<row r="2"><c r="B3"/></row>', "a cell in row 2 that belongs elsewhere"],
    ['<row r="2"><c r="nowhere"/></row>', "a cell in row 2 that belongs elsewhere"],
    ['<row r="2"><c r="XFE2"/></row>', "a cell in row 2 that belongs elsewhere"],
    ['<row r="2"><c r="XFD2"/><c/></row>', "a cell in row 2 that belongs elsewhere"],
  ])("is refused in %s", (rows, what) => {
    expect(() => scan(rows)).toThrow(damaged + what);
  });

  it("may be the same in another row", () => {
    expect(
      places('<row r="2"><c r="B2"/><c r="A2"/></row><row r="3"><c r="B3"/><c r="A3"/></row>'),
    ).toHaveLength(4);
  });
});

describe("what a cell holds", () => {
  it("is told apart: formula, value, text inside and others", () => {
    const [cell] = scan(
      '<row r="1"><c r="A1"><f>B1</f><v>1</v><is><r><t>a</t></r><rPh sb="0" eb="1"><t>HINT</t></rPh><r><t>b</t></r></is><extLst><ext/></extLst><o:v>2</o:v></c></row>',
    ).cells;
    expect([cell?.formula?.text, cell?.value?.text, cell?.inline?.name, cell?.inlineText]).toEqual([
      "B1",
      "1",
      "is",
      "ab",
    ]);
    expect(cell?.others.map(({ name }) => name)).toEqual(["extLst", "o:v"]);
  });

  it("is nothing of the cell before", () => {
    const [, next] = scan(
      '<row r="1"><c r="A1"><f>B1</f><v>1</v><is><t>a</t></is><extLst/></c><c r="B1"/></row>',
    ).cells;
    expect(next).toMatchObject({
      formula: undefined,
      value: undefined,
      inline: undefined,
      inlineText: "",
      others: [],
    });
  });

  it.each([
    ["<f/>", true],
    ["<f></f>", true],
    ['<f t="normal"/>', true],
    ["<f>A1</f>", false],
    ['<f t="shared" si="0"/>', false],
    ["<v>1</v>", false],
  ])("marks it as filled from elsewhere: %s, %s", (content, isMarked) => {
    const [cell] = scan(`<row r="1"><c r="A1">${content}</c></row>`).cells;
    expect(cell && isFillMark(cell)).toBe(isMarked);
  });

  // XML 1.0, 2.10: white space counts where xml:space says so, there and in what it encloses.
  it.each([
    ["<t> a b </t>", "a b"],
    ["<t>\t\n a\n\t </t>", "a"],
    ["<t> </t>", ""],
    ['<t xml:space="preserve"> a </t>', " a "],
    ['<r xml:space="preserve"><t> a </t></r>', " a "],
    ['<r xml:space="preserve"><t xml:space="default"> a </t></r>', "a"],
    ["<t>\u00a0a\u00a0</t>", "\u00a0a\u00a0"],
  ])("has the spaces that count: %j", (content, text) => {
    expect(
      scan(`<row r="1"><c r="A1" t="inlineStr"><is>${content}</is></c></row>`).cells[0]?.inlineText,
    ).toBe(text);
  });
});

it("tells what stands around the rows, and nothing of what stands in them", () => {
  const { opened, closed } = scan('<row r="1"><c r="A1"><v>1</v></c></row>', [
    "<cols><col/></cols>",
    "<pageMargins/>",
  ]);
  expect(opened).toEqual(["worksheet", "cols", "col", "sheetData", "pageMargins"]);
  expect(closed).toEqual(["col", "cols", "sheetData", "pageMargins", "worksheet"]);
  // A row elsewhere is none of the sheet's.
  expect(scan("", ["", "<o:rows><row/></o:rows>"]).opened).toContain("row");
});
