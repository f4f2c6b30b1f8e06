import { describe, expect, it } from "vitest";
import { checkContent, formulaMarkup, storedError, valueMarkup } from "../../src/workbook/cell-markup";
import type { CellContent } from "../../src/workbook/cell-markup";
import { PLAIN } from "../../src/workbook/xml";

const range = (
  firstRow: number,
  firstColumn: number,
  lastRow: number,
  lastColumn: number,
): NonNullable<CellContent["range"]> => {
  return { firstRow, firstColumn, lastRow, lastColumn };
};

// Excel's limits: 1,048,576 rows, 16,384 columns, 32,767 characters in a cell, 8,192 in a formula (Excel specifications and limits).
describe("what a cell can hold", () => {
  const check = (content: CellContent, row = 1, column = 1): (() => void) => {
    return () => {
      checkContent("Offer", { row, column }, content);
    };
  };
  const formula = (text: string): CellContent => ({ formula: { text, kind: "normal" } });

  it.each<[string, CellContent, number, number]>([
    ["a number in the first cell", { value: 1 }, 0, 0],
    ["a number in the last cell", { value: -1e308 }, 1_048_575, 16_383],
    ["the longest text", { value: "x".repeat(32_767) }, 1, 1],
    ["the longest formula", formula(`"${"x".repeat(8_190)}"`), 1, 1],
    ["no formula", { formula: null }, 1, 1],
    ["a formula with an equals sign inside", formula("A1=A2"), 1, 1],
    ["a range that begins in it", { range: range(1, 1, 1, 1) }, 1, 1],
    ["a range to the last cell", { range: range(1, 1, 1_048_575, 16_383) }, 1, 1],
    ["a formula over a range", { formula: { text: "A1:A2", kind: "array", range: range(1, 1, 2, 1) } }, 1, 1],
  ])("is %s", (_what, content, row, column) => {
    expect(check(content, row, column)).not.toThrow();
  });

  const OUTSIDE = 'a cell to be written on sheet "Offer" lies outside the sheet';
  const RANGE = 'cell B2 of sheet "Offer" cannot fill a range that does not begin in it';
  it.each<[string, CellContent, number, number, string]>([
    ["in front of the rows", { value: 1 }, -1, 0, OUTSIDE],
    ["in front of the columns", { value: 1 }, 0, -1, OUTSIDE],
    ["behind the rows", { value: 1 }, 1_048_576, 0, OUTSIDE],
    ["behind the columns", { value: 1 }, 0, 16_384, OUTSIDE],
    ["between rows", { value: 1 }, 0.5, 0, OUTSIDE],
    ["between columns", { value: 1 }, 0, 0.5, OUTSIDE],
    ["no number", { value: NaN }, 1, 1, 'cell B2 of sheet "Offer" cannot hold a number that is not finite'],
    ["a number without end", { value: -Infinity }, 1, 1, "cannot hold a number that is not finite"],
    [
      "a longer text",
      { value: "x".repeat(32_768) },
      1,
      1,
      "cannot hold a text of 32768 characters: Excel allows 32767",
    ],
    [
      "a longer formula",
      formula("x".repeat(8_193)),
      1,
      1,
      "cannot hold a formula of 8193 characters: Excel allows 8192",
    ],
    ["no text in a formula", formula("  "), 1, 1, "needs a formula without its equals sign"],
    ["a formula with its equals sign", formula("=A1"), 1, 1, "needs a formula without its equals sign"],
    [
      "a what-if table",
      { formula: { text: "TABLE(A1)", kind: "dataTable" } },
      1,
      1,
      "cannot be made a what-if table",
    ],
    ["a range from another row", { range: range(0, 1, 3, 3) }, 1, 1, RANGE],
    ["a range from another column", { range: range(1, 0, 3, 3) }, 1, 1, RANGE],
    ["a range that ends above", { range: range(1, 1, 0, 1) }, 1, 1, RANGE],
    ["a range that ends left", { range: range(1, 1, 1, 0) }, 1, 1, RANGE],
    ["a range beyond the rows", { range: range(1, 1, 1_048_576, 1) }, 1, 1, RANGE],
    ["a range beyond the columns", { range: range(1, 1, 1, 16_384) }, 1, 1, RANGE],
    [
      "a formula over another range",
      { formula: { text: "A1", kind: "array", range: range(0, 0, 1, 1) } },
      1,
      1,
      RANGE,
    ],
  ])("is not %s", (_what, content, row, column, sentence) => {
    expect(check(content, row, column)).toThrow(sentence);
  });
});

// ECMA-376 part 1, 18.3.1.4 and 18.18.11: types of cells; 18.3.1.40: formulas.
describe("the markup of a cell", () => {
  it.each([
    [1.5, true, null, "<v>1.5</v>"],
    [-0, true, null, "<v>0</v>"],
    // XML Schema part 2, 3.2.5: a double with its exponent.
    [1e21, true, null, "<v>1E+21</v>"],
    [true, false, "b", "<v>1</v>"],
    [false, false, "b", "<v>0</v>"],
    ["a<b", true, "str", "<v>a&lt;b</v>"],
    [" a", true, "str", '<v xml:space="preserve"> a</v>'],
    ["a", false, "inlineStr", "<is><t>a</t></is>"],
    ["a\n", false, "inlineStr", '<is><t xml:space="preserve">a\n</t></is>'],
    ["a b", false, "inlineStr", "<is><t>a b</t></is>"],
    [null, true, null, ""],
    [{ error: "#N/A" }, true, "e", "<v>#N/A</v>"],
    [{ error: "#CALC!" }, true, "e", "<v>#VALUE!</v>"],
  ])("says %j (a result: %s)", (value, isResult, type, markup) => {
    expect(valueMarkup(PLAIN, value, isResult)).toEqual({ type, markup });
  });

  it("says formulas with what they fill", () => {
    const place = { row: 1, column: 2 };
    expect(formulaMarkup(PLAIN, place, undefined)).toBe("");
    expect(formulaMarkup(PLAIN, place, { text: "A1&B1", kind: "normal" })).toBe("<f>A1&amp;B1</f>");
    expect(formulaMarkup(PLAIN, place, { text: "A1", kind: "array" })).toBe('<f t="array" ref="C2">A1</f>');
    expect(formulaMarkup(PLAIN, place, { text: "A1", kind: "dynamic", range: range(1, 2, 3, 2) })).toBe(
      '<f t="array" ref="C2:C4">A1</f>',
    );
  });

  // ECMA-376 part 1, 18.17.3 lists the errors that every Excel reads.
  it("keeps the errors of the standard", () => {
    for (const error of ["#NULL!", "#DIV/0!", "#VALUE!", "#REF!", "#NAME?", "#NUM!", "#N/A"])
      expect(storedError(error)).toBe(error);
    for (const error of ["#SPILL!", "#CALC!", "#FIELD!", "#BUSY!"])
      expect(storedError(error)).toBe("#VALUE!");
  });
});
