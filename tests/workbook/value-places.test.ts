import fc from "fast-check";
import { readFileSync } from "node:fs";
import { expect, it } from "vitest";
import type { CellChange } from "../../src/workbook/model";
import { patchWorkbook } from "../../src/workbook/patch";
import { CellReader } from "../../src/workbook/read-cell";
import { openWorkbook, type OpenWorkbook } from "../../src/workbook/read";
import { readSheet } from "../../src/workbook/read-sheet";
import { valueEdits, ValuePlaces } from "../../src/workbook/value-places";
import { tinyWorkbook } from "./tiny-package";

/** Where the values of a workbook's first sheet stand. */
function placesOf({ parts, model }: OpenWorkbook): ValuePlaces {
  const places = new ValuePlaces();
  const [sheet] = model.sheets;
  if (sheet === undefined) throw new Error("there is no sheet");
  const reader = new CellReader(Array<string>(10_000).fill(""), new Set(), false, model.styles);
  readSheet(parts, sheet.part, sheet.name, "visible", reader, places);
  return places;
}

const rows =
  '<row r="1" spans="1:9"><c r="A1"><v>1</v></c><c  r="B1" s=\'0\' ><f ca="1">A1+1</f><v>2</v></c>' +
  '<c r="C1" t="str"><f>A1&amp;"x"</f><v xml:space="preserve"> a</v></c><c r="D1" t="b"><f>A1=1</f><v>1</v></c>' +
  '<c r="E1" t="e"><f>1/0</f><v>#DIV/0!</v></c><c r="F1" t="e" vm="1"><f>1/0</f><v>#VALUE!</v></c>' +
  '<c r="G1"><f>A1*2</f></c><c r="H1" t="n"><f t="shared" ref="H1:H2" si="0">A1*3</f><v>3</v></c>' +
  '<c r="I1" t="inlineStr"><is><t>text</t></is></c><c r="J1" t="str"><v>plain</v></c></row>' +
  '<row r="2"><c r="B2" t="s"><v>0</v></c><c r="H2"><f t="shared" si="0"/><v>6</v></c></row>';
const tiny = openWorkbook(tinyWorkbook({ rows, strings: "<si><t>shared</t></si>" }));
const sample = openWorkbook(new Uint8Array(readFileSync("sample-workbooks/price-list.xlsx")));

const value = fc.oneof(
  fc.integer({ min: 0, max: 3 }),
  fc.double({ noNaN: true, noDefaultInfinity: true }),
  fc.boolean(),
  fc.constantFrom("", " a", "a<b&c", "text", { error: "#N/A" }, { error: "#SPILL!" }, null),
);

it.each([
  ["a small workbook", tiny],
  ["a sample", sample],
])("writes the values of %s as walking over its sheet does", (_, workbook) => {
  const [sheet] = workbook.model.sheets;
  const places = placesOf(workbook);
  const cells = sheet?.cells ?? [];
  let quick = 0;
  const change = fc
    .tuple(fc.nat(cells.length - 1), value, fc.boolean())
    .map(([at, given, isOfItsKind]): CellChange => {
      const { row = 0, column = 0, value: old = null } = cells[at] ?? {};
      const isSameKind = typeof given === typeof old && (given === null) === (old === null);
      return { sheet: 0, row, column, value: isOfItsKind && !isSameKind ? old : given };
    });
  fc.assert(
    fc.property(fc.array(change, { minLength: 1, maxLength: 6 }), (changes) => {
      if (sheet === undefined || valueEdits(sheet, places, changes) === undefined) return;
      quick++;
      const { parts, model } = workbook;
      const known = new Map([[sheet.part, places]]);
      expect(patchWorkbook({ parts, model, places: known }, changes)).toEqual(
        patchWorkbook({ parts, model }, changes),
      );
    }),
    { numRuns: 300 },
  );
  expect(quick).toBeGreaterThan(20);
});

it("leaves whatever is more than a value to that walk", () => {
  const [sheet] = tiny.model.sheets;
  const places = placesOf(tiny);
  const at = (row: number, column: number, content: Omit<CellChange, "sheet" | "row" | "column">): unknown =>
    sheet && valueEdits(sheet, places, [{ sheet: 0, row, column, ...content }]);
  expect(at(0, 1, { value: 5 })).toHaveLength(1);
  expect(at(0, 1, { value: 2 })).toEqual([]);
  // The text that a formula gives is written as quickly, spaces and all (ECMA-376 part 1, 18.18.11).
  expect(at(0, 2, { value: " b " })).toMatchObject([{ text: '<v xml:space="preserve"> b </v>' }]);
  expect(at(0, 3, { value: false })).toMatchObject([{ text: "<v>0</v>" }]);
  expect(at(0, 4, { value: { error: "#SPILL!" } })).toMatchObject([{ text: "<v>#VALUE!</v>" }]);
  expect(at(0, 5, { value: { error: "#VALUE!" } })).toEqual([]);
  for (const refused of [
    at(0, 1, { value: "5" }), // of another type
    at(0, 5, { value: { error: "#N/A" } }), // with a rich value
    at(0, 6, { value: 5 }), // without a value so far
    at(0, 8, { value: "x" }), // a text inside
    at(0, 9, { value: "x" }), // a text that no formula gave
    at(1, 1, { value: "x" }), // a shared text
    at(3, 3, { value: 1 }), // no cell
    at(0, 1, { value: null }),
    at(0, 1, { value: 5, style: 0 }),
    at(0, 1, { value: 5, formula: null }),
    at(0, 1, { formula: { text: "1", kind: "normal" } }),
    at(0, 1, { numberFormat: "0.0" }),
    at(0, 1, { value: 5, look: { bold: true } }),
    at(0, 1, { value: 5, range: { firstRow: 0, firstColumn: 1, lastRow: 0, lastColumn: 1 } }),
  ])
    expect(refused).toBeUndefined();
});

it("writes the last of several values of a cell, and none where that is what it holds", () => {
  const [sheet] = tiny.model.sheets;
  const places = placesOf(tiny);
  const edits = (...values: readonly number[]): unknown =>
    sheet &&
    valueEdits(
      sheet,
      places,
      values.map((content) => ({ sheet: 0, row: 0, column: 1, value: content })),
    );
  expect(edits(5, 6)).toMatchObject([{ text: "<v>6</v>" }]);
  // B1 holds 2.
  expect(edits(5, 2)).toEqual([]);
});

it("knows where the values of a long sheet stand, one after the other", () => {
  const long = Array.from(
    { length: 700 },
    (_, row) => `<row r="${String(row + 1)}"><c r="A${String(row + 1)}"><v>${String(row)}</v></c></row>`,
  );
  const workbook = openWorkbook(tinyWorkbook({ rows: long.join("") }));
  const [sheet] = workbook.model.sheets;
  const places = placesOf(workbook);
  const text = sheet ? workbook.parts.readText(sheet.part) : "";
  for (const row of [0, 255, 256, 257, 511, 512, 699]) {
    const [edit] = (sheet && valueEdits(sheet, places, [{ sheet: 0, row, column: 0, value: -1 }])) ?? [];
    expect(text.slice(edit?.start, edit?.end)).toBe(`<v>${String(row)}</v>`);
  }
});

it("leaves to that walk what is written with a prefix, lies in disorder or is said twice", () => {
  const refuses = (workbook: OpenWorkbook): boolean => {
    const [sheet] = workbook.model.sheets;
    return (
      sheet !== undefined &&
      valueEdits(sheet, placesOf(workbook), [{ sheet: 0, row: 0, column: 0, value: 5 }]) === undefined
    );
  };
  const prefixed = `<x:worksheet xmlns:x="http://schemas.openxmlformats.org/spreadsheetml/2006/main"><x:sheetData><x:row r="1"><x:c r="A1"><x:v>1</x:v></x:c></x:row></x:sheetData></x:worksheet>`;
  expect(refuses(openWorkbook(tinyWorkbook({ rows: '<row r="1"><c r="A1"><v>1</v></c></row>' })))).toBe(
    false,
  );
  expect(refuses(openWorkbook(tinyWorkbook({ parts: { "xl/worksheets/sheet1.xml": prefixed } })))).toBe(true);
  expect(
    refuses(openWorkbook(tinyWorkbook({ rows: '<row r="1"><c r="B1"/><c r="A1"><v>1</v></c></row>' }))),
  ).toBe(true);
  expect(
    refuses(openWorkbook(tinyWorkbook({ rows: '<row r="1"><c r="A1"><v>1</v><is><t>a</t></is></c></row>' }))),
  ).toBe(true);
});
