import fc from "fast-check";
import { unzipSync } from "fflate";
import { describe, expect, it } from "vitest";
import type { CellRange } from "../../src/formula/address";
import type { CellChange, CellFormula, CellValue, WorkbookCell } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";
import { type TinyWorkbook, tinyWorkbook } from "./tiny-package";

const SHEET = "xl/worksheets/sheet1.xml";
type Change = Omit<CellChange, "sheet">;

/** The rows' markup after some changes; every other part must be as it was. */
function patchedRows(tiny: TinyWorkbook, changes: readonly Change[]): string {
  const opened = openWorkbook(tinyWorkbook(tiny));
  const bytes = opened.patched(changes.map((change) => ({ sheet: 0, ...change })));
  const before = unzipSync(opened.patched([]));
  const after = unzipSync(bytes);
  for (const name of Object.keys(before)) if (name !== SHEET) expect(after[name]).toEqual(before[name]);
  expect(Object.keys(after)).toEqual(Object.keys(before));
  const text = openWorkbook(bytes).parts.readText(SHEET);
  return text.slice(text.indexOf("<sheetData"), text.indexOf("</worksheet>"));
}
const data = (rows: string): string => `<sheetData>${rows}</sheetData>`;

function cellsAfter(tiny: TinyWorkbook, changes: readonly Change[]): readonly WorkbookCell[] {
  const bytes = openWorkbook(tinyWorkbook(tiny)).patched(changes.map((change) => ({ sheet: 0, ...change })));
  return openWorkbook(bytes).model.sheets[0]?.cells ?? [];
}
const range = (firstRow: number, firstColumn: number, lastRow: number, lastColumn: number): CellRange => {
  return { firstRow, firstColumn, lastRow, lastColumn };
};

describe("changing values", () => {
  const rows =
    '<row r="2" spans="1:4" x="y"><c r="A2" s="0" t="s"><v>0</v></c><!-- c --><c r="B2" s="0"><f ca="1">A1+1</f><v>1</v></c><c r="D2" t="str" vm="4"><f>X</f><v>a</v><extLst><ext uri="u"/></extLst></c></row>';
  const tiny: TinyWorkbook = { rows, strings: "<si><t>old</t></si>" };

  it("touches nothing where a cell already holds the value", () => {
    const opened = openWorkbook(tinyWorkbook(tiny));
    const same = [
      { sheet: 0, row: 1, column: 0, value: "old" },
      { sheet: 0, row: 1, column: 1, value: 1, formula: { text: "A1+1", kind: "normal" } as const },
      { sheet: 0, row: 7, column: 7, value: null },
      { sheet: 0, row: 1, column: 0 },
    ];
    expect(opened.patched(same)).toEqual(tinyWorkbook(tiny));
  });

  it("changes only the value and its type, and drops what belonged to the old value", () => {
    const changes = [
      { row: 1, column: 0, value: 5 },
      { row: 1, column: 1, value: "é & <b>" },
      { row: 1, column: 3, value: { error: "#N/A" } },
    ];
    expect(patchedRows(tiny, changes)).toBe(
      data(
        '<row r="2" spans="1:4" x="y"><c r="A2" s="0"><v>5</v></c><!-- c --><c r="B2" s="0" t="str"><f ca="1">A1+1</f><v>é &amp; &lt;b&gt;</v></c><c r="D2" t="e"><f>X</f><v>#N/A</v><extLst><ext uri="u"/></extLst></c></row>',
      ),
    );
  });

  it("inserts cells and rows in their order and widens what says where cells are", () => {
    const changes = [
      { row: 1, column: 4, value: true },
      { row: 1, column: 2, value: " a\n" },
      { row: 0, column: 2, value: 1e21 },
      { row: 5, column: 0, value: -0 },
      { row: 5, column: 26, value: 1 / 3 },
    ];
    const found = patchedRows({ ...tiny, before: '<dimension ref="A2:D2"/>' }, changes);
    expect(found).toBe(
      data(
        '<row r="1"><c r="C1"><v>1E+21</v></c></row><row r="2" spans="1:5" x="y"><c r="A2" s="0" t="s"><v>0</v></c><!-- c --><c r="B2" s="0"><f ca="1">A1+1</f><v>1</v></c><c r="C2" t="inlineStr"><is><t xml:space="preserve"> a\n</t></is></c><c r="D2" t="str" vm="4"><f>X</f><v>a</v><extLst><ext uri="u"/></extLst></c><c r="E2" t="b"><v>1</v></c></row><row r="6"><c r="A6"><v>0</v></c><c r="AA6"><v>0.3333333333333333</v></c></row>',
      ),
    );
    const opened = openWorkbook(tinyWorkbook({ ...tiny, before: '<dimension ref="A2:D2"/>' }));
    const bytes = opened.patched(changes.map((change) => ({ sheet: 0, ...change })));
    expect(openWorkbook(bytes).parts.readText(SHEET)).toContain('<dimension ref="A1:AA6"/>');
  });

  it("opens rows and sheets that close themselves", () => {
    expect(patchedRows({ rows: '<row r="3" ht="20"/>' }, [{ row: 2, column: 1, value: 1 }])).toBe(
      data('<row r="3" ht="20"><c r="B3"><v>1</v></c></row>'),
    );
    const empty =
      '<worksheet xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><sheetData/></worksheet>';
    expect(patchedRows({ parts: { [SHEET]: empty } }, [{ row: 2, column: 1, value: 1 }])).toBe(
      data('<row r="3"><c r="B3"><v>1</v></c></row>'),
    );
  });

  it("removes values, keeping a cell that has a look", () => {
    const two =
      '<row r="1"><c r="A1" s="0"><v>1</v></c><c r="B1"><v>2</v></c><c r="C1"><f>A1</f><v>1</v></c></row>';
    const changes = [0, 1, 2].map((column) => ({ row: 0, column, value: null }));
    expect(patchedRows({ rows: two }, changes)).toBe(
      data('<row r="1"><c r="A1" s="0"/><c r="C1"><f>A1</f></c></row>'),
    );
  });

  it("gives new cells the look of their row or column", () => {
    const before = '<cols><col min="2" max="3" width="9" style="1"/></cols>';
    const styles = "<cellXfs><xf/><xf/><xf/></cellXfs>";
    const added = patchedRows({ before, styles, rows: '<row r="1" s="2" customFormat="1"/>' }, [
      { row: 0, column: 1, value: 1 },
      { row: 1, column: 1, value: 1 },
      { row: 1, column: 3, value: 1 },
    ]);
    expect(added).toContain('<c r="B1" s="2">');
    expect(added).toContain('<c r="B2" s="1">');
    expect(added).toContain('<c r="D2"><v>');
  });

  it("stores errors that old versions do not know as #VALUE!", () => {
    expect(patchedRows({}, [{ row: 0, column: 0, value: { error: "#SPILL!" } }])).toContain(
      't="e"><v>#VALUE!</v>',
    );
  });

  it("takes the last of several changes to one cell", () => {
    expect(
      cellsAfter({}, [
        { row: 0, column: 0, value: 1 },
        { row: 0, column: 0, value: 2 },
      ])[0]?.value,
    ).toBe(2);
  });

  it("keeps every value", { timeout: 60_000 }, () => {
    const value = fc.oneof(
      fc.double({ noNaN: true, noDefaultInfinity: true }),
      fc.string({ unit: "binary", maxLength: 40 }),
      fc.boolean(),
      fc.constant(null),
      fc.constantFrom("#N/A", "#REF!", "#NAME?").map((error) => ({ error })),
    );
    const places = fc.uniqueArray(fc.record({ row: fc.nat(8), column: fc.nat(8), value }), {
      selector: ({ row, column }) => row * 100 + column,
      maxLength: 20,
    });
    fc.assert(
      fc.property(places, (changes) => {
        const after = new Map(
          cellsAfter(tiny, changes).map((cell) => [`${String(cell.row)},${String(cell.column)}`, cell]),
        );
        for (const { row, column, value: wanted } of changes) {
          const found = after.get(`${String(row)},${String(column)}`)?.value ?? null;
          expect(found).toEqual(wanted === 0 ? 0 : wanted);
        }
        const order = [...after.values()].map((cell) => cell.row * 100 + cell.column);
        expect(order).toEqual([...order].sort((a, b) => a - b));
      }),
      { numRuns: 100 },
    );
  });
});

describe("changing formulas", () => {
  const chain: TinyWorkbook = {
    overrides:
      '<Override PartName="/xl/calcChain.xml" ContentType="application/vnd.openxmlformats-officedocument.spreadsheetml.calcChain+xml"/>',
    links:
      '<Relationship Id="rId4" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/calcChain" Target="calcChain.xml"/>',
    parts: {
      "xl/calcChain.xml": '<calcChain xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>',
    },
  };
  const patch = (tiny: TinyWorkbook, changes: readonly Change[]): Uint8Array => {
    return openWorkbook(tinyWorkbook(tiny)).patched(changes.map((change) => ({ sheet: 0, ...change })));
  };
  const rows = '<row r="1"><c r="A1"><f>B1</f><v>1</v></c><c r="B1" t="s"><v>0</v></c></row>';
  const normal = (text: string): CellFormula => ({ text, kind: "normal" });

  it("keeps the calculation chain for other values and other texts, and drops it where formulas come or go", () => {
    const tiny = { ...chain, rows, strings: "<si><t>x</t></si>" };
    const has = (changes: readonly Change[]): boolean => {
      const names = Object.keys(unzipSync(patch(tiny, changes)));
      const { parts } = openWorkbook(patch(tiny, changes));
      const isListed = parts.readText("[Content_Types].xml").includes("calcChain");
      expect(parts.linked("xl/workbook.xml", "calcChain").length).toBe(isListed ? 1 : 0);
      expect(names.includes("xl/calcChain.xml")).toBe(isListed);
      return isListed;
    };
    expect(has([{ row: 0, column: 0, value: 2 }])).toBe(true);
    expect(has([{ row: 0, column: 0, formula: normal("B1+1") }])).toBe(true);
    expect(has([{ row: 0, column: 0, formula: null }])).toBe(false);
    expect(has([{ row: 4, column: 0, formula: normal("B1"), value: 3 }])).toBe(false);
  });

  it("writes and removes formulas", () => {
    const changes = [
      { row: 0, column: 0, formula: null },
      { row: 0, column: 1, formula: normal('IF(A1<2,"a&b","_x0041_")') },
      { row: 2, column: 0, formula: normal("SUM(A1:A2)"), value: 3 },
    ];
    const tiny = { rows, strings: "<si><t>x</t></si>" };
    expect(patchedRows(tiny, changes)).toBe(
      data(
        '<row r="1"><c r="A1"><v>1</v></c><c r="B1" t="str"><f>IF(A1&lt;2,"a&amp;b","_x005F_x0041_")</f><v>x</v></c></row><row r="3"><c r="A3"><f>SUM(A1:A2)</f><v>3</v></c></row>',
      ),
    );
    expect(cellsAfter(tiny, changes)[1]?.formula?.text).toBe('IF(A1<2,"a&b","_x0041_")');
  });

  it("turns the text that a formula gave into a constant text", () => {
    const text = '<row r="1"><c r="A1" t="str"><f>B1</f><v>x</v></c></row>';
    expect(patchedRows({ rows: text }, [{ row: 0, column: 0, formula: null }])).toBe(
      data('<row r="1"><c r="A1" t="inlineStr"><is><t>x</t></is></c></row>'),
    );
  });

  it("keeps the cells that shared the formula of a cell that loses it", () => {
    const shared =
      '<row r="1"><c r="A1"><f t="shared" ref="A1:A4" si="0">B1*2</f><v>1</v></c></row><row r="2"><c r="A2"><f t="shared" si="0"/><v>2</v></c></row><row r="3"><c r="A3"><f t="shared" si="0"/><v>3</v></c></row>' +
      '<row r="4"><c r="A4"><f t="shared" ref="A4:A5" si="0">C4</f><v>4</v></c></row><row r="5"><c r="A5"><f t="shared" si="0"/><v>5</v></c></row>';
    for (const formula of [null, normal("9")]) {
      const after = cellsAfter({ rows: shared }, [
        { row: 0, column: 0, formula },
        { row: 2, column: 0, value: 30 },
      ]);
      expect(after.map((cell) => cell.formula?.text)).toEqual([formula?.text, "B2*2", "B3*2", "C4", "C5"]);
      expect(after.map((cell) => cell.value)).toEqual([1, 2, 30, 4, 5]);
    }
    expect(patchedRows({ rows: shared }, [{ row: 1, column: 0, formula: null }])).toBe(
      data(shared.replace('<f t="shared" si="0"/><v>2</v>', "<v>2</v>")),
    );
    expect(patchedRows({ rows: shared }, [{ row: 0, column: 0, value: 8 }])).toBe(
      data(shared.replace("<v>1</v>", "<v>8</v>")),
    );
  });

  it("takes the marks of a volatile array from the cells that it leaves", () => {
    // As Excel stores an array formula that is computed at every change: each of its cells has a formula without text.
    const rows =
      '<row r="1"><c r="A1" cm="1"><f t="array" ref="A1:A3" ca="1">C1:C3</f><v>1</v></c></row>' +
      '<row r="2"><c r="A2"><f ca="1"/><v>2</v></c></row>' +
      '<row r="3"><c r="A3" s="0" t="str"><f ca="1"/><v>x</v></c></row>';
    const first = { row: 0, column: 0 };
    const shorter = [
      { ...first, range: range(0, 0, 1, 0) },
      { row: 2, column: 0, value: null },
    ];
    expect(patchedRows({ rows }, shorter)).toBe(
      data(
        '<row r="1"><c r="A1" cm="1"><f t="array" ref="A1:A2" ca="1">C1:C3</f><v>1</v></c></row>' +
          '<row r="2"><c r="A2"><f ca="1"/><v>2</v></c></row><row r="3"><c r="A3" s="0"/></row>',
      ),
    );
    // A formula that becomes its value leaves all its cells, which keep what they show.
    expect(patchedRows({ rows }, [{ ...first, formula: null }])).toBe(
      data(
        '<row r="1"><c r="A1"><v>1</v></c></row><row r="2"><c r="A2"><v>2</v></c></row>' +
          '<row r="3"><c r="A3" s="0" t="inlineStr"><is><t>x</t></is></c></row>',
      ),
    );
  });

  it("changes the extent of a formula that fills a range, and stores its texts as results", () => {
    const array =
      '<row r="1"><c r="A1" cm="1"><f t="array" ref="A1:A2" ca="1">C1:C3</f><v>1</v></c></row><row r="2"><c r="A2"><v>2</v></c></row>';
    const changes = [
      { row: 0, column: 0, range: range(0, 0, 2, 0) },
      { row: 1, column: 0, value: "b" },
      { row: 2, column: 0, value: "c" },
      { row: 3, column: 0, value: "d" },
    ];
    expect(patchedRows({ rows: array }, changes)).toBe(
      data(
        '<row r="1"><c r="A1" cm="1"><f t="array" ref="A1:A3" ca="1">C1:C3</f><v>1</v></c></row><row r="2"><c r="A2" t="str"><v>b</v></c></row><row r="3"><c r="A3" t="str"><v>c</v></c></row><row r="4"><c r="A4" t="inlineStr"><is><t>d</t></is></c></row>',
      ),
    );
  });

  it.each([
    ["no metadata", {}],
    [
      "metadata of another kind",
      {
        parts: {
          "xl/metadata.xml":
            '<m:metadata xmlns:m="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><m:metadataTypes count="1"><m:metadataType name="XLRICHVALUE"/></m:metadataTypes><m:futureMetadata name="XLRICHVALUE" count="1"><m:bk/></m:futureMetadata><m:valueMetadata count="1"><m:bk><m:rc t="1" v="0"/></m:bk></m:valueMetadata></m:metadata>',
        },
        links:
          '<Relationship Id="rId4" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata" Target="metadata.xml"/>',
      },
    ],
    [
      "empty metadata",
      {
        parts: {
          "xl/metadata.xml": '<metadata xmlns="http://schemas.openxmlformats.org/spreadsheetml/2006/main"/>',
        },
        links:
          '<Relationship Id="rId4" Type="http://schemas.openxmlformats.org/officeDocument/2006/relationships/sheetMetadata" Target="/xl/metadata.xml"/>',
      },
    ],
  ] satisfies [string, TinyWorkbook][])("writes formulas that spill into a file with %s", (_name, tiny) => {
    const formula: CellFormula = { text: "_xlfn.SEQUENCE(2)", kind: "dynamic", range: range(0, 0, 1, 0) };
    const bytes = patch({ ...tiny, rows, strings: "<si><t>x</t></si>" }, [
      { row: 0, column: 0, formula, value: 1 },
      { row: 1, column: 0, value: 2 },
      { row: 0, column: 3, formula: { text: "A1:A2", kind: "dynamic", range: range(0, 3, 1, 3) }, value: 1 },
    ]);
    const opened = openWorkbook(bytes);
    const found = opened.model.sheets[0]?.cells.map((cell) => cell.formula) ?? [];
    expect(found).toEqual([
      formula,
      undefined,
      { text: "A1:A2", kind: "dynamic", range: range(0, 3, 1, 3) },
      undefined,
    ]);
    expect(opened.parts.linked("xl/workbook.xml", "sheetMetadata")).toEqual(["xl/metadata.xml"]);
    const again = openWorkbook(
      opened.patched([{ sheet: 0, row: 5, column: 5, formula: { text: "A1:A2", kind: "dynamic" } }]),
    );
    expect(again.parts.read("xl/metadata.xml")).toEqual(opened.parts.read("xl/metadata.xml"));
    const plain = openWorkbook(opened.patched([{ sheet: 0, row: 0, column: 0, formula: normal("1") }]));
    expect(plain.model.sheets[0]?.cells[0]?.formula).toEqual(normal("1"));
  });
});

describe("refusing changes", () => {
  const dynamic = (extent: CellRange): CellFormula => ({ text: "A1", kind: "dynamic", range: extent });
  it.each<[string, Partial<CellChange>, RegExp]>([
    ["a sheet that is not there", { sheet: 3 }, /no sheet 4/],
    ["a row outside", { row: 1_048_576 }, /outside/],
    ["a column outside", { column: -1 }, /outside/],
    ["half a row", { row: 0.5 }, /outside/],
    ["a text that is too long", { value: "x".repeat(32_768) }, /32768 characters: Excel allows 32767/],
    ["no number", { value: NaN }, /not finite/],
    ["infinity", { value: -Infinity }, /not finite/],
    ["a formula with its sign", { formula: { text: "=A1", kind: "normal" } }, /without its equals sign/],
    ["an empty formula", { formula: { text: " ", kind: "normal" } }, /without its equals sign/],
    ["a formula that is too long", { formula: { text: "1+".repeat(5_000), kind: "normal" } }, /8192/],
    ["a what-if table", { formula: { text: "TABLE(A1,)", kind: "dataTable" } }, /what-if/],
    ["a range that begins elsewhere", { range: range(1, 0, 2, 0) }, /begin/],
    ["a range that ends before it begins", { range: range(0, 0, -1, 0) }, /begin/],
    ["a range that leaves the sheet", { formula: dynamic(range(0, 0, 0, 16_384)) }, /begin/],
  ])("%s", (_name, change, sentence) => {
    const opened = openWorkbook(tinyWorkbook());
    expect(() => opened.patched([{ sheet: 0, row: 0, column: 0, ...change }])).toThrow(sentence);
  });

  it("accepts the longest text", () => {
    const value: CellValue = "x".repeat(32_767);
    expect(cellsAfter({}, [{ row: 0, column: 0, value }])[0]?.value).toBe(value);
  });
});
