import fc from "fast-check";
import { describe, expect, it } from "vitest";
import { cellAddress } from "../../src/formula/address";
import { type CellValue, WorkbookError } from "../../src/workbook/model";
import { openWorkbook } from "../../src/workbook/read";
import { isTextTable, readingText, textWorkbook } from "../../src/workbook/text-workbook";

const DATE = "2026-01-01T00:00:00Z";
const utf8 = (text: string): Uint8Array => new TextEncoder().encode(text);

function cellsOf(bytes: Uint8Array): Readonly<Record<string, CellValue>> {
  const [sheet] = openWorkbook(bytes).model.sheets;
  return Object.fromEntries(
    (sheet?.cells ?? []).map(({ row, column, value }) => [cellAddress(row, column), value]),
  );
}

describe("a supplier's list", () => {
  const text =
    'Artikel;Farbe;Größe;Preis;MwSt;ab\r\n00123;Navy;"11""";9,90 €;19%;1.000\r\n4;"Rosé; matt";5;1.234,50 €;;12\r\n;=1+1;;;;\r\n\r\n';
  const { bytes, reading } = textWorkbook(utf8(text), "Preise 2026/27.csv", DATE);

  it("becomes a sheet with what it says", () => {
    expect(cellsOf(bytes)).toEqual({
      A1: "Artikel",
      B1: "Farbe",
      C1: "Größe",
      D1: "Preis",
      E1: "MwSt",
      F1: "ab",
      A2: "00123",
      B2: "Navy",
      C2: '11"',
      D2: 9.9,
      E2: 0.19,
      F2: 1000,
      A3: 4,
      B3: "Rosé; matt",
      C3: 5,
      D3: 1234.5,
      F3: 12,
      B4: "=1+1",
    });
    const { model } = openWorkbook(bytes);
    const [sheet] = model.sheets;
    expect(sheet?.name).toBe("Preise 2026 27");
    expect(sheet?.cells.some(({ formula }) => formula !== undefined)).toBe(false);
    const price = sheet?.cells.find(({ row, column }) => row === 1 && column === 3);
    expect(model.styles[price?.style ?? 0]?.numberFormat).toBe('#,##0.00 "€"');
  });

  it("says how it was read", () => {
    expect(reading).toEqual({
      sheet: "Preise 2026 27",
      encoding: "UTF-8",
      separator: ";",
      decimalMark: ",",
      dateOrder: undefined,
      rows: 4,
      columns: 6,
      unclear: [],
    });
    expect(readingText(reading)).toBe(
      "UTF-8 text, columns between semicolons, decimal comma, 4 rows, 6 columns",
    );
  });
});

it("says one row and one column as such", () => {
  expect(readingText(textWorkbook(utf8("x"), "x.csv", DATE).reading)).toBe("UTF-8 text, 1 row, 1 column");
});

it("names the cells that it does not guess", () => {
  const { bytes, reading } = textWorkbook(utf8('item,price\nnavy,"1,234"\n'), "a.csv", DATE);
  expect(reading.unclear).toEqual([
    { cell: "B2", text: "1,234", why: "its mark may part thousands or decimals" },
  ]);
  expect(cellsOf(bytes)["B2"]).toBe("1,234");
});

it("takes the separator that the first line names", () => {
  const { bytes, reading } = textWorkbook(utf8("sep=|\r\na;b|c;d\r\n"), "a.csv", DATE);
  expect(reading.separator).toBe("|");
  expect(cellsOf(bytes)).toEqual({ A1: "a;b", B1: "c;d" });
});

it("reads inches where a quote is never closed", () => {
  expect(cellsOf(textWorkbook(utf8('size,colour\n"5,navy\n'), "a.csv", DATE).bytes)).toMatchObject({
    A2: '"5',
    B2: "navy",
  });
});

it.each([
  ["list.csv", utf8("a,b"), true],
  ["LIST.TSV", utf8("a"), true],
  ["list.xlsx", utf8("a,b"), false],
  ["list.csv", new Uint8Array([0x50, 0x4b, 3, 4]), false],
])("tells %s apart by its name and what it is: %j %s", (name, bytes, expected) => {
  expect(isTextTable(name, bytes)).toBe(expected);
});

it.each<[string, Uint8Array, RegExp]>([
  ["empty", new Uint8Array(), /^the file is empty$/],
  ["nothing but empty lines", utf8("\n\n"), /^the file is empty$/],
  ["no text", new Uint8Array([65, 0, 66, 1, 67, 2, 200]), /^the file is not text/],
  ["too wide", utf8(`a${",".repeat(20_000)}`), /^the file is too large to open: 1 rows and 20001 columns/],
  ["a text too long for a cell", utf8(`a,${"x".repeat(40_000)}`), /cannot hold a text of 40000 characters/],
])("is refused where it is %s", (_what, bytes, sentence) => {
  expect(() => textWorkbook(bytes, "a.csv", DATE)).toThrow(WorkbookError);
  expect(() => textWorkbook(bytes, "a.csv", DATE)).toThrow(sentence);
});

it("reads any bytes or says why not, and loses no text of a field", { timeout: 60_000 }, () => {
  const alphabet = fc.constantFrom(
    "a",
    "1",
    "0",
    ",",
    ";",
    ".",
    '"',
    "\n",
    "\t",
    "€",
    "%",
    "-",
    "=",
    " ",
    "/",
    "é",
  );
  fc.assert(
    fc.property(
      fc.oneof(fc.string({ unit: alphabet, maxLength: 60 }).map(utf8), fc.uint8Array({ maxLength: 60 })),
      (bytes) => {
        try {
          const { bytes: file, reading } = textWorkbook(bytes, "a.csv", DATE);
          const cells = cellsOf(file);
          for (const { cell, text } of reading.unclear) expect(cells[cell]).toBe(text);
        } catch (error) {
          expect(error).toBeInstanceOf(WorkbookError);
        }
      },
    ),
    { numRuns: 300 },
  );
});
